package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.fail;
import static org.junit.jupiter.api.Assumptions.abort;

import com.microsoft.playwright.Browser;
import com.microsoft.playwright.BrowserType;
import com.microsoft.playwright.Page;
import com.microsoft.playwright.Playwright;
import com.microsoft.playwright.options.ColorScheme;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.evidence.RunInfo;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Prints the report with a real browser. Set AXTRIAL_CHROMIUM to its path, AXTRIAL_REQUIRE_PEERS to insist on it. */
@Tag("peer")
@Timeout(180)
class PrintedReportTest {

    @TempDir
    private Path reports;

    private static Path browserPath() {
        Path path = Path.of(System.getenv().getOrDefault("AXTRIAL_CHROMIUM", "/usr/bin/chromium"));
        if (!Files.isExecutable(path)) {
            String message = "no browser at " + path + "; install chromium or set AXTRIAL_CHROMIUM";
            if (System.getenv("AXTRIAL_REQUIRE_PEERS") != null) {
                fail(message);
            }
            abort(message);
        }
        return path;
    }

    @ParameterizedTest
    @ValueSource(strings = {"A4", "Letter"})
    void everyPrintedPageIsMarkedAndNothingIsFetched(String paper) throws IOException {
        Path chromium = browserPath();
        Path folder = SamplePack.write(reports, RunInfo.Mode.REHEARSAL);
        List<String> requests = new ArrayList<>();
        List<String> complaints = new ArrayList<>();
        byte[] pdf;
        try (Playwright playwright = Playwright.create(
                        new Playwright.CreateOptions().setEnv(Map.of("PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD", "1")));
                Browser browser = playwright
                        .chromium()
                        .launch(new BrowserType.LaunchOptions()
                                .setExecutablePath(chromium)
                                .setArgs(List.of("--no-sandbox", "--disable-gpu")))) {
            Page page = browser.newPage();
            page.onRequest(request -> requests.add(request.url()));
            page.onConsoleMessage(message -> complaints.add(message.text()));
            page.navigate(folder.resolve("report.html").toUri().toString());
            page.emulateMedia(new Page.EmulateMediaOptions().setColorScheme(ColorScheme.DARK));
            pdf = page.pdf(new Page.PdfOptions().setFormat(paper).setPreferCSSPageSize(false));
        }
        assertThat(requests).hasSize(1).allMatch(url -> url.startsWith("file:"));
        assertThat(complaints).isEmpty();
        try (PDDocument document = Loader.loadPDF(pdf)) {
            int pages = document.getNumberOfPages();
            // A front of two pages, a summary and eleven trials of which four have a plot; a blank or runaway layout
            // falls
            // outside.
            assertThat(pages).isBetween(6, 13);
            PDFTextStripper text = new PDFTextStripper();
            for (int i = 1; i <= pages; i++) {
                text.setStartPage(i);
                text.setEndPage(i);
                String content = text.getText(document);
                assertThat(content.replaceAll("\\s", ""))
                        .as("page %d of %s", i, paper)
                        .contains("SIMULATED", "Run2031-03-04_101112_demo", i + "/" + pages);
            }
            for (int i = 1; i <= pages; i++) {
                text.setStartPage(i);
                text.setEndPage(i);
                List<String> lines = text.getText(document)
                        .lines()
                        .map(String::strip)
                        .filter(line -> !line.isEmpty() && !line.equals("SIMULATED"))
                        .filter(line ->
                                !line.startsWith("Run ") && !line.startsWith("record ") && !line.contains(" / "))
                        .toList();
                assertThat(lines.get(lines.size() - 1))
                        .as("last line of page %d of %s is no heading", i, paper)
                        .doesNotMatch(".* on axis \\w+: .*|Steps|Requirement .*|moveBy .*");
            }
            text.setStartPage(1);
            text.setEndPage(1);
            assertThat(text.getText(document))
                    .contains("ERROR", "What was tested", "Conditions", "What failed", "not", "proven, and why");
            text.setEndPage(2);
            assertThat(text.getText(document)).contains("Acceptance", "Tested by", "Witnessed by", "Accepted by");
        }
    }
}
