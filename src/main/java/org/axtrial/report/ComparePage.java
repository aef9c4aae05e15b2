package org.axtrial.report;

import io.pebbletemplates.pebble.error.PebbleException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.OptionalDouble;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunComparison;
import org.axtrial.evidence.RunComparison.CheckChange;
import org.axtrial.evidence.RunRecord;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** The page of a comparison: one HTML file that needs nothing beside itself. */
public final class ComparePage {

    private static final String FILE = "compare.html";

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
     * Writes {@code compare.html} into a folder, in place of an older one.
     *
     * @param baselineFolder pack of the baseline, for its traces
     * @param runFolder pack of the run
     * @throws EvidenceLostException if a trace is missing or altered, or the page cannot be written
     */
    public static Path write(
            Path folder,
            RunComparison comparison,
            Path baselineFolder,
            RunRecord baseline,
            Path runFolder,
            RunRecord run) {
        Path file = folder.resolve(FILE);
        List<View.Figure> figures = new OverlayPlots(baselineFolder, baseline, runFolder, run).figures();
        try {
            Files.createDirectories(folder);
            Page page = page(comparison, figures, Templates.resource("report.css"));
            Files.writeString(file, Templates.fill("compare", Map.of("p", page)));
            return file;
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException(file + " cannot be written: " + e.getMessage(), e);
        }
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
        return side.standardUncertainty() == 0
                ? value + ", no uncertainty"
                : value + ", U = " + Words.uncertainty(side.expandedUncertainty(), unit);
    }

    private static String signed(OptionalDouble change, Unit unit) {
        if (change.isEmpty()) {
            return "—";
        }
        double value = change.getAsDouble();
        return (value > 0 ? "+" : "") + Words.minus(new Quantity(value, unit).printed(3));
    }
}
