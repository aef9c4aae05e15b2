package org.axtrial.cli;

import java.nio.file.Path;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.RunRecord;
import org.axtrial.report.HtmlReport;

/** What is added to a pack once its record stands. */
final class PackReport {

    private PackReport() {}

    /** Writes the report, and last the manifest, because the manifest holds the hash of the report. */
    static void write(Path folder, RunRecord record) {
        HtmlReport.write(folder, record);
        Manifest.write(folder);
    }
}
