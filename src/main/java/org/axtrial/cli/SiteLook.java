package org.axtrial.cli;

import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import java.util.Optional;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunRecord;
import org.axtrial.site.How;
import org.axtrial.site.KeyLines;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import org.axtrial.survey.KeyPlaces;
import org.axtrial.survey.LinkCheck;
import org.axtrial.time.SystemTime;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What the commands have in common that look at drives and move nothing. */
final class SiteLook {

    @Parameters(
            index = "0",
            arity = "0..1",
            paramLabel = "SITE",
            defaultValue = "test-scripts/demo/site.yaml",
            description = "Site file. Default: the demonstration, ${DEFAULT-VALUE}")
    Path site = Path.of("test-scripts/demo/site.yaml");

    @Option(
            names = "--simulated",
            description = "Look at simulated drives on this computer even if the site file's target is real")
    boolean simulated;

    @Option(
            names = "--reports",
            paramLabel = "FOLDER",
            defaultValue = "reports",
            description = "Where the evidence pack goes. Default: ${DEFAULT-VALUE}")
    Path reports = Path.of("reports");

    @Option(
            names = "--operator",
            paramLabel = "NAME",
            defaultValue = "",
            description = "Who looks, for the report. Default: as in the site file")
    String operator = "";

    private final Map<Path, KeyLines> keys = new HashMap<>();

    How how(Site of) {
        return simulated ? How.SIMULATED : of.target();
    }

    /** What is looked at on an axis. */
    LinkCheck.Subject subject(SiteAxis axis, String peer) {
        KeyLines lines = keys.computeIfAbsent(axis.driveFile(), KeyLines::read);
        return new LinkCheck.Subject(
                axis.name(),
                peer,
                axis.endpoint().unit(),
                axis.drive(),
                axis.setup().samplePeriod(),
                places(axis.driveFile(), lines));
    }

    static KeyPlaces places(Path file, KeyLines lines) {
        return path -> lines.line(path).map(line -> new KeyPlaces.Written(file.toString(), line, lines.text(path)));
    }

    static void head(Terminal terminal, Site site, How how, String what) {
        terminal.line(SiteSession.TOOL + ", " + what + ", "
                + (how == How.REAL ? "REAL drives" : "SIMULATED drives over Modbus TCP") + "; nothing is written");
        terminal.line(site.job().getOrDefault("title", site.file().toString()));
        terminal.line("");
    }

    /** Ends the run in the journal and writes record, report and manifest. */
    static RunRecord finish(EvidencePack pack) {
        pack.accept(new RunEvent.RunFinished(SystemTime.INSTANCE.instant(), Optional.empty()));
        RunRecord record = pack.finish();
        PackReport.write(pack.folder(), record);
        return record;
    }
}
