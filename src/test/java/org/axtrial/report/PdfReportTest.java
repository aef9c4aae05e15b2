package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.verapdf.pdfa.flavours.PDFAFlavour;

@Timeout(300)
class PdfReportTest {

    @TempDir
    private Path reports;

    private Path write(RunInfo.Mode mode, PdfPrinter.Paper paper) {
        Path folder = SamplePack.write(reports, mode);
        PdfReport.write(folder, EvidencePack.recover(folder), paper);
        return folder.resolve("report.pdf");
    }

    private static List<String> pages(Path pdf) throws IOException {
        try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
            List<String> pages = new ArrayList<>();
            PDFTextStripper text = new PDFTextStripper();
            for (int i = 1; i <= document.getNumberOfPages(); i++) {
                text.setStartPage(i);
                text.setEndPage(i);
                pages.add(text.getText(document));
            }
            return pages;
        }
    }

    private static String words(String text) {
        return text.replaceAll("\\s+", " ");
    }

    // Source: veraPDF, rules of ISO 19005-2 level A and of ISO 14289-1.
    @ParameterizedTest
    @EnumSource(PdfPrinter.Paper.class)
    void isPdfA2aAndUa1(PdfPrinter.Paper paper) throws Exception {
        byte[] pdf = Files.readAllBytes(write(RunInfo.Mode.REHEARSAL, paper));
        assertThat(PdfConformance.offences(pdf, PDFAFlavour.PDFA_2_A)).isEmpty();
        assertThat(PdfConformance.offences(pdf, PDFAFlavour.PDFUA_1)).isEmpty();
    }

    @Test
    void theValidatorFindsWhatIsMissing() throws Exception {
        byte[] pdf = Files.readAllBytes(write(RunInfo.Mode.REAL, PdfPrinter.Paper.A4));
        // Level 3 would be another claim than the one in the file.
        assertThat(PdfConformance.offences(pdf, PDFAFlavour.PDFA_3_A)).anyMatch(offence -> offence.startsWith("6.6.4"));
    }

    @Test
    void samePackGivesSameBytes() throws IOException {
        Path pdf = write(RunInfo.Mode.REHEARSAL, PdfPrinter.Paper.A4);
        String first = Sha256.of(pdf);
        Path pack = pdf.resolveSibling("").normalize();
        RunRecord record = EvidencePack.recover(pack);
        PdfReport.write(pack, record, PdfPrinter.Paper.A4);
        assertThat(Sha256.of(pdf)).isEqualTo(first);
    }

    /** The tests run on several releases of Java, whose libraries of colours, fonts and compression differ. */
    @Test
    void everyJavaPrintsTheSameBytes() throws IOException {
        byte[] pdf = PdfPrinter.print(
                "<h2>A heading</h2><table><thead><tr><th scope=\"col\">Value</th></tr></thead>"
                        + "<tbody><tr><td>−0.25 µm ± 0.02 µm, öäü, 1 r/min</td></tr></tbody></table>",
                new PdfPrinter.Sheet(
                        "A title",
                        "A subject",
                        Instant.parse("2031-03-04T10:11:12Z"),
                        PdfPrinter.Paper.A4,
                        "Head",
                        "MARK",
                        "Identity",
                        "hash"));

        assertThat(Sha256.of(pdf)).isEqualTo("5939cdd8d546e46c6dfad58c6efddcd8e74bb985a792ae23fa2ce73a800f4523");
    }

    @ParameterizedTest
    @EnumSource(PdfPrinter.Paper.class)
    void aRecordNamesEveryPaperSoThatItIsFoundAgain(PdfPrinter.Paper paper) {
        assertThat(paper.recorded().map(PdfPrinter.Paper::of).orElse(PdfPrinter.Paper.A4))
                .isEqualTo(paper);
    }

    @ParameterizedTest
    @EnumSource(PdfPrinter.Paper.class)
    void everyPageTellsRunHashNumberAndThatItIsSimulated(PdfPrinter.Paper paper) throws IOException {
        Path pdf = write(RunInfo.Mode.REHEARSAL, paper);
        String hash = Sha256.of(pdf.resolveSibling("record.json"));
        List<String> pages = pages(pdf);
        assertThat(pages).hasSizeBetween(6, 14);
        for (int i = 0; i < pages.size(); i++) {
            assertThat(words(pages.get(i)))
                    .as("page %d", i + 1)
                    .contains("SIMULATED", "Run 2031-03-04_101112_demo", "page " + (i + 1) + " of " + pages.size())
                    .contains("record " + hash.substring(0, 16) + "…");
        }
    }

    @Test
    void realAxesAreNotCalledSimulated() throws IOException {
        assertThat(pages(write(RunInfo.Mode.REAL, PdfPrinter.Paper.A4)).get(1)).doesNotContain("SIMULATED");
    }

    @Test
    void firstPageAnswersTheQuestionsOfASigner() throws IOException {
        List<String> pages = pages(write(RunInfo.Mode.REHEARSAL, PdfPrinter.Paper.A4));
        assertThat(words(pages.get(0)))
                .contains("ERROR", "What was tested", "Conditions", "What failed", "What was not proven, and why")
                .contains("Deviations and notes", "Who signed");
        assertThat(words(pages.get(pages.size() - 1)))
                .contains("Tested by", "Witnessed by", "Accepted by", "Name Role Date and time zone Signature")
                .contains("The results relate only to the items tested.", "reproduced only in full")
                .contains("Its verdict: ");
        // Nothing but the margins comes after the end mark.
        assertThat(words(pages.get(pages.size() - 1))).endsWith("End of report ");
    }
}
