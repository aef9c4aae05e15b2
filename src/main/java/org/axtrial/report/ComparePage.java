package org.axtrial.report;

import io.pebbletemplates.pebble.error.PebbleException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunComparison;
import org.axtrial.evidence.RunComparison.CheckChange;
import org.axtrial.evidence.RunRecord;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** The page of a comparison: one HTML file that needs nothing beside itself, and the same for paper as PDF/A. */
public final class ComparePage {

    private static final String FILE = "compare.html";
    private static final String PDF = "compare.pdf";

    record Page(
            String style,
            String mark,
            List<String> sentences,
            Side baseline,
            Side run,
            List<Row> checks,
            List<TrialRow> trials,
            List<String> missing,
            List<String> conditions,
            List<String> parameters,
            List<View.Figure> figures) {}

    record Side(String runId, String when, View.Word verdict, String recordHash) {}

    record Row(
            String trial,
            String axis,
            String check,
            String earlier,
            String later,
            String change,
            String share,
            String error,
            String finding,
            List<String> limits,
            View.Word before,
            View.Word now,
            boolean flagged) {}

    record TrialRow(String trial, String axis, String title, View.Word before, View.Word now) {}

    private ComparePage() {}

    /**
     * Writes {@code compare.html} and {@code compare.pdf} into a folder, in place of older ones. The same packs give the
     * same bytes.
     *
     * @param baselineFolder pack of the baseline, for its traces
     * @param runFolder pack of the run
     * @return the HTML file
     * @throws EvidenceLostException if a trace is missing or altered, or a file cannot be written
     */
    public static Path write(
            Path folder,
            RunComparison comparison,
            Path baselineFolder,
            RunRecord baseline,
            Path runFolder,
            RunRecord run,
            PdfPrinter.Paper paper) {
        List<View.Figure> figures = new OverlayPlots(baselineFolder, baseline, runFolder, run).figures();
        try {
            Files.createDirectories(folder);
            Page page = page(comparison, figures, Templates.resource("report.css"));
            Path file = folder.resolve(FILE);
            Files.writeString(file, Templates.fill("compare", Map.of("p", page)));
            Files.write(
                    folder.resolve(PDF),
                    PdfPrinter.print(
                            Templates.fill("print-compare", Map.of("p", page)),
                            sheet(page, later(baseline, run), paper)));
            return file;
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException("the comparison cannot be written to " + folder + ": " + e.getMessage(), e);
        }
    }

    /** A comparison could be made from the end of the later run on. */
    private static Instant later(RunRecord baseline, RunRecord run) {
        Instant one = baseline.stamps().finishedAt();
        Instant other = run.stamps().finishedAt();
        return one.isAfter(other) ? one : other;
    }

    private static PdfPrinter.Sheet sheet(Page page, Instant made, PdfPrinter.Paper paper) {
        return new PdfPrinter.Sheet(
                "Comparison" + (page.mark().isEmpty() ? "" : " (" + page.mark() + ")") + ": run "
                        + page.run().runId() + " against " + page.baseline().runId(),
                "Comparison of two runs, record " + page.run().recordHash() + " against "
                        + page.baseline().recordHash(),
                made,
                paper,
                "Comparison of two runs",
                page.mark(),
                "Run " + page.run().runId(),
                "record " + page.run().recordHash().substring(0, 16) + "…");
    }

    private static Page page(RunComparison c, List<View.Figure> figures, String style) {
        return new Page(
                style,
                c.simulated() ? "SIMULATED" : "",
                CompareWords.sentences(c),
                side(c.baseline()),
                side(c.run()),
                c.checks().stream().map(ComparePage::row).toList(),
                c.trials().stream()
                        .filter(trial -> trial.was() != trial.is())
                        .map(trial -> new TrialRow(
                                trial.trial(),
                                trial.axis(),
                                trial.title(),
                                View.Word.of(trial.was()),
                                View.Word.of(trial.is())))
                        .toList(),
                CompareWords.missing(c),
                c.conditions(),
                CompareWords.parameters(c),
                figures);
    }

    private static Side side(RunComparison.Source source) {
        return new Side(
                source.runId(),
                Words.dateTime(source.startedAt()),
                View.Word.of(source.verdict()),
                source.recordHash());
    }

    private static Row row(CheckChange check) {
        Unit unit = check.unit();
        return new Row(
                check.key().trial(),
                check.key().axis(),
                Words.minus(check.key().check()),
                value(check.was(), unit),
                value(check.is(), unit),
                signed(check.change().change(), unit),
                CompareWords.share(check.shareOfTolerance()),
                CompareWords.error(check.change()),
                CompareWords.finding(check),
                check.limitsChanged()
                        ? List.of(
                                Words.minus(check.was().limits()),
                                Words.minus(check.is().limits()))
                        : List.of(Words.minus(check.is().limits())),
                View.Word.of(check.was().verdict()),
                View.Word.of(check.is().verdict()),
                check.verdictChanged() || check.movedInside() || check.limitsChanged());
    }

    private static String value(RunComparison.Side side, Unit unit) {
        if (side.value().isEmpty()) {
            return "no value";
        }
        String value = Words.minus(new Quantity(side.value().getAsDouble(), unit).printed(6));
        // No break inside the uncertainty, so that a narrow column shows it in one line.
        return side.standardUncertainty() == 0
                ? value + ", no uncertainty"
                : value + ", " + ("U = " + Words.uncertainty(side.expandedUncertainty(), unit)).replace(' ', '\u00a0');
    }

    private static String signed(OptionalDouble change, Unit unit) {
        if (change.isEmpty()) {
            return "—";
        }
        double value = change.getAsDouble();
        return (value > 0 ? "+" : "") + Words.minus(new Quantity(value, unit).printed(3));
    }
}
