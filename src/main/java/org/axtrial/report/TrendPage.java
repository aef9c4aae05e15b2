package org.axtrial.report;

import io.pebbletemplates.pebble.error.PebbleException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunComparison;
import org.axtrial.evidence.RunSetup.Fact;
import org.axtrial.evidence.RunTrend;
import org.axtrial.evidence.RunTrend.LeftOut;
import org.axtrial.evidence.RunTrend.Series;
import org.axtrial.evidence.Sha256;

/** The page of a trend, as one HTML file that needs nothing beside itself and for paper as PDF/A. */
public final class TrendPage {

    /** Name of the page. */
    public static final String FILE = "trend.html";

    /** Name of the printed page. */
    public static final String PDF = "trend.pdf";

    record Page(
            String style,
            String mark,
            String hash,
            String axes,
            List<String> sentences,
            List<Fact> machine,
            List<Run> runs,
            List<LeftOut> leftOut,
            List<String> conditions,
            List<Check> checks) {}

    record Run(String id, String when, View.Word verdict, String recordHash) {}

    record Check(
            String anchor,
            String name,
            String title,
            String finding,
            boolean flagged,
            String first,
            String last,
            String limits,
            View.Word verdict,
            String method,
            List<String> findings,
            List<String> changes,
            List<View.Figure> figures,
            List<Row> rows) {}

    record Row(String run, String when, String value, String limits, View.Word verdict, String aside) {}

    private TrendPage() {}

    /** The page; the same trend gives the same bytes. */
    public static byte[] html(RunTrend trend) {
        try {
            return Templates.fill("trend", Map.of("p", page(trend))).getBytes(StandardCharsets.UTF_8);
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException("the page of the trend cannot be made: " + e.getMessage(), e);
        }
    }

    /** The printed page; the same trend gives the same bytes. */
    public static byte[] pdf(RunTrend trend, PdfPrinter.Paper paper) {
        try {
            Page page = page(trend);
            return PdfPrinter.print(Templates.fill("print-trend", Map.of("p", page)), sheet(trend, page, paper));
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException("the trend cannot be printed: " + e.getMessage(), e);
        }
    }

    private static PdfPrinter.Sheet sheet(RunTrend trend, Page page, PdfPrinter.Paper paper) {
        Instant last = trend.runs().get(trend.runs().size() - 1).startedAt();
        return new PdfPrinter.Sheet(
                "Trend" + (page.mark().isEmpty() ? "" : " (" + page.mark() + ")") + ": " + page.axes(),
                "Values of acceptance trials over several runs, " + RunTrend.FILE + " " + page.hash(),
                last,
                paper,
                "Trend over several runs",
                page.mark(),
                Words.count(page.runs().size(), "run", "runs"),
                RunTrend.FILE + " " + page.hash().substring(0, 16) + "…");
    }

    private static Page page(RunTrend trend) throws IOException {
        List<Check> checks = new ArrayList<>();
        trend.series().forEach(series -> checks.add(check(series, "check-" + (checks.size() + 1))));
        return new Page(
                Templates.resource("report.css") + Templates.resource("trend.css"),
                trend.simulated() ? "SIMULATED" : "",
                Sha256.of(trend.json()),
                (trend.axes().size() == 1 ? "axis " : "axes ") + String.join(", ", trend.axes()),
                TrendWords.sentences(trend),
                trend.machine().stream()
                        .map(fact -> new Fact(Words.label(fact.name()), fact.value()))
                        .toList(),
                trend.runs().stream().map(TrendPage::run).toList(),
                trend.leftOut(),
                trend.conditions(),
                checks);
    }

    private static Run run(RunComparison.Source run) {
        return new Run(run.runId(), Words.dateTime(run.startedAt()), View.Word.of(run.verdict()), run.recordHash());
    }

    private static Check check(Series series, String anchor) {
        RunTrend.Point first = series.points().get(0);
        RunTrend.Point last = series.points().get(series.points().size() - 1);
        return new Check(
                anchor,
                TrendWords.name(series),
                series.title(),
                TrendWords.finding(series),
                series.flagged(),
                TrendWords.value(first, series.unit()),
                TrendWords.value(last, series.unit()),
                Words.minus(series.limits()),
                View.Word.of(last.verdict()),
                Words.minus(series.method()),
                TrendWords.findings(series),
                series.changes().stream().map(Words::minus).toList(),
                TrendPlot.of(series, anchor + "-plot").stream().toList(),
                series.points().stream().map(point -> row(series, point)).toList());
    }

    private static Row row(Series series, RunTrend.Point point) {
        return new Row(
                point.runId(),
                Words.dateTime(point.at()),
                TrendWords.value(point, series.unit()),
                Words.minus(point.limits()),
                View.Word.of(point.verdict()),
                point.aside().map(why -> "does not count: " + why).orElse(""));
    }
}
