package org.axtrial.cli;

import java.nio.file.Path;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.RunRecord;
import org.axtrial.report.HtmlReport;
import org.axtrial.report.PdfPrinter.Paper;
import org.axtrial.report.PdfReport;

/** What is added to a pack once its record stands. */
final class PackReport {

    private PackReport() {}

    /** Writes the reports as the run asked for them. */
    static void write(Path folder, RunRecord record) {
        write(folder, record, PdfReport.paper(record));
    }

    /** Writes the reports, and last the manifest, because the manifest holds their hashes. */
    static void write(Path folder, RunRecord record, Paper paper) {
        PdfReport.prepare();
        HtmlReport.write(folder, record);
        PdfReport.write(folder, record, paper);
        Manifest.write(folder);
    }
}
