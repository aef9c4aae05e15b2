package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.InputFormat;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Objects;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.PositioningRecord;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.SampleRun;
import org.axtrial.measure.PositioningPoint;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** A positioning test from the event to the plot and the table on page and paper. */
class PositioningPlotTest {

    /** Means +2 and −1, deviations s of exactly 1 and 0: worked out by hand from the formulas of ISO 230-2. */
    private static final List<PositioningPoint> POINTS = List.of(
            new PositioningPoint(0, List.of(1.0, 2.0, 3.0), List.of(-1.0, -1.0, -1.0)),
            new PositioningPoint(100, List.of(2.0, 2.0, 2.0), List.of(1.0, 2.0, 3.0)));

    @TempDir
    private Path reports;

    private RunRecord write(boolean driveReported) {
        EvidencePack pack = EvidencePack.create(reports, SampleRun.RUN_ID, List.of());
        boolean[] told = {false};
        SampleRun.full(RunInfo.Mode.REAL, Instant.parse("2031-03-04T10:11:12Z")).forEach(event -> {
            pack.accept(event);
            if (event instanceof RunEvent.TrialStarted started && !told[0]) {
                told[0] = true;
                pack.accept(new RunEvent.PositioningMeasured(
                        started.at(), started.key(), Unit.MICROMETRE, driveReported, POINTS));
            }
        });
        RunRecord record = pack.finish();
        HtmlReport.write(pack.folder(), record);
        PdfReport.write(pack.folder(), record, PdfPrinter.Paper.A4);
        return record;
    }

    private Path pack() {
        return reports.resolve(SampleRun.RUN_ID);
    }

    @Test
    void theRecordKeepsEveryDeviationAndFitsItsSchema() throws Exception {
        RunRecord record = write(false);

        List<PositioningRecord> kept = record.trials().stream()
                .flatMap(trial -> trial.attempts().stream())
                .flatMap(attempt -> attempt.positioning().stream())
                .toList();
        assertThat(kept).hasSize(1);
        assertThat(kept.get(0).targets())
                .extracting(PositioningRecord.Target::point)
                .isEqualTo(POINTS);
        assertThat(RunRecord.read(pack())).isEqualTo(record);
        try (var schema = Objects.requireNonNull(
                RunRecord.class.getResourceAsStream("/org/axtrial/evidence/record.schema.json"))) {
            assertThat(SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                            .getSchema(schema)
                            .validate(Files.readString(pack().resolve("record.json")), InputFormat.JSON))
                    .isEmpty();
        }
    }

    @Test
    void pageAndPaperShowBothDirectionsAndTheSameNumbers() throws Exception {
        write(false);

        String html = Files.readString(pack().resolve("report.html"), StandardCharsets.UTF_8);
        String row =
                html.substring(html.indexOf("0 µm</th>")).split("</tr>", 2)[0].replaceAll("<[^>]+>", " ");
        // Mean ↑ 2, s ↑ 1, mean ↓ −1, s ↓ 0, B = 2 − (−1) = 3, R = max(2·1 + 2·0 + 3, 4·1, 0) = 5.
        assertThat(row.replaceAll("\\s+", " ").strip()).isEqualTo("0 µm 2 µm 1 µm −1 µm 0 µm 3 µm 5 µm");
        assertThat(html).contains("target position / µm", "deviation / µm", "Positions read on an instrument.");
        // For each direction a line of means and, at each of two targets, a bar with two ends.
        String svg = html.substring(html.indexOf("Positioning (ISO 230-2)")).split("</svg>", 2)[0];
        assertThat(svg.split("class=\"actual\"", -1)).hasSize(1 + 1 + 2 * 3);
        assertThat(svg.split("class=\"demand\"", -1)).hasSize(1 + 1 + 2 * 3);
        try (var pdf = Loader.loadPDF(pack().resolve("report.pdf").toFile())) {
            assertThat(new PDFTextStripper().getText(pdf).replaceAll("\\s+", " "))
                    .contains("Positioning (ISO 230-2)", "Mean ↑", "0 µm 2 µm 1 µm −1 µm 0 µm 3 µm 5 µm");
        }
    }

    @Test
    void positionsOfTheDriveAreCalledThat() throws Exception {
        write(true);

        assertThat(Files.readString(pack().resolve("report.html")))
                .contains("Positions as reported by the drive: they show how well its loop closes");
    }

    @Test
    void oneCycleHasNoBars() {
        PositioningRecord test = new PositioningRecord(
                Instant.EPOCH,
                Unit.MICROMETRE,
                false,
                List.of(new PositioningRecord.Target(0, List.of(1.0), List.of(2.0))));

        View.Positioning view = new PositioningPlot("p", test).view();

        assertThat(view.caption()).contains("of which one cycle tells nothing");
        assertThat(view.rows().get(0).deviationUp()).isEqualTo("–");
    }

    @Test
    void aTrialWithoutOneHasNoSuchMember() throws Exception {
        EvidencePack pack = EvidencePack.create(reports, SampleRun.RUN_ID, List.of());
        SampleRun.small().forEach(pack::accept);
        RunRecord unused = pack.finish();

        assertThat(Files.readString(pack().resolve("record.json"))).doesNotContain("\"positioning\"");
    }
}
