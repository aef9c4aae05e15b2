package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.regex.Pattern;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunInfo;
import org.jsoup.Jsoup;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Both reports hold what a report of test results must hold. Source: ISO/IEC 17025:2017, 7.8, paraphrased. */
@Timeout(120)
class ReportContentTest {

    @TempDir
    private static Path reports;

    private static String html = "";
    private static String pdf = "";

    @BeforeAll
    static void writeBoth() throws IOException {
        Path folder = SamplePack.write(reports, RunInfo.Mode.REHEARSAL);
        PdfReport.write(folder, EvidencePack.recover(folder), PdfPrinter.Paper.A4);
        html = Jsoup.parse(folder.resolve("report.html")).text();
        try (PDDocument document = Loader.loadPDF(folder.resolve("report.pdf").toFile())) {
            PDFTextStripper text = new PDFTextStripper();
            text.setSortByPosition(true);
            pdf = text.getText(document).replaceAll("\\s+", " ");
        }
    }

    @ParameterizedTest(name = "{0}")
    @CsvSource(delimiter = '|', textBlock = """
            7.8.2.1 a title | cceptance test report
            7.8.2.1 c place of the work | Site Hall 3, bay B
            7.8.2.1 d identification | 2031-03-04_101112_demo
            7.8.2.1 d clear end | End of report
            7.8.2.1 e customer | Customer Invented Customer Ltd
            7.8.2.1 f method | Method .{0,60}by the scripts of this pack
            7.8.2.1 g item | Serial X-0001
            7.8.2.1 g axes | Axis T turntable
            7.8.2.1 i date of the work, with zone | Time 2031-03-04 10:11:12 UTC to 10:11:18
            7.8.2.1 j date of issue | Issued 2031-03-04 10:11:18 UTC
            7.8.2.1 l items tested | The results relate only to the items tested
            7.8.2.1 note, only in full | reproduced only in full
            7.8.2.1 m results with units | 1\\.0000200 rev
            7.8.2.1 n deviations | Guard door interlock was bridged by key 7 under permit 12
            7.8.2.1 o who authorises | Accepted by
            7.8.2.2 data of others | comes from the site file and the scripts; the program did not check it
            7.8.3.1 a conditions | Environment 21 °C, warmed up 30 min
            7.8.3.1 c uncertainty in the unit of the result | ± 0\\.0000116
            7.8.6.1 decision rule | Decision rule Simple acceptance
            7.8.6.2 a and b results and requirements | Each verdict is that of one trial on one axis against the requirement of its row
            7.8.6.2 b requirement of a trial | SPEC 4\\.2\\.1
            who did it | Operator R\\. Example
            what was measured with | Measured with signals of the drives
            """)
    void holds(String clause, String pattern) {
        // Lines of a neighbouring column may stand between two lines of a cell, so a pattern is one line's worth.
        assertThat(html).as("%s in report.html", clause).containsPattern(Pattern.compile(pattern));
        assertThat(pdf).as("%s in report.pdf", clause).containsPattern(Pattern.compile(pattern));
    }
}
