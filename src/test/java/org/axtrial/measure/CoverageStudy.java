package org.axtrial.measure;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/**
 * Counts how often the stated intervals hold the truth, and writes the table of docs/measurement.md. Takes some minutes,
 * so it is not part of the tests; {@link CoverageTest} holds a smaller one against the same demands.
 */
final class CoverageStudy {

    static final int TRIALS = 10_000;
    static final Path DOCUMENT = Path.of("docs/measurement.md");
    static final String BEGIN = "<!-- coverage begins -->\n";
    static final String END = "<!-- coverage ends -->\n";
    private static final String RISK_BEGIN = "<!-- risk begins -->\n";
    private static final String RISK_END = "<!-- risk ends -->\n";
    private static final String RISK_HEAD = """
            | rule | true value, the limit being at most 100 | error | counted, % | by the rule, % |
            |---|---|---|---|---|
            """;
    private static final String HEAD = """
            | quantity | conditions | truth from | trials | intervals that hold the truth, % | 95.45 % of the errors are within | demanded, % |
            |---|---|---|---|---|---|---|
            """;

    private CoverageStudy() {}

    static List<CoverageCase> cases() {
        return Stream.of(
                        PositionCases.all(),
                        SignalCases.all(),
                        SeriesCases.all(),
                        PositioningCases.all(),
                        SimulatedCases.all())
                .flatMap(List::stream)
                .toList();
    }

    /** Prints the table; with the argument {@code write} puts it into the document too. A number sets the trials. */
    public static void main(String[] arguments) throws Exception {
        boolean write = List.of(arguments).contains("write");
        int trials = arguments.length > 0 && !write ? Integer.parseInt(arguments[0]) : TRIALS;
        List<String> lines = cases().parallelStream()
                .map(test -> told(test, Coverage.of(test, trials)))
                .toList();
        if (write) {
            List<String> risks =
                    DecisionRisk.all(trials).stream().map(DecisionRisk::line).toList();
            String document = withTable(Files.readString(DOCUMENT), BEGIN, END, HEAD, lines);
            Files.writeString(DOCUMENT, withTable(document, RISK_BEGIN, RISK_END, RISK_HEAD, risks));
        }
    }

    private static String told(CoverageCase test, Coverage coverage) {
        System.out.println((coverage.meets(test.demand(), 0) ? "   " : "!! ")
                + coverage.line(test)
                + (coverage.without() > 0 ? " without a value: " + coverage.without() : ""));
        return coverage.line(test);
    }

    private static String withTable(String document, String first, String last, String head, List<String> lines) {
        int begin = document.indexOf(first) + first.length();
        int end = document.indexOf(last);
        String table = lines.stream().collect(Collectors.joining("\n", head, "\n"));
        return document.substring(0, begin) + table + document.substring(end);
    }
}
