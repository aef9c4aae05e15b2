package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Objects;
import java.util.stream.Stream;
import org.axtrial.evidence.Procedure;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Trials chosen on the command line. */
@Timeout(240)
class ChooseTrialsCommandTest {

    private static final String SITE = "test-scripts/acceptance/site.yaml";
    private static final String IDENTITY = "test-scripts/acceptance/before-motion/identity.js";
    private static final String LINK = "test-scripts/acceptance/before-motion/link-quality.js";
    private static final String RIPPLE = "test-scripts/acceptance/dynamic/ripple.js";

    @TempDir
    private Path folder;

    private String out = "";
    private String err = "";

    private int axtrial(String... words) {
        Called called = Called.with(words);
        out = called.out();
        err = called.err();
        return called.code();
    }

    private int rehearse(String... choice) {
        return axtrial(Stream.concat(
                        Stream.of("rehearse", SITE, IDENTITY, LINK, RIPPLE, "--reports", folder.toString()),
                        Stream.of(choice))
                .toArray(String[]::new));
    }

    private Path pack() throws IOException {
        try (Stream<Path> packs = Files.list(folder)) {
            return packs.findFirst().orElseThrow();
        }
    }

    @Test
    void onlyTheChosenRunsAndTheRestIsToldAsNotProven() throws IOException {
        assertThat(rehearse("--after", "brake", "--axis", "TABLE"))
                .as(() -> out + err)
                .isZero();
        assertThat(out)
                .contains(
                        "Selected by after brake, and axis TABLE: 2 of 9 trials",
                        "IDN-01 on TABLE: always first: 1–7; axis TABLE",
                        "Left out, so not proven: 7",
                        "not covered: 37 Power cycle × 3, needs a person",
                        "as found and as left: this run reads the parameters",
                        "Parameters as found: 24 of 24 read",
                        "Parameters as left: 24 of 24 read, none differs from as found");
        JsonNode record = JsonMapper.shared().readTree(pack().resolve("record.json"));
        assertThat(record.path("trials").findValuesAsString("trial")).containsExactly("IDN-01", "LNK-01");
        JsonNode selection = record.path("setup").path("selection");
        assertThat(selection.path("picked").size()).isEqualTo(2);
        assertThat(selection.path("leftOut").size()).isEqualTo(7);
        assertThat(selection.path("notCovered").toString()).contains("not covered: 32 Brake hold");
        assertThat(record.path("snapshots").findValuesAsString("file"))
                .containsExactly("snapshot-as-found.json", "snapshot-as-left.json");
        try (InputStream schema =
                Objects.requireNonNull(getClass().getResourceAsStream("/org/axtrial/evidence/record.schema.json"))) {
            assertThat(SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                            .getSchema(schema)
                            .validate(record))
                    .isEmpty();
        }
        String html = Files.readString(pack().resolve("report.html"));
        assertThat(html.substring(0, html.indexOf("What failed")))
                .contains(
                        "Selected by",
                        "after brake, and axis TABLE: 2 of 9 trials",
                        "Not run, so not proven",
                        "RIP-01 on ");
        assertThat(axtrial("verify", pack().toString())).as(() -> out + err).isZero();
    }

    @Test
    void theFirstPageOfThePrintedReportTellsTheChoice() throws IOException {
        assertThat(rehearse("--tag", "before motion", "--axis", "TABLE"))
                .as(() -> out + err)
                .isZero();
        try (var pdf =
                org.apache.pdfbox.Loader.loadPDF(pack().resolve("report.pdf").toFile())) {
            var stripper = new org.apache.pdfbox.text.PDFTextStripper();
            stripper.setEndPage(1);
            assertThat(stripper.getText(pdf).replaceAll("\\s+", " "))
                    .contains("axis TABLE, and tag before motion: 2 of 9 trials", "Not run, so not proven");
        }
    }

    @Test
    void withoutAChoiceNothingIsSaidOfOne() throws IOException {
        assertThat(rehearse()).as(() -> out + err).isZero();
        assertThat(out).doesNotContain("Selected by");
        assertThat(Files.readString(pack().resolve("record.json"))).doesNotContain("\"selection\"");
    }

    @Test
    void allUnknownWordsAreRefusedAtOnceAndNoPackIsLeft() throws IOException {
        assertThat(rehearse("--after", "moter", "--axis", "TABEL", "--tag", "dynamics", "--clause", "9"))
                .isEqualTo(2);
        assertThat(err)
                .contains(
                        "The trials cannot be chosen (4 problems). Nothing has moved.",
                        "did you mean \"motor\"?",
                        "did you mean \"TABLE\"?",
                        "did you mean \"dynamic\"?",
                        "--clause: there is no \"9\"");
        assertThat(folder).isEmptyDirectory();
    }

    @Test
    void aChoiceThatNothingFitsProvesNothing() {
        assertThat(rehearse("--after", "brake", "--tag", "dynamic")).isEqualTo(3);
        assertThat(err).contains("Zero trials: after brake, and tag dynamic: 0 of 9 trials", "nothing is proven");
        assertThat(folder).isEmptyDirectory();
    }

    @Test
    void theProcedureShowsTheReasonOfEachTrial() throws IOException {
        Path to = folder.resolve("agreed");
        assertThat(axtrial(
                        "procedure",
                        SITE,
                        IDENTITY,
                        RIPPLE,
                        "--after",
                        "motor",
                        "--axis",
                        "TABLE",
                        "--out",
                        to.toString()))
                .as(() -> out + err)
                .isZero();
        Path file = to.resolve(Procedure.FILE);
        Procedure procedure = Procedure.read(file);
        assertThat(procedure.trials())
                .singleElement()
                .matches(trial -> trial.reason().equals("always first: 1–7; axis TABLE"));
        assertThat(Files.readString(to.resolve("procedure.html"))).contains("always first: 1–7; axis TABLE");
        try (InputStream schema =
                Objects.requireNonNull(getClass().getResourceAsStream("/org/axtrial/evidence/procedure.schema.json"))) {
            assertThat(SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                            .getSchema(schema)
                            .validate(JsonMapper.shared().readTree(file)))
                    .isEmpty();
        }
    }
}
