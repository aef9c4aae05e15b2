package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunTrend;
import org.axtrial.evidence.Sha256;
import org.axtrial.measure.Measurement;
import org.axtrial.quantity.Unit;
import org.axtrial.report.PdfConformance;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The values of many runs in order of time, through the command line. */
@Timeout(120)
class TrendCommandTest {

    private static final JsonMapper JSON = new JsonMapper();

    /** Rises by 0.05 each day with a little scatter. */
    private static final double[] RISING = {1.00, 1.06, 1.09, 1.16, 1.19, 1.26, 1.30, 1.34, 1.41, 1.44};

    private static final double[] STEADY = {1.00, 1.02, 0.99, 1.01, 0.98, 1.02, 1.00, 0.99, 1.01, 1.00};

    @TempDir
    private Path folder;

    private Path reports = Path.of("");
    private TrendPacks packs = new TrendPacks(Path.of(""));
    private String out = "";
    private String err = "";

    @BeforeEach
    void start() {
        reports = folder.resolve("reports");
        packs = new TrendPacks(reports);
    }

    private void days(double... values) {
        for (int day = 0; day < values.length; day++) {
            packs.day(day, values[day]);
        }
    }

    private int trend(Object... words) throws IOException {
        if (Files.exists(to())) {
            for (String name : new String[] {"trend.json", "trend.html", "trend.pdf", "trend.csv"}) {
                Files.delete(to().resolve(name));
            }
            Files.delete(to());
        }
        Called called = Called.with(Stream.concat(
                        Stream.of("trend", "--out", to().toString()),
                        Arrays.stream(words).map(String::valueOf))
                .toArray(String[]::new));
        out = called.out();
        err = called.err();
        return called.code();
    }

    private Path to() {
        return folder.resolve("out");
    }

    private JsonNode json() throws IOException {
        return JSON.readTree(Files.readAllBytes(to().resolve("trend.json")));
    }

    private String page() throws IOException {
        return Files.readString(to().resolve("trend.html"));
    }

