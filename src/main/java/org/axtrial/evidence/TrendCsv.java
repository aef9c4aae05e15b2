package org.axtrial.evidence;

import java.util.List;
import java.util.Locale;
import java.util.OptionalDouble;

/** The values of a trend as a {@link CsvTable}: one row for each run of each check, in the order of the trend. */
public final class TrendCsv {

    /** Its name in the folder of a trend. */
    public static final String FILE = "trend.csv";

    private static final List<String> HEAD = List.of(
            "axis",
            "script",
            "trial",
            "title",
            "check",
            "occurrence",
            "method",
            "run",
            "judged (UTC)",
            "value",
            "bound",
            "unit",
            "U",
            "limits",
            "verdict",
            "does not count because");

    private TrendCsv() {}

    /**
     * The table.
     *
     * @param locale decides the decimal sign, comma or point, and with it the separator, semicolon or comma
     */
    public static String text(RunTrend trend, Locale locale) {
        CsvTable table = new CsvTable(locale, HEAD);
        for (RunTrend.Series series : trend.series()) {
            for (RunTrend.Point point : series.points()) {
                table.row(List.of(
                        CsvTable.words(series.key().axis()),
                        CsvTable.words(series.key().script()),
                        CsvTable.words(series.key().trial()),
                        CsvTable.words(series.title()),
                        CsvTable.words(series.key().check()),
                        String.valueOf(series.key().occurrence()),
                        CsvTable.words(series.method()),
                        CsvTable.words(point.runId()),
                        CsvTable.words(point.at().toString()),
                        table.number(point.value()),
                        CsvTable.words(point.bound()),
                        CsvTable.words(series.unit().symbol()),
                        point.value().isEmpty() ? "" : table.number(OptionalDouble.of(point.expandedUncertainty())),
                        CsvTable.words(point.limits()),
                        CsvTable.words(point.verdict().printed()),
                        CsvTable.words(point.aside().orElse(""))));
            }
        }
        return table.text();
    }
}
