package org.axtrial.site;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.quantity.NearMiss;

/**
 * Answers as a table with a header (RFC 4180). The separator is a semicolon, a tab or a comma, whichever the header has.
 */
final class AnswersInCsv {

    private static final long MAX_BYTES = 1_000_000;
    private static final char BYTE_ORDER_MARK = '\ufeff';

    private final Path file;
    private final Problems problems;
    private final String text;
    private final char separator;
    private int at;
    private int line = 1;

    private AnswersInCsv(Path file, Problems problems, String text) {
        this.file = file;
        this.problems = problems;
        this.text = text;
        String header = text.lines().findFirst().orElse("");
        this.separator = header.indexOf(';') >= 0 ? ';' : header.indexOf('\t') >= 0 ? '\t' : ',';
    }

    static List<AnswerRow> read(Path file, Problems problems) {
        problems.open(file);
        try {
            if (Files.size(file) > MAX_BYTES) {
                problems.add(file, "", YamlPlace.NOWHERE, "the file is larger than " + MAX_BYTES + " bytes");
                return List.of();
            }
            String text = Files.readString(file, StandardCharsets.UTF_8);
            boolean marked = !text.isEmpty() && text.charAt(0) == BYTE_ORDER_MARK;
            return new AnswersInCsv(file, problems, marked ? text.substring(1) : text).rows();
        } catch (IOException e) {
            problems.add(
                    file, "", YamlPlace.NOWHERE, "the file cannot be read; it must be there, and in UTF-8 (" + e + ")");
            return List.of();
        }
    }

    private List<AnswerRow> rows() {
        List<String> header = record();
        for (String key : header) {
            if (!AnswersFile.KEYS.contains(key)) {
                problem(1, "unknown column \"" + key + "\"; " + NearMiss.hintOrAll(key, AnswersFile.KEYS));
            }
        }
        List<String> needed = header.contains("kind") ? List.of("trial", "axis", "name") : AnswerKind.READING.needed();
        for (String key : needed) {
            if (!header.contains(key)) {
                problem(
                        1,
                        "the header has no column " + key + "; the first line names the columns, such as"
                                + " trial;axis;name;value;unit");
            }
        }
        List<AnswerRow> rows = new ArrayList<>();
        while (at < text.length()) {
            int begin = line;
            List<String> cells = record();
            if (cells.stream().allMatch(String::isEmpty)) {
                continue;
            }
            if (cells.size() != header.size()) {
                problem(
                        begin,
                        "the line has " + cells.size() + " cells and the header " + header.size()
                                + "; put a cell with the separator \"" + separator + "\" in it in quotation marks");
                continue;
            }
            YamlPlace place = new YamlPlace(begin, 1);
            Map<String, AnswerRow.Cell> row = new LinkedHashMap<>();
            for (int i = 0; i < cells.size(); i++) {
                if (!cells.get(i).isEmpty()) {
                    row.put(header.get(i), new AnswerRow.Cell(cells.get(i), false, place));
                }
            }
            rows.add(new AnswerRow(place, "", row));
        }
        return rows;
    }

    private void problem(int inLine, String message) {
        problems.add(file, "", new YamlPlace(inLine, 1), message);
    }

    /** The cells up to the end of the line; a line end in quotation marks belongs to its cell. */
    private List<String> record() {
        List<String> cells = new ArrayList<>();
        StringBuilder cell = new StringBuilder();
        boolean quoted = false;
        int begin = line;
        while (at < text.length()) {
            char c = text.charAt(at++);
            if (c == '\n') {
                line++;
            }
            if (quoted && c == '"' && at < text.length() && text.charAt(at) == '"') {
                cell.append(text.charAt(at++));
            } else if (c == '"' && (quoted || cell.toString().isBlank())) {
                quoted = !quoted;
            } else if (!quoted && c == separator) {
                cells.add(cell.toString().strip());
                cell.setLength(0);
            } else if (!quoted && c == '\n') {
                break;
            } else {
                cell.append(c);
            }
        }
        if (quoted) {
            problem(begin, "a quotation mark is opened in this line and never closed");
        }
        cells.add(cell.toString().strip());
        return cells;
    }
}
