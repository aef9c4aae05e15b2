package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Objects;
import java.util.Optional;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TraceRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.axtrial.report.HtmlReport;
import org.axtrial.script.People;
import org.axtrial.script.Readings;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** A latched peak from the register to the report, and the same script on a drive without latches. */
@Timeout(120)
class LatchedRunTest {

    private static final String BODY = """
            axis.enable();
            const out = axis.moveBy(50, "mm", { speed: [100, "mm/s"] });
            t.check("torque", out.peakTorque(), atMost(300, "%"));
            t.check("following", out.peakFollowingError(), atMost(20, "mm"));
            const small = axis.moveBy(1, "mm", { speed: [5, "mm/s"] });
            t.check("small", small.peakTorque(), atMost(300, "%"));
            const end = axis.moveUntilStopped(385, "mm", { by: "limit", speed: [60, "mm/s"] });
            t.check("sampled", end.peakTorque(), atMost(300, "%"));
            """;

    @TempDir
    Path folder;

    private String drive = "";
    private String html = "";

    @BeforeEach
    void typeF() throws Exception {
        drive = Files.readString(Path.of("test-scripts/drives/type-f.yaml"));
    }

    private TrialRecord.Attempt run() throws Exception {
        Path scripts = folder.resolve("acceptance");
        Files.createDirectories(scripts);
        Files.createDirectories(folder.resolve("drives"));
        Files.writeString(folder.resolve("drives/type-f.yaml"), drive);
        String site = Files.readString(Path.of("test-scripts/acceptance/site.yaml"));
        Path siteFile = scripts.resolve("site.yaml");
        Files.writeString(
                siteFile,
                site.substring(0, site.indexOf("  # Vertical, belt"))
                        .replaceAll("(?s)scripts:.*?instruments:", "instruments:"));
        Path script = scripts.resolve("peaks.js");
        Files.writeString(
                script,
                "import { trial, atMost } from \"axtrial\";\ntrial(\"Peaks\", { id: \"P-1\" }, (axis, t) => {\n" + BODY
                        + "\n});\n");
        Site read = SiteFile.load(siteFile);
        SiteSession.Answering nobody =
                new SiteSession.Answering(Readings.NONE, People.REHEARSED, Retests.NONE, Optional.empty());
        try (SiteSession session = SiteSession.open(
                read,
                How.REHEARSAL,
                SiteSession.scripts(read, List.of(script)),
                folder.resolve("reports"),
                "nobody",
                nobody)) {
            assertThat(AcceptanceRun.of(session.session()).problems()).isEmpty();
            RunRecord record = session.pack().finish();
            assertThat(schema().validate(
                                    Files.readString(session.pack().folder().resolve("record.json")), InputFormat.JSON))
                    .isEmpty();
            html = new String(HtmlReport.bytes(session.pack().folder(), record), StandardCharsets.UTF_8);
            return record.trials().get(0).deciding().orElseThrow();
        }
    }

    private static Schema schema() throws IOException {
        try (InputStream in = Objects.requireNonNull(RunRecord.class.getResourceAsStream("record.schema.json"))) {
            return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8), InputFormat.JSON);
        }
    }

    @Test
    void aLatchedPeakIsLabelledInRecordAndReportAndTheSampledOneStandsBesideIt() throws Exception {
        TrialRecord.Attempt attempt = run();

        assertThat(attempt.verdict()).as(attempt.reason()).isEqualTo(Verdict.PASS);
        assertThat(attempt.checks())
                .extracting(check -> check.measured().source())
                .containsExactly(Source.LATCHED, Source.LATCHED, Source.LATCHED, Source.DRIVE);
        CheckRecord torque = attempt.checks().get(0);
        assertThat(torque.measured().marks().get(0).label()).startsWith("largest sample ");
        assertThat(torque.measured().budget()).hasSize(1);
        // The smaller move follows a larger one: its latch is its own.
        assertThat(attempt.checks().get(2).measured().value().orElseThrow())
                .isLessThan(torque.measured().value().orElseThrow());
        TraceRecord kept = attempt.traces().get(0);
        assertThat(kept.latched()).extracting(TraceRecord.Peak::name).containsExactly("followingError", "torque");
        assertThat(kept.latched().get(1).value())
                .isEqualTo(torque.measured().value().orElseThrow());
        assertThat(html).contains("latched by the drive", "drive-reported", "; largest sample ");
    }

    @Test
    void withoutLatchesTheSamplesTell() throws Exception {
        drive = drive.replaceAll("(?m)^clearPeaks.*\n", "").replaceAll("(?m)^ +peak(Torque|FollowingError):.*\n", "");

        TrialRecord.Attempt attempt = run();

        assertThat(attempt.checks())
                .extracting(check -> check.measured().source())
                .containsOnly(Source.DRIVE);
        assertThat(attempt.traces()).allMatch(trace -> trace.latched().isEmpty());
        assertThat(html).doesNotContain("latched by the drive");
    }
}
