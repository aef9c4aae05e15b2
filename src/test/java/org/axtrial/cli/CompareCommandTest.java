package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Consumer;
import java.util.stream.Stream;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.RunComparison;
import org.axtrial.evidence.Sha256;
import org.axtrial.report.PdfConformance;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;
import tools.jackson.databind.node.ArrayNode;
import tools.jackson.databind.node.ObjectNode;

/** A run held against an earlier one, through the command line. */
@Timeout(120)
class CompareCommandTest {

    private static final JsonMapper JSON = new JsonMapper();

    @TempDir
    private Path folder;

    private Path baseline = Path.of("");
    private Path run = Path.of("");
    private String out = "";
    private String err = "";

    @BeforeEach
    void twoPacks() throws IOException {
        baseline = copy("before");
        run = copy("after");
        alter(run, record -> ((ObjectNode) record.path("stamps")).put("runId", "after"));
    }

    private Path copy(String name) throws IOException {
        Path sample = Path.of("reports/sample");
        Path target = folder.resolve(name);
        try (Stream<Path> files = Files.walk(sample)) {
            for (Path file : files.toList()) {
                Files.copy(file, target.resolve(sample.relativize(file).toString()));
            }
        }
        return target;
    }

    private static void alter(Path pack, Consumer<ObjectNode> change) throws IOException {
        Path file = pack.resolve("record.json");
        ObjectNode record = (ObjectNode) JSON.readTree(Files.readAllBytes(file));
        change.accept(record);
        Files.write(file, JSON.writeValueAsBytes(record));
        Manifest.write(pack);
    }

    private static ObjectNode check(ObjectNode record) {
        return (ObjectNode) record.at("/trials/0/attempts/0/checks/0");
    }

    private int compare(String... options) {
        Called called = Called.with(words(options));
        out = called.out();
        err = called.err();
        return called.code();
    }

    private String[] words(String... options) {
        Stream<String> place = List.of(options).contains("--out")
                ? Stream.of()
                : Stream.of("--out", folder.resolve("out").toString());
        return Stream.of(Stream.of("compare", baseline.toString(), run.toString()), place, Stream.of(options))
                .flatMap(words -> words)
                .toArray(String[]::new);
    }

    private JsonNode json() throws IOException {
        return JSON.readTree(Files.readAllBytes(folder.resolve("out/compare.json")));
    }

    private String page() throws IOException {
        return Files.readString(folder.resolve("out/compare.html"));
    }

    private static Schema schema() throws IOException {
        try (InputStream in = RunComparison.class.getResourceAsStream("comparison.schema.json")) {
            return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(new String(in.readAllBytes(), StandardCharsets.UTF_8));
        }
    }

    @Test
    void theSameValuesAreTheSame() throws IOException {
        int code = compare();
        assertThat(out).contains("No check came to another verdict.", "No value that is inside its limits");
        JsonNode json = json();
        assertThat(schema().validate(json)).isEmpty();
        assertThat(json.at("/baseline/recordHash").asString()).isEqualTo(Sha256.of(baseline.resolve("record.json")));
        assertThat(json.at("/run/recordHash").asString()).isEqualTo(Sha256.of(run.resolve("record.json")));
        assertThat(json.path("checks"))
                .isNotEmpty()
                .allMatch(check -> !check.path("limitsChanged").asBoolean());
        assertThat(json.path("checks"))
                .allMatch(check -> check.at("/change/outcome").asString().equals("WITHIN_UNCERTAINTY"));
        assertThat(code).isZero();
        assertThat(page())
                .contains("SIMULATED", "<svg class=\"plot\"", "The same motions of both runs")
                .doesNotContain("<script", "http://", "https://");
    }

    @Test
    void aValueThatMovedInsideItsLimitsIsFlagged() throws IOException {
        // Two steps of a count each, four rectangular parts of ± 1/2 in all: of their sum (2 − x)⁴/12 lies beyond ± x,
        // 4.55 %
        // beyond 1.1404; 3 counts of 8 are 37.5 % and E_n = 2.631, by hand.
        alter(run, record -> ((ObjectNode) check(record).path("measured")).put("value", 3.0));
        assertThat(compare()).isEqualTo(ExitCode.NOT_PROVEN.code());
        assertThat(out).contains("inside the limits but moved", "+37.5 % of the tolerance");
        JsonNode first = json().at("/checks/0");
        assertThat(first.at("/change/outcome").asString()).isEqualTo("MOVED");
        assertThat(first.at("/change/normalisedError").asDouble()).isBetween(2.630, 2.632);
        assertThat(page()).contains("<strong>inside the limits but moved</strong>", "+2.63");
    }

