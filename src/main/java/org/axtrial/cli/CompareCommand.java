package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.evidence.Comparing;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.RunComparison;
import org.axtrial.evidence.RunComparison.CheckChange;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;
import org.axtrial.evidence.Snapshot;
import org.axtrial.evidence.SnapshotRecord;
import org.axtrial.measure.ValueChange.Outcome;
import org.axtrial.quantity.Quantity;
import org.axtrial.report.ComparePage;
import org.axtrial.report.CompareWords;
import org.axtrial.report.PdfPrinter.Paper;
import org.axtrial.survey.ParameterSurvey;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Holds a run against an earlier one. */
@Command(
        name = "compare",
        mixinStandardHelpOptions = true,
        description = {
            "Holds a run against an earlier one of the same machine: as left against as found, or against the accepted baseline.",
            "Writes compare.html, compare.pdf and compare.json. Nothing moves; both packs are only read, and must be as their manifests say."
        },
        footer = {
            "",
            "Exit codes: 0 all is as it was, as far as the uncertainty lets see; 1 a verdict became worse; 2 wrong use;",
            "3 no verdict became worse, but something moved, differs or could not be compared; 5 a pack does not verify."
        })
final class CompareCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(index = "0", paramLabel = "BASELINE", description = "Folder of the earlier run")
    private Path baseline = Path.of("");

    @Parameters(index = "1", paramLabel = "RUN", description = "Folder of the run that is looked at")
    private Path run = Path.of("");

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description = "Where to write, by default reports/compare-RUN-BASELINE")
    private Optional<Path> out = Optional.empty();

    @Option(names = "--with-simulated", description = "Compare a simulated run with a real one all the same")
    private boolean withSimulated;

    @Option(
            names = "--paper",
            paramLabel = "SIZE",
            defaultValue = "A4",
            converter = PaperOption.class,
            description = "Paper that compare.pdf is laid out for: A4 or Letter. Default: ${DEFAULT-VALUE}")
    private Paper paper = Paper.A4;

    CompareCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws IOException {
        RunRecord before = verified(baseline);
        RunRecord now = verified(run);
        if (before.simulated() != now.simulated() && !withSimulated) {
            throw new WrongUseException((before.simulated() ? baseline : run)
                    + " is simulated and the other run is real; a simulated axis proves nothing about a machine."
                    + " Say --with-simulated to compare them all the same");
        }
        RunComparison comparison = compare(before, now);
        Path folder = folder(before, now);
        Path page = ComparePage.write(folder, comparison, baseline, before, run, now, paper);
        comparison.write(folder);
        print(comparison, page);
        return (comparison.worse() ? ExitCode.FAILED : comparison.same() ? ExitCode.PASSED : ExitCode.NOT_PROVEN)
                .code();
    }

    private RunComparison compare(RunRecord before, RunRecord now) throws IOException {
        try {
            return Comparing.compare(
                    before,
                    Sha256.of(baseline.resolve("record.json")),
                    now,
                    Sha256.of(run.resolve("record.json")),
                    parameters(before, now));
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(baseline + " and " + run + " cannot be compared:\n  " + e.getMessage());
        }
    }

    private static RunRecord verified(Path pack) {
        RunFolder.requireFinished(pack);
        List<Manifest.Difference> differences = Manifest.verify(pack);
        if (!differences.isEmpty()) {
            throw new EvidenceLostException(
                    pack + " is not as its manifest says: "
                            + String.join(
                                    "; ",
                                    differences.stream()
                                            .map(Manifest.Difference::toString)
                                            .toList()),
                    null);
        }
        return RunRecord.read(pack);
    }

    /** The page and its file stand outside both packs, whose manifests would not know them. */
    private Path folder(RunRecord before, RunRecord now) {
        Path folder = out.orElse(Path.of(
                "reports",
                "compare-" + now.stamps().runId() + "-" + before.stamps().runId()));
        Path chosen = folder.toAbsolutePath().normalize();
        for (Path pack : List.of(baseline, run)) {
            if (chosen.startsWith(pack.toAbsolutePath().normalize())) {
                throw new WrongUseException(
                        "--out " + folder + " lies inside the pack " + pack + ", which would no longer verify");
            }
        }
        return folder;
    }

    private Optional<List<SnapshotRecord.Difference>> parameters(RunRecord before, RunRecord now) {
        return last(before)
                .flatMap(was -> last(now)
                        .map(is -> ParameterSurvey.compare(
                                ParameterSurvey.values(Snapshot.read(run.resolve(is.file()))),
                                ParameterSurvey.values(Snapshot.read(baseline.resolve(was.file()))))));
    }

    private static Optional<SnapshotRecord> last(RunRecord record) {
        List<SnapshotRecord> all = record.snapshots();
        return all.isEmpty() ? Optional.empty() : Optional.of(all.get(all.size() - 1));
    }

    private void print(RunComparison comparison, Path page) {
        terminal.line("Run " + comparison.run().runId() + " against "
                + comparison.baseline().runId() + (comparison.simulated() ? "  SIMULATED" : ""));
        CompareWords.sentences(comparison).forEach(sentence -> terminal.line("  " + sentence));
        comparison.checks().stream()
                .filter(check -> check.verdictChanged()
                        || check.limitsChanged()
                        || check.change().outcome() != Outcome.WITHIN_UNCERTAINTY)
                .forEach(this::print);
        CompareWords.missing(comparison).forEach(line -> terminal.line("  " + line));
        CompareWords.parameters(comparison).forEach(line -> terminal.line("  " + line));
        comparison.conditions().forEach(line -> terminal.line("  " + line));
        terminal.line("Comparison: " + page);
    }

    private void print(CheckChange check) {
        terminal.line(String.format(
                "  %s on %s, %s: %s %s → %s %s, %s of the tolerance, %s",
                check.key().trial(),
                check.key().axis(),
                check.key().check(),
                check.was().verdict().printed(),
                value(check, check.was()),
                check.is().verdict().printed(),
                value(check, check.is()),
                CompareWords.share(check.shareOfTolerance()),
                CompareWords.finding(check)));
    }

    private static String value(CheckChange check, RunComparison.Side side) {
        return side.value().isPresent()
                ? new Quantity(side.value().getAsDouble(), check.unit()).printed(6)
                : "(no value)";
    }
}
