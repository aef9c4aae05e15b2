package org.axtrial.site;

import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.Map;
import java.util.Optional;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import tools.jackson.databind.JsonNode;

/** Reads a set of approved parameters: for each axis names with values, in YAML or JSON. */
public final class ApprovedParameters {

    private ApprovedParameters() {}

    /**
     * Reads a file such as {@code INFEED: { ratedTorque: 2.4 Nm, gearNumerator: 1 }}.
     *
     * @return quantities by axis and parameter, in file order
     * @throws SiteProblemsException with everything that is no value, each with its line
     */
    public static Map<String, Map<String, Quantity>> read(Path file) throws SiteProblemsException {
        Problems problems = new Problems();
        Optional<YamlDocument> document = YamlSource.read(file, problems);
        Map<String, Map<String, Quantity>> approved = new LinkedHashMap<>();
        document.ifPresent(found -> found.root().properties().forEach(axis -> {
            if (axis.getValue().isObject()) {
                Map<String, Quantity> values = new LinkedHashMap<>();
                axis.getValue().properties().forEach(value -> {
                    String path = YamlDocument.join(axis.getKey(), value.getKey());
                    quantity(found, path, value.getValue()).ifPresent(quantity -> values.put(value.getKey(), quantity));
                });
                approved.put(axis.getKey(), values);
            } else {
                found.problem(axis.getKey(), "expected parameters with values below the name of an axis");
            }
        }));
        if (!problems.isEmpty()) {
            throw new SiteProblemsException(problems.sorted());
        }
        return approved;
    }

    private static Optional<Quantity> quantity(YamlDocument document, String path, JsonNode value) {
        if (value.isNumber()) {
            return Optional.of(new Quantity(value.doubleValue(), Unit.ONE));
        }
        try {
            return Optional.of(Quantity.parse(value.isString() ? value.stringValue() : ""));
        } catch (IllegalArgumentException e) {
            document.problem(
                    path,
                    "expected a number and a unit such as \"2.4 Nm\", or a plain number, found "
                            + YamlDocument.describe(value));
            return Optional.empty();
        }
    }
}
