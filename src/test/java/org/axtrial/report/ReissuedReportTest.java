package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.LedgerEntry;
import org.axtrial.acceptance.LedgerEntry.ReportReissued;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.PunchClass;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunRecord.PackedFile;
import org.axtrial.evidence.SampleRun;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.verapdf.pdfa.flavours.PDFAFlavour;

/** A report that is issued again, with all that can have come since, and with names that nobody expects. */
@Timeout(120)
class ReissuedReportTest {

    private static final Instant AT = Instant.parse("2031-03-05T08:00:00Z");

    @TempDir
    private Path reports;

    private Path pdf;
    private Path page;

    @BeforeEach
    void issueAgain() {
        Path pack = SamplePack.write(reports, RunInfo.Mode.REAL);
        RunRecord record = EvidencePack.recover(pack);
        LedgerEntry item = new LedgerEntry.PunchOpened(
                record.punch().size() + 1,
                "Tighten the clamp " + SampleRun.HOSTILE,
                PunchClass.B,
                "Fitter",
                Optional.of(LocalDate.parse("2031-04-01")),
                Optional.empty(),
                Optional.of("X"),
                "A. Sample");
        LedgerEntry deviation = new LedgerEntry.DeviationAgreed(
                "positioning/one-revolution.js",
                "POS-01",
                "X",
                "as agreed by letter",
                "C. Sample " + SampleRun.HOSTILE);
        Standing standing = Standing.of(
                record,
                new Ledger(
                        List.of(
                                new Ledger.Dated(AT, item, "0".repeat(64)),
                                new Ledger.Dated(AT, deviation, "1".repeat(64))),
                        "1".repeat(64)));
        ReportReissued issue = new ReportReissued(
                2, "item added", List.of(), List.of(new PackedFile("report.pdf", "2".repeat(64), 1)), "A. Sample");
        Reissued reissued = new Reissued(
                AT,
                issue,
                List.of(
                        new Reissued.Signer(
                                1, "R. Example", "tester", "2031-03-04 12:00:00+01:00", "seen", "record.json"),
                        new Reissued.Signer(
                                2, SampleRun.HOSTILE, "witness", "2031-03-04 12:01:00+01:00", SampleRun.HOSTILE, "-")));
        page = reports.resolve("again.html");
        pdf = reports.resolve("again.pdf");
        HtmlReport.reissue(pack, record, page, standing, reissued);
        PdfReport.reissue(pack, record, PdfPrinter.Paper.A4, pdf, standing, reissued);
    }

    // Source: veraPDF, rules of ISO 19005-2 level A and of ISO 14289-1.
    @Test
    void itsPaperIsPdfA2aAndUa1() throws Exception {
        byte[] bytes = Files.readAllBytes(pdf);
        assertThat(PdfConformance.offences(bytes, PDFAFlavour.PDFA_2_A)).isEmpty();
        assertThat(PdfConformance.offences(bytes, PDFAFlavour.PDFUA_1)).isEmpty();
    }

    @Test
    void itTellsWhatCameSinceAndWhoHadSigned() throws Exception {
        assertThat(Files.readString(page))
                .contains("Revision 2", "Tighten the clamp", "as agreed by letter")
                .contains("Electronic signatures", "R. Example", "2031-03-04 12:00:00+01:00")
                .doesNotContain("<script>");
        try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
            assertThat(new PDFTextStripper().getText(document).replaceAll("\\s+", " "))
                    .contains("Revision 2", "Tighten the clamp", "as agreed by letter")
                    .contains("1 R. Example tester 2031-03-04 12:00:00+01:00 seen record.json");
        }
    }
}
