package org.axtrial.report;

import io.pebbletemplates.pebble.error.PebbleException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;

/** The report for paper and archive: the content of {@link HtmlReport} as PDF/A. The same pack gives the same bytes. */
public final class PdfReport {

    private static final String FILE = "report.pdf";

    private PdfReport() {}

    /** Begins to load the printer, beside what the caller does until it writes a report. Not needed, only sooner done. */
    public static void prepare() {
        FirstPrint.begin();
    }

    /**
     * Writes {@code report.pdf} into a pack, in place of an older one.
     *
     * @param packFolder holds {@code record.json} and the traces that the record names
     * @throws EvidenceLostException if a trace is missing or altered, or the report cannot be written
     */
    public static void write(Path packFolder, RunRecord record, PdfPrinter.Paper paper) {
        write(
                packFolder,
                record,
                paper,
                packFolder.resolve(FILE),
                AfterRun.of(record, Standing.of(record), Optional.empty()));
    }

    /**
     * Writes a further issue of the report, which also tells what came after the run.
     *
     * @param file written anew, beside the report that it takes the place of
     * @param standing how the acceptance stands now
     * @throws EvidenceLostException as {@link #write(Path, RunRecord, PdfPrinter.Paper)}
     */
    public static void reissue(
            Path packFolder,
            RunRecord record,
            PdfPrinter.Paper paper,
            Path file,
            Standing standing,
            Reissued reissued) {
        write(packFolder, record, paper, file, AfterRun.of(record, standing, Optional.of(reissued)));
    }

    private static void write(Path packFolder, RunRecord record, PdfPrinter.Paper paper, Path file, AfterRun after) {
        prepare();
        try {
            String hash = Sha256.of(packFolder.resolve("record.json"));
            View view = new ViewMaker(packFolder, record).view("", hash);
            String body = Templates.fill("print", Map.of("v", view, "looks", LooksView.of(record), "after", after));
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
