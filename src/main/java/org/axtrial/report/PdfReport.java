package org.axtrial.report;

import io.pebbletemplates.pebble.error.PebbleException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;

/** The report for paper and archive: the content of {@link HtmlReport} as PDF/A. The same pack gives the same bytes. */
public final class PdfReport {

    private static final String FILE = "report.pdf";

    private PdfReport() {}

    /**
     * Writes {@code report.pdf} into a pack, in place of an older one.
     *
     * @param packFolder holds {@code record.json} and the traces that the record names
     * @throws EvidenceLostException if a trace is missing or altered, or the report cannot be written
     */
    public static void write(Path packFolder, RunRecord record, PdfPrinter.Paper paper) {
        Path file = packFolder.resolve(FILE);
        try {
            String hash = Sha256.of(packFolder.resolve("record.json"));
            View view = new ViewMaker(packFolder, record).view("", hash);
            String body = Templates.fill("print", Map.of("v", view, "looks", LooksView.of(record)));
            Files.write(file, PdfPrinter.print(body, sheet(view, record, paper)));
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException(file + " cannot be written: " + e.getMessage(), e);
        }
    }

    private static PdfPrinter.Sheet sheet(View view, RunRecord record, PdfPrinter.Paper paper) {
        String verdict = view.front().verdict().word() + (view.mark().isEmpty() ? "" : " (" + view.mark() + ")");
        return new PdfPrinter.Sheet(
                verdict + ": " + view.front().title() + ", run " + view.runId(),
                "Acceptance test report of servo axes, run " + view.runId() + ", record " + view.recordHash(),
                record.stamps().finishedAt(),
                paper,
                "Acceptance test report",
                view.mark(),
                "Run " + view.runId(),
                "record " + view.recordHash().substring(0, 16) + "…");
    }
}
