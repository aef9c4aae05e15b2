package org.axtrial.site;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** Reads the limits that a site file sets for its scripts, for all axes and for single ones. */
final class LimitReader {

    private final List<SiteLimit> found = new ArrayList<>();
    private final QuantityReader quantities = new QuantityReader("", true);

    private LimitReader() {}

    static List<SiteLimit> read(YamlMap top) {
        LimitReader reader = new LimitReader();
        reader.block(top, Optional.empty());
        for (YamlMap axis : top.blocks("axes")) {
            reader.block(axis, axis.text("name"));
        }
        return reader.found;
    }

    private void block(YamlMap map, Optional<String> axis) {
        for (Map.Entry<String, YamlMap> trial : map.named("limits").entrySet()) {
            YamlMap limits = trial.getValue();
            limits.lines().forEach((name, text) -> {
                YamlDocument document = limits.document();
                String path = YamlDocument.join(limits.path(), name);
                YamlPlace place = document.place(path).orElse(YamlPlace.TOP);
                quantities
                        .check(document, path, text, Sense.LIMIT)
                        .ifPresent(value -> found.add(new SiteLimit(
                                trial.getKey(),
                                name,
                                axis,
                                value,
                                new Problem(document.file(), path, place.line(), place.column(), ""))));
            });
        }
    }
}