    @Test
    void aWorseVerdictComesFirst() throws IOException {
        alter(run, record -> {
            ((ObjectNode) check(record).path("measured")).put("value", 9.0);
            check(record).put("verdict", "FAIL").put("reason", "too far");
            ((ObjectNode) record.at("/trials/0")).put("verdict", "FAIL").put("reason", "too far");
        });
        assertThat(compare()).isEqualTo(ExitCode.FAILED.code());
        assertThat(out).contains("The verdict became worse in 1 check and better in 0 checks.");
        assertThat(json().at("/checks/0/is/verdict").asString()).isEqualTo("FAIL");
        assertThat(json().at("/trials/0/is").asString()).isEqualTo("FAIL");
        assertThat(schema().validate(json())).isEmpty();
    }

    @Test
    void changedLimitsAreTold() throws IOException {
        alter(
                run,
                record -> ((ObjectNode) check(record).path("criterion"))
                        .put("plusMinus", 4.0)
                        .put("lower", -4.0)
                        .put("upper", 4.0)
                        .put("printed", "0 count ± 4 count"));
        assertThat(compare()).isEqualTo(ExitCode.NOT_PROVEN.code());
        assertThat(out).contains("The limits of 1 check changed.", "limits changed");
        assertThat(page()).contains("0 count ± 8 count", "0 count ± 4 count");
    }

    @Test
    void whatOneRunLacksIsListed() throws IOException {
        alter(baseline, record -> ((ArrayNode) record.path("trials")).remove(0));
        alter(run, record -> ((ArrayNode) record.at("/trials/1/attempts/0/checks")).remove(0));
        assertThat(compare()).isEqualTo(ExitCode.NOT_PROVEN.code());
        assertThat(out).contains("Only in the run: RST-01 on", "Only in the baseline: ");
        assertThat(json().path("onlyInBaseline")).hasSize(1);
        assertThat(json().path("onlyInRun")).hasSize(1);
        assertThat(schema().validate(json())).isEmpty();
    }

