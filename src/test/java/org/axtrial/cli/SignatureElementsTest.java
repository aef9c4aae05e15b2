package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.interactive.digitalsignature.PDSignature;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.Sha256;
import org.axtrial.report.PdfConformance;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.verapdf.pdfa.flavours.PDFAFlavour;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The elements that 21 CFR 11.50 (a) asks of a signed electronic record: (1) printed name, (2) date and time, (3) meaning;
 * that (b) every form that people read shows them; and the link of 11.70, by which a signature cannot be cut out, copied or
 * moved to another record. Source: text of the regulation. Whether a procedure fulfils it depends on more than files.
 */
@Timeout(120)
class SignatureElementsTest {

    private static final String NAME = "R. Example";
    private static final String STATEMENT = "signatures/01-tester.json";

    @TempDir
    private Path folder;

    private SignedPackBench bench;
    private JsonNode statement;
    private OffsetDateTime signedAt;

    @BeforeEach
    void aSignedPack() throws IOException {
        bench = new SignedPackBench(folder);
        assertThat(bench.sign(bench.key(NAME, "p256"), "tester")).isZero();
        statement = JsonMapper.shared().readTree(Files.readAllBytes(bench.pack.resolve(STATEMENT)));
        signedAt = OffsetDateTime.parse(statement.get("signedAt").stringValue());
    }

    private String recordHash() throws IOException {
        return Sha256.of(bench.pack.resolve("record.json"));
    }

    @Test
    void theSignedRecordHasNameTimeMeaningAndTheLink() throws IOException {
        assertThat(statement.get("name").stringValue()).as("11.50 (a)(1)").isEqualTo(NAME);
        assertThat(signedAt.toString()).as("11.50 (a)(2)").matches(".*(Z|[+-]\\d{2}:\\d{2})");
        assertThat(statement.get("meaning").stringValue()).as("11.50 (a)(3)").isEqualTo(SignedPackBench.MEANING);
        assertThat(statement.get("role").stringValue()).as("11.50 (a)(3)").isEqualTo("tester");
        List<JsonNode> files = statement.get("files").values().stream().toList();
        assertThat(files).as("11.70").anySatisfy(file -> {
            assertThat(file.get("file").stringValue()).isEqualTo("record.json");
            assertThat(file.get("sha256").stringValue()).isEqualTo(recordHash());
        });
        assertThat(statement.get("run").get("id").stringValue())
                .as("11.70")
                .isEqualTo(bench.pack.getFileName().toString());
    }

    @Test
    void theSignedPdfHasNameTimeMeaningAndTheLink() throws IOException {
        Path signed = bench.pack.resolve("signatures/report-signed.pdf");
        byte[] bytes = Files.readAllBytes(signed);
        try (PDDocument document = Loader.loadPDF(bytes)) {
            assertThat(document.getSignatureDictionaries()).hasSize(1);
            PDSignature signature = document.getSignatureDictionaries().get(0);
            assertThat(signature.getName()).as("11.50 (a)(1)").isEqualTo(NAME);
            assertThat(signature.getSignDate().toInstant()).as("11.50 (a)(2)").isEqualTo(signedAt.toInstant());
            assertThat(signature.getReason()).as("11.50 (a)(3)").isEqualTo("tester: " + SignedPackBench.MEANING);
            int[] range = signature.getByteRange();
            assertThat(range[0]).as("11.70").isZero();
            assertThat(range[2] + range[3]).as("11.70: signed to its last byte").isEqualTo(bytes.length);
            assertThat(new PDFTextStripper().getText(document).replaceAll("\\s", ""))
                    .as("11.70: the paper tells which record it is of")
                    .contains(recordHash());
        }
    }

    // Source: veraPDF, rules of ISO 19005-2 level A and of ISO 14289-1.
    @Test
    void theSignedPdfIsStillForTheArchive() throws Exception {
        byte[] signed = Files.readAllBytes(bench.pack.resolve("signatures/report-signed.pdf"));
        assertThat(PdfConformance.offences(signed, PDFAFlavour.PDFA_2_A)).isEmpty();
        assertThat(PdfConformance.offences(signed, PDFAFlavour.PDFUA_1)).isEmpty();
    }

    @Test
    void theSheetOfAVerificationShowsThem() throws IOException {
        Path sheet = folder.resolve("sheet.html");
        assertThat(bench.verify("--out", sheet.toString())).isZero();
        shown(Files.readString(sheet), signedAt.toString());
    }

    @Test
    void aReportIssuedAfterwardsShowsThemOnPageAndPaper() throws IOException {
        assertThat(bench.axtrial("reissue", bench.pack.toString(), "--reason", "signed", "--by", "A. Sample"))
                .isZero();
        String page = Files.readString(bench.pack.resolve("after/report-revision-2.html"));
        String when = statement.get("signedAt").stringValue().replace('T', ' ');
        shown(page, when);
        assertThat(page).as("11.70").contains(recordHash(), "record.json, verdict PASS");
        try (PDDocument paper =
                Loader.loadPDF(bench.pack.resolve("after/report-revision-2.pdf").toFile())) {
            String text = new PDFTextStripper().getText(paper).replaceAll("\\s+", " ");
            shown(text, when);
            assertThat(text)
                    .contains(
                            NAME + " as tester",
                            "1 " + NAME + " tester " + when + " " + SignedPackBench.MEANING
                                    + " record.json, verdict PASS");
            assertThat(text.replace(" ", "")).as("11.70").contains(recordHash());
        }
        assertThat(bench.verify()).as(bench.output).isZero();
    }

    private static void shown(String text, String when) {
        assertThat(text).as("11.50 (a)(1)").contains(NAME);
        assertThat(text).as("11.50 (a)(2)").contains(when);
        assertThat(text).as("11.50 (a)(3)").contains(SignedPackBench.MEANING, "tester");
    }

    /** The statement of one record beside another one, and its signature cut out of its statement. */
    @Test
    void aSignatureThatIsMovedOrCutDoesNotHold() throws IOException {
        SignedPackBench other = new SignedPackBench(Files.createDirectory(folder.resolve("other")));
        Files.writeString(other.pack.resolve("remark.txt"), "another record");
        Manifest.write(other.pack);
        assertThat(other.verify()).as(other.output).isZero();
        Files.createDirectory(other.pack.resolve("signatures"));
        for (String name : List.of(STATEMENT, "signatures/01-tester.p7s", "signatures/report-signed.pdf")) {
            Files.copy(bench.pack.resolve(name), other.pack.resolve(name));
        }
        assertThat(other.verify()).as("11.70: copied").isEqualTo(5);
        Files.delete(bench.pack.resolve("signatures/01-tester.p7s"));
        assertThat(bench.verify()).as("11.70: excised").isEqualTo(5);
    }
}
