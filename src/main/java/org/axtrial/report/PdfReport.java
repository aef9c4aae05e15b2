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

    /** Its name in a pack. */
    public static final String FILE = "report.pdf";

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

    /**
     * The paper that a run asked for.
     *
     * @throws EvidenceLostException if its record names one that is not known
     */
    public static PdfPrinter.Paper paper(RunRecord record) {
        try {
            return record.setup().paper().map(PdfPrinter.Paper::of).orElse(PdfPrinter.Paper.A4);
        } catch (IllegalArgumentException e) {
            throw new EvidenceLostException("record.json, setup.paper: " + e.getMessage(), e);
        }
    }

    /**
     * The bytes of {@code report.pdf} of a pack, without writing them.
     *
     * @throws EvidenceLostException if a trace is missing or altered
     */
    public static byte[] bytes(Path packFolder, RunRecord record, PdfPrinter.Paper paper) {
        try {
            return print(packFolder, record, paper, AfterRun.of(record, Standing.of(record), Optional.empty()));
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException("the report of " + packFolder + " cannot be made: " + e.getMessage(), e);
        }
    }

    private static void write(Path packFolder, RunRecord record, PdfPrinter.Paper paper, Path file, AfterRun after) {
        try {
            Files.write(file, print(packFolder, record, paper, after));
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException(file + " cannot be written: " + e.getMessage(), e);
        }
    }

    private static byte[] print(Path packFolder, RunRecord record, PdfPrinter.Paper paper, AfterRun after)
            throws IOException {
        prepare();
        String hash = Sha256.of(packFolder.resolve("record.json"));
        View view = new ViewMaker(packFolder, record).view("", hash);
        String body = Templates.fill("print", Map.of("v", view, "looks", LooksView.of(record), "after", after));
        return PdfPrinter.print(body, sheet(view, record, paper));
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
