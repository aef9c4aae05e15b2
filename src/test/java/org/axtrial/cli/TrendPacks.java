package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EarlierRun;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;
import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.Contribution;
import org.axtrial.measure.Criterion;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.report.HtmlReport;

/** Writes packs of one invented machine that verify, one for each day, with one check each. */
final class TrendPacks {

    static final Instant FIRST = Instant.parse("2031-03-04T10:00:00Z");

    private static final String SCRIPT = "wear.js";

    private final Path reports;

    String axis = "TABLE";
    String serial = "0001";
    String method = "Largest following error of the move.";
    Unit unit = Unit.DEGREE;
    double limit = 2.0;
    double uncertainty = 0.02;
    RunInfo.Mode mode = RunInfo.Mode.REAL;
    Optional<EarlierRun> earlier = Optional.empty();
    Measurement.Bound bound = Measurement.Bound.EXACT;
    int attempts = 1;

    TrendPacks(Path reports) {
        this.reports = reports;
    }

    static String runId(int day) {
        return "day-%02d".formatted(day);
    }

    /** The run of a day; its folder. */
    Path day(int day, double value) {
        Instant at = FIRST.plus(Duration.ofDays(day));
        EvidencePack pack = EvidencePack.create(
                reports, runId(day), List.of(new EvidencePack.SourceFile("site.yaml", Path.of("pom.xml"))));
        pack.accept(new RunEvent.RunStarted(at, info(day)));
        for (int attempt = 1; attempt <= attempts; attempt++) {
            TrialKey key = new TrialKey(SCRIPT, "WEAR-01", axis, attempt);
            // All but the last attempt show another value, which must not count.
            double shown = attempt < attempts ? value + 100 : value;
            boolean passes = shown <= limit;
            pack.accept(
                    attempt == 1
                            ? new RunEvent.TrialStarted(at, key)
                            : new RunEvent.TrialStarted(at, key, Optional.of("the cable was loose")));
            pack.accept(new RunEvent.CheckJudged(
                    at.plusSeconds(attempt),
                    key,
                    "Peak following error",
                    new Judgement(
                            measured(shown),
                            new Criterion.AtMost(new Quantity(limit, unit)),
                            passes ? Verdict.PASS : Verdict.FAIL,
                            OptionalDouble.of(limit - shown),
                            passes ? "" : "above the limit"),
                    Optional.empty(),
                    List.of(),
                    Optional.empty()));
            pack.accept(new RunEvent.TrialFinished(
                    at.plusSeconds(attempt), key, passes ? Verdict.PASS : Verdict.FAIL, passes ? "" : "too large"));
        }
        pack.accept(new RunEvent.RunFinished(at.plusSeconds(9), Optional.empty()));
        RunRecord record = pack.finish();
        // Without a PDF, which a pack may lack and which would take most of the time.
        HtmlReport.write(pack.folder(), record);
        Manifest.write(pack.folder());
        return pack.folder();
    }

    /** A run that tries the trial of an earlier day again. */
    Path again(int day, int earlierDay, Path earlierPack, double value) throws IOException {
        earlier = Optional.of(new EarlierRun(
                runId(earlierDay),
                Sha256.of(earlierPack.resolve("record.json")),
                "the belt was loose",
                List.of(new EarlierRun.Tried(SCRIPT, "WEAR-01", axis, 1, Verdict.FAIL, "too large")),
                List.of()));
        Path pack = day(day, value);
        earlier = Optional.empty();
        return pack;
    }

    private Measurement measured(double value) {
        return new Measurement(
                "peak following error",
                method,
                value,
                unit,
                bound,
                Source.DRIVE,
                OptionalDouble.of(0.004),
                uncertainty / 10,
                List.of(new Contribution(
                        "scatter of the moves", Contribution.Evaluation.A, "many moves", uncertainty, 1e6)),
                List.of(),
                Optional.empty());
    }

    private RunInfo info(int day) {
        return new RunInfo(
                        runId(day),
                        mode,
                        SiteSession.TOOL,
                        "Java",
                        "R. Example",
                        Map.of("title", "Trend"),
                        Map.of("name", "Indexing table", "serial", serial),
                        "Simple acceptance.",
                        List.of(new RunInfo.AxisInfo(
                                axis,
                                "table",
                                "type D",
                                "10.0.0.11:502 unit 1",
                                mode != RunInfo.Mode.REAL,
                                AxisScale.rotary(65536),
                                Map.of())),
                        List.of(new RunInfo.PlannedTrial(SCRIPT, "WEAR-01", axis, "Wear of the belt", "")))
                .asked(Optional.empty(), Optional.empty(), earlier, Optional.empty());
    }
}
