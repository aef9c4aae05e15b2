package org.axtrial.report;

import io.pebbletemplates.pebble.PebbleEngine;
import io.pebbletemplates.pebble.attributes.methodaccess.NoOpMethodAccessValidator;
import io.pebbletemplates.pebble.error.PebbleException;
import io.pebbletemplates.pebble.loader.ClasspathLoader;
import java.io.IOException;
import java.io.InputStream;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
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

    private static final String FOLDER = "org/axtrial/report";

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
            return text(packFolder, record, AfterRun.of(record, Standing.of(record), Optional.empty()))
                    .getBytes(StandardCharsets.UTF_8);
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException("the report of " + packFolder + " cannot be made: " + e.getMessage(), e);
        }
    }

    private static String text(Path packFolder, RunRecord record, AfterRun after) throws IOException {
        String hash = Sha256.of(packFolder.resolve("record.json"));
        String style = resource("report.css") + pageStyle(record, hash);
        View view = new ViewMaker(packFolder, record).view(style, hash);
        return render("report", Map.of("v", view, "looks", LooksView.of(record), "after", after));
    }

    static String render(String template, Map<String, Object> values) throws IOException {
        ClasspathLoader loader = new ClasspathLoader(HtmlReport.class.getClassLoader());
        loader.setPrefix(FOLDER);
        loader.setSuffix(".peb");
        PebbleEngine engine = new PebbleEngine.Builder()
                .loader(loader)
                .strictVariables(true)
                .autoEscaping(true)
                .defaultLocale(Locale.ROOT)
                .methodAccessValidator(new NoOpMethodAccessValidator())
                .build();
        StringWriter out = new StringWriter();
        engine.getTemplate(template).evaluate(out, values);
        return Words.clean(out.toString());
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

    static String resource(String name) throws IOException {
        try (InputStream in = HtmlReport.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IOException("the program is incomplete: " + FOLDER + "/" + name + " is missing");
            }
            return new String(in.readAllBytes(), StandardCharsets.UTF_8);
        }
    }
}
