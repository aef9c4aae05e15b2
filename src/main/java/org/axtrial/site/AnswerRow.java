package org.axtrial.site;

import java.util.Map;
import java.util.Optional;

/**
 * One answer as it stands in its file.
 *
 * @param place where it begins
 * @param path YAML path; empty in a table
 * @param cells what stands under each known key, without blanks around it; keys without text are absent
 */
record AnswerRow(YamlPlace place, String path, Map<String, Cell> cells) {

    /**
     * One text.
     *
     * @param plain whether it is a number by the rules of the file format, whose decimal sign is the point
     */
    record Cell(String text, boolean plain, YamlPlace place) {}

    Optional<Cell> cell(String key) {
        return Optional.ofNullable(cells.get(key));
    }
}
