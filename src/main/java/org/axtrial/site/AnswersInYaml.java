package org.axtrial.site;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.quantity.NearMiss;
import tools.jackson.databind.JsonNode;

/** Answers as a YAML list under {@code answers:}. */
final class AnswersInYaml {

    private static final String LIST = "answers";

    private AnswersInYaml() {}

    static List<AnswerRow> read(Path file, Problems problems) {
        return YamlSource.read(file, problems).map(AnswersInYaml::rows).orElse(List.of());
    }

    private static List<AnswerRow> rows(YamlDocument document) {
        List<AnswerRow> rows = new ArrayList<>();
        document.root().propertyNames().forEach(key -> {
            if (!key.equals(LIST)) {
                document.keyProblem(key, "unknown key; the answers are a list under answers:");
            }
        });
        JsonNode list = document.root().path(LIST);
        if (!list.isArray() || list.isEmpty()) {
            document.problem(
                    LIST,
                    "expected a list such as - { trial: POS-01, axis: TABLE, name: \"Position at target 1\", value:"
                            + " 12.345, unit: mm }");
            return rows;
        }
        for (int i = 0; i < list.size(); i++) {
            String path = YamlDocument.join(LIST, i);
            JsonNode item = list.get(i);
            if (!item.isObject()) {
                document.problem(
                        path,
                        "expected keys such as { trial, axis, name, value, unit }, found "
                                + YamlDocument.describe(item));
                continue;
            }
            rows.add(row(document, path, item));
        }
        return rows;
    }

    private static AnswerRow row(YamlDocument document, String path, JsonNode item) {
        Map<String, AnswerRow.Cell> cells = new LinkedHashMap<>();
        item.forEachEntry((key, value) -> {
            String below = YamlDocument.join(path, key);
            if (!AnswersFile.KEYS.contains(key)) {
                document.keyProblem(
                        below,
                        SchemaCheck.isRestOfNumber(key)
                                ? "unknown key; if the comma before it is a decimal comma, write a point, such as 12.34"
                                : "unknown key; " + NearMiss.hintOrAll(key, AnswersFile.KEYS));
            } else if (!value.isString() && !value.isNumber()) {
                document.problem(below, "expected a text or a number, found " + YamlDocument.describe(value));
            } else if (!value.asString().isBlank()) {
                cells.put(
                        key,
                        new AnswerRow.Cell(
                                value.isNumber()
                                        ? value.decimalValue().toPlainString()
                                        : value.stringValue().strip(),
                                value.isNumber(),
                                document.place(below).orElse(YamlPlace.TOP)));
            }
        });
        return new AnswerRow(document.place(path).orElse(YamlPlace.TOP), path, cells);
    }
}
