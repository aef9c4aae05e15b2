package org.axtrial.measure;

import java.util.List;

/** Cells as lines of text with aligned columns. */
final class TextTable {

    private TextTable() {}

    /** All lines of the same number of cells; two blanks between columns, none at the end. */
    static String aligned(List<List<String>> lines) {
        StringBuilder text = new StringBuilder();
        for (List<String> line : lines) {
            for (int column = 0; column < line.size(); column++) {
                int at = column;
                int width =
                        lines.stream().mapToInt(l -> l.get(at).length()).max().orElse(0);
                String cell = line.get(column);
                boolean last = column == line.size() - 1;
                text.append(cell).append(last ? "\n" : " ".repeat(width - cell.length() + 2));
            }
        }
        return text.toString();
    }
}