    @Test
    void simulatedAgainstRealIsRefusedUnlessSaid() throws IOException {
        alter(run, record -> {
            ((ObjectNode) record.path("setup")).put("mode", "REAL");
            record.at("/setup/axes").forEach(axis -> ((ObjectNode) axis).put("simulated", false));
        });
        assertThat(compare()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("is simulated and the other run is real", "--with-simulated");
        assertThat(folder.resolve("out")).doesNotExist();
        assertThat(compare("--with-simulated")).isNotEqualTo(ExitCode.WRONG_USE.code());
        assertThat(out).contains("SIMULATED", "One of both runs was simulated");
    }

    @Test
    void anotherMachineIsRefused() throws IOException {
        alter(
                run,
                record -> record.at("/setup/machine").forEach(fact -> {
                    if (fact.path("name").asString().equals("serial")) {
                        ((ObjectNode) fact).put("value", "0002");
                    }
                }));
        assertThat(compare()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("different machines: serial \"0001\" and \"0002\"");
    }

    @Test
    void otherAxesAreRefused() throws IOException {
        alter(run, record -> record.at("/setup/axes").forEach(axis -> ((ObjectNode) axis).put("name", "OTHER")));
        assertThat(compare()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("no axis in common", "OTHER");
    }

    @Test
    void anotherKindOfUnitIsRefused() throws IOException {
        alter(run, record -> {
            ((ObjectNode) check(record).path("measured")).put("unit", "ms");
            ((ObjectNode) check(record).path("criterion")).put("unit", "ms");
        });
        assertThat(compare()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("cannot be compared: the units are count and ms");
    }

    @Test
    void anAlteredPackIsRefused() throws IOException {
        Files.writeString(run.resolve("site.yaml"), "altered");
        assertThat(compare()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        assertThat(err).contains("is not as its manifest says", "ALTERED site.yaml");
    }

    @Test
    void nothingIsWrittenIntoAPack() throws IOException {
        assertThat(compare("--out", run.resolve("x").toString())).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(Manifest.verify(run)).isEqualTo(List.of());
    }

    private static void snapshot(Path pack, String... values) throws IOException {
        Files.writeString(pack.resolve("snapshot.json"), """
                {"format": "axtrial-snapshot-1", "takenAt": "2031-03-04T10:11:12Z", "state": null, "axes": [
                  {"axis": "TURNTABLE", "driveType": "type D", "peer": "simulated", "values": [%s]}]}
                """.formatted(String.join(", ", values)));
        alter(pack, record -> {
            ObjectNode kept = record.putArray("snapshots").addObject();
            kept.putNull("state").put("file", "snapshot.json").put("sha256", "").put("parameters", values.length);
            kept.put("unreadable", 0).putNull("against").putArray("differences");
        });
    }

    private static String value(String name, String value) {
        return "{\"name\": \"%s\", \"value\": %s, \"unit\": \"1\", \"raw\": \"0001\", \"trouble\": \"\"}"
                .formatted(name, value);
    }

    @Test
    void aParameterThatDiffersIsToldWithOldAndNewValue() throws IOException {
        snapshot(baseline, value("positionGain", "40"), value("oldFilter", "3"), value("same", "7"));
        snapshot(run, value("positionGain", "55"), value("newFilter", "2"), value("same", "7"));
        assertThat(compare()).isEqualTo(ExitCode.NOT_PROVEN.code());
        assertThat(out)
                .contains(
                        "3 parameters differ.",
                        "TURNTABLE, positionGain: was 40, is 55",
                        "TURNTABLE, oldFilter: only in the baseline, 3",
                        "TURNTABLE, newFilter: only in the run, 2")
                .doesNotContain("same:");
        assertThat(json().path("parameters")).hasSize(3);
        assertThat(schema().validate(json())).isEmpty();
        assertThat(page()).contains("TURNTABLE, positionGain: was 40, is 55");
        assertThat(paper()).contains("TURNTABLE, positionGain: was 40, is 55");
    }

    @Test
    void equalParametersAreToldAsSuch() throws IOException {
        snapshot(baseline, value("positionGain", "40"));
        snapshot(run, value("positionGain", "40"));
        assertThat(compare()).isZero();
        assertThat(out).contains("No parameter differs.");
    }

    @Test
    void aTrialThatOnlyTheBaselineHasIsListed() throws IOException {
        alter(run, record -> ((ArrayNode) record.path("trials")).remove(0));
        assertThat(compare()).isEqualTo(ExitCode.NOT_PROVEN.code());
        assertThat(out).contains("Only in the baseline: RST-01 on TURNTABLE");
        assertThat(paper()).contains("Only in the baseline: RST-01 on TURNTABLE");
    }

    @Test
    void aValueInAnotherUnitOfTheSameKindIsCarriedOver() throws IOException {
        // 0.05 rev are 18°: exactly the same place, so nothing may have moved.
        alter(
                run,
                record -> record.at("/trials")
                        .forEach(trial -> trial.at("/attempts/0/checks")
                                .forEach(check -> inDegrees((ObjectNode) check.path("measured")))));
        assertThat(compare()).isZero();
        assertThat(json().path("checks"))
                .anyMatch(check -> check.path("unit").asString().equals("deg"))
                .allMatch(check -> check.at("/change/outcome").asString().equals("WITHIN_UNCERTAINTY"));
    }

    private static void inDegrees(ObjectNode measured) {
        if (measured.path("unit").asString().equals("rev")) {
            measured.put("unit", "deg");
            measured.put("value", 360 * measured.path("value").asDouble());
            for (String size : List.of("resolution", "standardUncertainty", "expandedUncertainty")) {
                measured.put(size, 360 * measured.path(size).asDouble());
            }
            measured.path("budget")
                    .forEach(line -> List.of("spread", "standardUncertainty")
                            .forEach(size -> ((ObjectNode) line)
                                    .put(size, 360 * line.path(size).asDouble())));
        }
    }

    private String paper() throws IOException {
        try (PDDocument pdf = Loader.loadPDF(folder.resolve("out/compare.pdf").toFile())) {
            return new PDFTextStripper().getText(pdf).replaceAll("\\s+", " ");
        }
    }

    // Source: veraPDF, rules of ISO 19005-2 level A and of ISO 14289-1.
    @ParameterizedTest
    @ValueSource(strings = {"A4", "Letter"})
    void thePdfIsForArchivesAndScreenReaders(String paper) throws Exception {
        alter(run, record -> ((ObjectNode) check(record).path("measured")).put("value", 3.0));
        assertThat(compare("--paper", paper)).isEqualTo(ExitCode.NOT_PROVEN.code());
        byte[] pdf = Files.readAllBytes(folder.resolve("out/compare.pdf"));
        assertThat(PdfConformance.offences(pdf, PDFAFlavour.PDFA_2_A)).isEmpty();
        assertThat(PdfConformance.offences(pdf, PDFAFlavour.PDFUA_1)).isEmpty();
        assertThat(paper())
                .contains(
                        "SIMULATED",
                        "inside the limits but moved",
                        "+2.63",
                        "+37.5 %",
                        "The same motions of both runs",
                        Sha256.of(run.resolve("record.json")),
                        "page 1 of ",
                        "End of comparison");
        assertThat(compare("--paper", paper)).isEqualTo(ExitCode.NOT_PROVEN.code());
        assertThat(Files.readAllBytes(folder.resolve("out/compare.pdf"))).isEqualTo(pdf);
    }

    @Test
    void anUnknownPaperIsRefused() {
        assertThat(compare("--paper", "B9")).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(err).contains("no paper \"B9\"");
        assertThat(folder.resolve("out")).doesNotExist();
    }
}
