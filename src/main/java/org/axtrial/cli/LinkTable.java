package org.axtrial.cli;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.evidence.LinkRecord;

/** The links of a site as a table, and under it what is wrong or not proven. */
final class LinkTable {

    private static final List<String> HEAD =
            List.of("Axis", "Reached at", "Result", "50 %", "99 %", "Worst", "Errors", "Values");

    private final Terminal terminal;

    LinkTable(Terminal terminal) {
        this.terminal = terminal;
    }

    void print(List<LinkRecord> links) {
        List<List<String>> rows = new ArrayList<>();
        rows.add(HEAD);
        links.forEach(link -> rows.add(List.of(
                link.axis(),
                link.peer(),
                word(link.outcome()),
                fact(link, "Reply time, half of all looks"),
                fact(link, "Reply time, 99 % of all looks"),
                fact(link, "Reply time, worst"),
                fact(link, "Errors"),
                fact(link, "Values as expected"))));
        terminal.line("");
        for (List<String> row : rows) {
            StringBuilder line = new StringBuilder();
            for (int column = 0; column < row.size(); column++) {
                int at = column;
                int width = rows.stream()
                        .mapToInt(one -> one.get(at).length())
                        .max()
                        .orElse(0);
                line.append("  ").append(String.format("%-" + Math.max(1, width) + "s", row.get(column)));
            }
            terminal.line(line.toString().stripTrailing());
        }
        terminal.line("");
        links.forEach(link -> link.findings().forEach(finding -> finding(link.axis(), finding)));
    }

    private void finding(String axis, LinkRecord.Finding finding) {
        terminal.line(axis + ", " + word(finding.grade()) + ": " + finding.text());
        finding.readings().forEach(reading -> terminal.line("    " + reading));
        finding.corrections().forEach(correction -> terminal.line("    look at " + correction));
    }

    static String word(LinkRecord.Grade grade) {
        return switch (grade) {
            case PROVEN -> "proven";
            case NOT_PROVEN -> "not proven";
            case WRONG -> "WRONG";
        };
    }

    private static String fact(LinkRecord link, String name) {
        return link.facts().stream()
                .filter(fact -> fact.name().equals(name))
                .map(fact -> fact.value())
                .findFirst()
                .orElse("–");
    }
}