    private String paper() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(to().resolve("trend.pdf").toFile())) {
            return new PDFTextStripper().getText(pdf).replaceAll("\\s+", " ");
        }
    }

    /** A general validator of JSON Schema 2020-12. */
    private static Schema schema() throws IOException {
        try (InputStream in = RunTrend.class.getResourceAsStream("trend.schema.json")) {
            return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        }
    }

    @Test
    void aValueThatRisesIsFlaggedAndTheDayOfItsLimitToldWithItsInterval() throws IOException {
        days(RISING);
        assertThat(trend(reports)).as(out + err).isEqualTo(ExitCode.NOT_PROVEN.code());
        assertThat(out)
                .contains(
                        "1 check in 10 runs, 2031-03-04 10:00:00 UTC to 2031-03-13 10:00:00 UTC.",
                        "1 check shows a sign of drift.",
                        "Peak following error, WEAR-01 on TABLE: ",
                        "drifts",
                        "Drifts by +0.0494°",
                        "each day (95 %)",
                        "5 of 10 values outside the control limits: runs day-00, day-01, day-02, day-08, day-09.",
                        // (2 − 1.0027)/0.04939 is 20.2 days after the first of ten.
                        "At this rate the limit 2° is farther off than the time that was watched");
        JsonNode series = json().at("/series/0");
        assertThat(schema().validate(json())).isEmpty();
        // By hand, least squares over days 0 to 9: Σ(x−4.5)(y−1.225)/82.5.
        assertThat(series.at("/study/slope/perSecond").asDouble() * 86_400).isCloseTo(0.04939394, within(1e-8));
        assertThat(series.at("/points")).hasSize(10);
        assertThat(series.at("/signs").toString()).contains("SLOPE");
        assertThat(json().at("/runs/0/recordHash").asString())
                .isEqualTo(Sha256.of(reports.resolve("day-00/record.json")));
        assertThat(page())
                .contains("<svg class=\"plot\"", "days after the first run", "day-09", "<strong>")
                .doesNotContain("<script", "http://", "https://", "SIMULATED");
        for (int day = 0; day < RISING.length; day++) {
            assertThat(Manifest.verify(reports.resolve(TrendPacks.runId(day)))).isEmpty();
        }
    }

    @Test
    void aNearLimitIsToldWithBothEnds() throws IOException {
        packs.limit = 1.6;
        days(RISING);
        assertThat(trend(reports)).isEqualTo(ExitCode.NOT_PROVEN.code());
        // (1.6 − 1.0027)/0.04939 = 12.1 days after 4 March.
        assertThat(out).contains("the line meets the limit 1.6° about 2031-03-16, with 95 % between 2031-03-15 and");
        assertThat(paper().replace("- ", "-")).contains("about 2031-03-16");
    }

    @Test
    void aSteadyValueIsNot() throws IOException {
        days(STEADY);
        assertThat(trend(reports)).as(out + err).isZero();
        assertThat(out).contains("No check shows a sign of drift.").doesNotContain("limit");
        assertThat(schema().validate(json())).isEmpty();
        assertThat(json().at("/series/0/study/meeting").isNull()).isTrue();
        assertThat(page()).contains("No slope that differs from zero", "from 10 values only");
    }

    // Source: RFC 4180, section 2, for rows and separators; the values are those of trend.json.
    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {"en-GB|,|.", "de-DE|;|,"})
    void theTableHasEveryValueAsTheLocaleWritesIt(String locale, String separator, String decimal) throws IOException {
        days(RISING);
        assertThat(trend(reports, "--locale", locale)).as(err).isEqualTo(ExitCode.NOT_PROVEN.code());
        String[] rows = Files.readString(to().resolve("trend.csv")).split("\r\n", -1);
        List<String> head = List.of(rows[0].substring(1).split(separator, -1));
        assertThat(rows[0]).startsWith("\uFEFFaxis" + separator).doesNotContain("\"");
        JsonNode points = json().at("/series/0/points");
        assertThat(rows).hasSize(1 + points.size() + 1);
        for (int i = 0; i < points.size(); i++) {
            String[] cells = rows[i + 1].split(separator, -1);
            assertThat(cells).hasSameSizeAs(head);
            assertThat(cells[head.indexOf("run")])
                    .isEqualTo(points.at("/" + i + "/runId").asString());
            if (i > 0) {
                // The first value is 1 and has no decimals.
                assertThat(cells[head.indexOf("value")]).contains(decimal);
            }
            assertThat(Double.parseDouble(cells[head.indexOf("value")].replace(decimal, ".")))
                    .isEqualTo(points.at("/" + i + "/value").asDouble());
            assertThat(cells[head.indexOf("check")]).isEqualTo("Peak following error");
        }
    }

    @Test
    void anUnknownLocaleIsRefusedBeforeAnythingIsWritten() throws IOException {
        days(RISING);
        assertThat(trend(reports, "--locale", "xx-YY")).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("--locale xx-YY is not known; give one such as de-DE or en-GB");
        assertThat(to()).doesNotExist();
    }

    @Test
    void thePrintHasTheValueOfEveryRun() throws IOException {
        days(RISING);
        trend(reports);
        String text = paper();
        for (int day = 0; day < RISING.length; day++) {
            assertThat(text).containsPattern("day-0" + day + " 2031-03-\\d\\d \\d\\d:00:\\d\\d UTC 1\\.?\\d*°");
        }
        assertThat(text).contains("Run Judged Value Limits Verdict");
    }

    @Test
    void theOrderOfTheFoldersMakesNoDifference() throws IOException {
        days(RISING);
        trend(reports);
        byte[] first = Files.readAllBytes(to().resolve("trend.json"));
        byte[] page = Files.readAllBytes(to().resolve("trend.pdf"));
        Object[] backwards = new Object[RISING.length];
        for (int i = 0; i < backwards.length; i++) {
            backwards[i] = reports.resolve(TrendPacks.runId(backwards.length - 1 - i));
        }
        trend(backwards);
        assertThat(Files.readAllBytes(to().resolve("trend.json"))).isEqualTo(first);
        assertThat(Files.readAllBytes(to().resolve("trend.pdf"))).isEqualTo(page);
    }

    // Source: veraPDF, rules of ISO 19005-2 level A and of ISO 14289-1.
    @ParameterizedTest
    @ValueSource(strings = {"A4", "Letter"})
    void thePdfIsForArchivesAndScreenReaders(String paper) throws Exception {
        packs.mode = RunInfo.Mode.REHEARSAL;
        days(RISING);
        assertThat(trend(reports, "--paper", paper)).isEqualTo(ExitCode.NOT_PROVEN.code());
        byte[] pdf = Files.readAllBytes(to().resolve("trend.pdf"));
        assertThat(PdfConformance.offences(pdf, PDFAFlavour.PDFA_2_A)).isEmpty();
        assertThat(PdfConformance.offences(pdf, PDFAFlavour.PDFUA_1)).isEmpty();
        assertThat(paper())
                .contains("SIMULATED", "Trend of axis TABLE", "Drifts by +0.0494°", "page 1 of ", "End of trend")
                .contains(Sha256.of(to().resolve("trend.json")));
        assertThat(page()).contains("SIMULATED");
    }

    @Test
    void aRunThatDoesNotVerifyIsLeftOutAndNamed() throws IOException {
        days(STEADY);
        Files.writeString(reports.resolve("day-03/site.yaml"), "altered");
        Files.delete(reports.resolve("day-05/record.json"));
        assertThat(trend(reports)).isEqualTo(ExitCode.NOT_PROVEN.code());
        assertThat(out)
                .contains("in 8 runs", "2 folders were left out.")
                .contains("Left out: " + reports.resolve("day-03") + " does not verify; \"axtrial verify")
                .contains("Left out: " + reports.resolve("day-05") + " is not finished");
        assertThat(json().at("/leftOut")).hasSize(2);
        assertThat(schema().validate(json())).isEmpty();
        assertThat(page()).contains("does not verify");
    }

    @Test
    void aRunCountsOnceEvenInsideAMergedFolder() throws IOException {
        days(STEADY);
        Path merged = folder.resolve("merged");
        Called.with(
                "merge",
                "-o",
                merged.toString(),
                reports.resolve("day-00").toString(),
                reports.resolve("day-01").toString());
        assertThat(trend(merged, reports)).as(out + err).isZero();
        assertThat(json().at("/series/0/points")).hasSize(10);
        assertThat(out).contains("is run day-00 as ", "which counts once");
        assertThat(trend(merged)).isZero();
        assertThat(json().at("/series/0/points")).hasSize(2);
    }

    @Test
    void twoRecordsOfOneRunCountNeither() throws IOException {
        days(STEADY);
        TrendPacks other = new TrendPacks(folder.resolve("other"));
        Path twin = other.day(4, 1.5);
        assertThat(trend(reports, twin)).isZero();
        assertThat(json().at("/series/0/points")).hasSize(9);
        assertThat(out).contains("is run day-04 with another record than a further folder, so neither counts");
    }

    @Test
    void ofSeveralAttemptsTheLastCountsAndARetestTakesThePlaceOfWhatItTriesAgain() throws IOException {
        days(1.0, 1.02, 0.99);
        packs.attempts = 3;
        packs.day(3, 1.01);
        packs.attempts = 1;
        Path failed = packs.day(4, 2.6);
        packs.again(5, 4, failed, 1.0);
        packs.day(6, 1.01);
        assertThat(trend(reports)).as(out + err).isZero();
        JsonNode points = json().at("/series/0/points");
        assertThat(points).hasSize(7);
        assertThat(points.path(3).path("value").asDouble()).isEqualTo(1.01);
        assertThat(points.path(4).path("aside").asString()).isEqualTo("tried again in run day-05");
        assertThat(page()).contains("does not count: tried again in run day-05", "dot-aside");
    }

    @Test
    void anotherMachineAndASimulatedRunAreLeftOut() throws IOException {
        days(STEADY);
        packs.serial = "0002";
        packs.day(-1, 5);
        packs.serial = "0001";
        packs.mode = RunInfo.Mode.REHEARSAL;
        packs.day(20, 5);
        assertThat(trend(reports)).as(out + err).isZero();
        assertThat(json().at("/series/0/points")).hasSize(10);
        assertThat(out)
                .contains("is of another machine than the last run, day-09: serial \"0002\" and \"0001\"")
                .contains("is simulated, and other runs are real");
    }

    @Test
    void changedLimitsAreToldAndTheLastOnesHold() throws IOException {
        days(1.00, 1.02, 0.99, 1.01);
        packs.limit = 1.5;
        packs.day(4, 1.0);
        packs.day(5, 1.02);
        assertThat(trend(reports)).isZero();
        assertThat(json().at("/series")).hasSize(1);
        assertThat(json().at("/series/0/upper").asDouble()).isEqualTo(1.5);
        assertThat(json().at("/series/0/changes/0").asString())
                .isEqualTo("Limits changed with run day-04: at most 2° before, at most 1.5° since");
        assertThat(page()).contains("Limits changed with run day-04");
        assertThat(paper()).contains("Limits changed with run day-04");
    }

    @Test
    void anotherWayOfMeasuringIsAnotherSeries() throws IOException {
        days(1.00, 1.02, 0.99);
        packs.method = "Root mean square of the following error of the move.";
        packs.day(3, 0.4);
        packs.day(4, 0.41);
        assertThat(trend(reports)).isZero();
        assertThat(json().at("/series")).hasSize(2);
        assertThat(json().at("/series/0/points")).hasSize(2);
        assertThat(json().at("/series/1/points")).hasSize(3);
        assertThat(page()).contains("Root mean square", "Largest following error");
    }

    @Test
    void anotherUnitOfTheSameKindIsCarriedOver() throws IOException {
        days(1.00, 1.02, 0.99);
        packs.unit = Unit.ARC_MINUTE;
        packs.limit = 120;
        packs.uncertainty = 1.2;
        packs.day(3, 60.6);
        packs.day(4, 59.4);
        assertThat(trend(reports)).isZero();
        JsonNode points = json().at("/series/0/points");
        assertThat(points).hasSize(5);
        assertThat(points.path(1).path("value").asDouble()).isCloseTo(61.2, within(1e-9));
        assertThat(points.path(1).path("expandedUncertainty").asDouble()).isCloseTo(2.4, within(1e-6));
    }

    @Test
    void aBoundIsShownAndDoesNotCount() throws IOException {
        days(1.00, 1.02, 0.99, 1.01);
        packs.bound = Measurement.Bound.AT_MOST;
        packs.day(4, 1.9);
        assertThat(trend(reports)).isZero();
        assertThat(json().at("/series/0/points/4/aside").asString()).isEqualTo("only a bound");
        assertThat(page()).contains("at most 1.9°", "does not count: only a bound");
    }

    @Test
    void anUnknownAxisIsRefusedWithTheOneThatWasMeant() throws IOException {
        days(1.00, 1.02);
        assertThat(trend(reports, "--axis", "TABEL")).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("no run has an axis \"TABEL\": did you mean \"TABLE\"?");
        assertThat(to()).doesNotExist();
        assertThat(trend(reports, "--axis", "TABLE")).isZero();
    }

    @Test
    void aRunWithoutTheAxisIsLeftOut() throws IOException {
        days(1.00, 1.02);
        packs.axis = "LIFT";
        packs.day(2, 7);
        assertThat(trend(reports, "--axis", "TABLE")).isZero();
        assertThat(out).contains("day-02 has no axis TABLE");
        assertThat(json().at("/series")).hasSize(1);
        assertThat(trend(reports)).isZero();
        assertThat(json().at("/series")).hasSize(2);
        assertThat(out).contains("2 checks have fewer than three values to compare");
    }

    @Test
    void wrongFoldersAreRefused() throws IOException {
        Path empty = Files.createDirectory(folder.resolve("empty"));
        assertThat(trend(empty)).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("holds no folder of a run");
        assertThat(trend(folder.resolve("none"))).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("there is no folder");
        assertThat(trend(Path.of("pom.xml"))).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("is a file");
        assertThat(trend()).isEqualTo(ExitCode.WRONG_USE.code());
        Path one = packs.day(0, 1);
        assertThat(trend(reports)).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("a trend needs two runs at least, one is left");
        assertThat(trend(one, one)).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("one is left", "which counts once");
        assertThat(to()).doesNotExist();
    }

    @Test
    void nothingIsWrittenIntoAPackOrOverAnything() throws IOException {
        days(1.00, 1.02);
        Path inside = reports.resolve("day-00/x");
        Called into = Called.with("trend", reports.toString(), "--out", inside.toString());
        assertThat(into.code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(into.err()).contains("lies inside", "would no longer verify");
        assertThat(inside).doesNotExist();
        assertThat(trend(reports)).isZero();
        Called again = Called.with("trend", reports.toString(), "--out", to().toString());
        assertThat(again.code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(again.err()).contains("is already there; give a new name with --out");
    }
}
