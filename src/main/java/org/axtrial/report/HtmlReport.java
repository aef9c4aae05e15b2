package org.axtrial.report;

import io.pebbletemplates.pebble.error.PebbleException;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Map;
import java.util.Optional;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;

/**
 * The report for people: one HTML file that needs nothing beside itself, runs no script and asks no server. Made from the
 * record and its traces alone, so the same pack always gives the same bytes.
 */
public final class HtmlReport {

    /** Its name in a pack. */
    public static final String FILE = "report.html";

    private HtmlReport() {}

    /**
     * Writes {@code report.html} into a pack, in place of an older one.
     *
     * @param packFolder holds {@code record.json} and the traces that the record names
     * @throws EvidenceLostException if a trace is missing or altered, or the report cannot be written
     */
    public static void write(Path packFolder, RunRecord record) {
        write(packFolder, record, packFolder.resolve(FILE), AfterRun.of(record, Standing.of(record), Optional.empty()));
    }

    /**
     * Writes a further issue of the report, which also tells what came after the run.
     *
     * @param file written anew, beside the report that it takes the place of
     * @param standing how the acceptance stands now
     * @throws EvidenceLostException as {@link #write(Path, RunRecord)}
     */
    public static void reissue(Path packFolder, RunRecord record, Path file, Standing standing, Reissued reissued) {
        write(packFolder, record, file, AfterRun.of(record, standing, Optional.of(reissued)));
    }

    private static void write(Path packFolder, RunRecord record, Path file, AfterRun after) {
        try {
            Files.writeString(file, text(packFolder, record, after));
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException(file + " cannot be written: " + e.getMessage(), e);
        }
    }

    /**
     * The bytes of {@code report.html} of a pack, without writing them.
     *
     * @throws EvidenceLostException if a trace is missing or altered
     */
    public static byte[] bytes(Path packFolder, RunRecord record) {
        try {
            AfterRun after = AfterRun.of(record, Standing.of(record), Optional.empty());
            return text(packFolder, record, after).getBytes(StandardCharsets.UTF_8);
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException("the report of " + packFolder + " cannot be made: " + e.getMessage(), e);
        }
    }

    private static String text(Path packFolder, RunRecord record, AfterRun after) throws IOException {
        String hash = Sha256.of(packFolder.resolve("record.json"));
        String style = Templates.resource("report.css") + pageStyle(record, hash);
        View view = new ViewMaker(packFolder, record).view(style, hash);
        return Templates.fill("report", Map.of("v", view, "looks", LooksView.of(record), "after", after));
    }

    /** What stands in the margins of each printed page. Only characters that need no escaping in CSS get there. */
    private static String pageStyle(RunRecord record, String hash) {
        String runId = record.stamps().runId().replaceAll("[^A-Za-z0-9._-]", "_");
        String mark = ViewMaker.mark(record);
        return """
                @page {
                  @top-left { content: "Acceptance test report"; }
                  @top-right { content: "%s"; }
                  @bottom-left { content: "Run %s"; }
                  @bottom-center { content: "record %s…"; }
                  @bottom-right { content: counter(page) " / " counter(pages); }
                }
                """.formatted(mark, runId, hash.substring(0, 16));
    }
}
