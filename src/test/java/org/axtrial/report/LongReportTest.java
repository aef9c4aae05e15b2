package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.evidence.EvidencePack;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/** A printed report of fifty-one results on three axes: what goes on over pages stays readable. */
@Timeout(300)
class LongReportTest {

    private static final int TRIALS = 17;
    private static final int RESULTS = 3 * TRIALS;
    private static final int CHECKS = 2 * RESULTS;
    private static final long MOST_BYTES = 3_000_000;

    @TempDir
    private static Path reports;

    private static Path pack;

    @BeforeAll
    static void makePack() {
        pack = SamplePack.large(reports, TRIALS);
    }

    private static List<String> pages(PdfPrinter.Paper paper) throws IOException {
        PdfReport.write(pack, EvidencePack.recover(pack), paper);
        Path file = pack.resolve("report.pdf");
        assertThat(Files.size(file)).as("bytes of report.pdf").isLessThan(MOST_BYTES);
        try (PDDocument document = Loader.loadPDF(file.toFile())) {
            List<String> pages = new ArrayList<>();
            PDFTextStripper text = new PDFTextStripper();
            for (int i = 1; i <= document.getNumberOfPages(); i++) {
                text.setStartPage(i);
                text.setEndPage(i);
                pages.add(text.getText(document).replaceAll("\\s+", " "));
            }
            return pages;
        }
    }

    private static int count(String page, String pattern) {
        return (int) Pattern.compile(pattern).matcher(page).results().count();
    }

    private static int count(List<String> pages, String pattern) {
        return pages.stream().mapToInt(page -> count(page, pattern)).sum();
    }

    @ParameterizedTest
    @EnumSource(PdfPrinter.Paper.class)
    void headsAreRepeatedAndNoRowIsSplit(PdfPrinter.Paper paper) throws IOException {
        List<String> pages = pages(paper);

        assertThat(count(pages, "Difference between the mean position at rest")).isEqualTo(CHECKS);
        assertThat(count(pages, "encoder quantisation")).isEqualTo(CHECKS);
        for (int i = 0; i < pages.size(); i++) {
            String page = pages.get(i);
            String where = "page " + (i + 1) + " of " + paper;
            // All trials: a row holds its id, its title and its requirement.
            int rows = count(page, "POS-\\d\\d One revolution out and back, number \\d+ SPEC 4\\.2\\.\\d+");
            if (rows > 0) {
                assertThat(page).as(where).contains("Trial What it proves Requirement");
            }
            // Each trial: a check has a line with its verdict and one with its definition.
            int checks = count(page, "(Position change|Settling time) \\S+ \\S+ \\S+.{0,120}?PASS");
            int definitions = count(page, "Difference between the mean position at rest after the move");
            assertThat(checks)
                    .as("lines of checks and their definitions, " + where)
                    .isEqualTo(definitions);
            if (definitions > 0) {
                assertThat(page).as(where).contains("Check Measured Expected");
            }
            // Budgets: a group has a head line and both of its contributions.
            int groups = count(page, "POS-\\d\\d on \\w, (Position change|Settling time): ");
            assertThat(count(page, "encoder quantisation"))
                    .as("first contributions, " + where)
                    .isEqualTo(groups);
            assertThat(count(page, "repeatability: 5 samples"))
                    .as("second contributions, " + where)
                    .isEqualTo(groups);
            if (groups > 0) {
                assertThat(page).as(where).contains("Contribution Type a or", "Divisor");
            }
            assertThat(page).as(where).contains("page " + (i + 1) + " of " + pages.size());
        }
    }

    @Test
    void aHeadingIsNeverTheLastOfItsPage() throws IOException {
        for (String page : pages(PdfPrinter.Paper.A4)) {
            assertThat(page.replaceAll(" Run 2031.*$", ""))
                    .doesNotMatch(
                            ".*POS-\\d\\d on axis \\w: One revolution out and back, number \\d+ Requirement \\S+ \\S+ \\S+$");
        }
    }
}
