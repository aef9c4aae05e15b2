package org.axtrial.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.engine.ScriptProblemsException;
import org.axtrial.engine.SiteSession;
import org.axtrial.report.PdfPrinter.Paper;
import org.axtrial.site.Site;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What the commands that run scripts have in common. */
final class SiteChoice {

    @Parameters(
            index = "0",
            arity = "0..1",
            paramLabel = "SITE",
            defaultValue = "test-scripts/demo/site.yaml",
            description = "Site file. Default: the demonstration, ${DEFAULT-VALUE}")
    Path site = Path.of("test-scripts/demo/site.yaml");

    @Parameters(
            index = "1..*",
            arity = "0..*",
            paramLabel = "SCRIPT",
            description = "Scripts to run, in this order. Default: those that the site file lists")
    List<Path> scripts = new ArrayList<>();

    @Option(
            names = "--reports",
            paramLabel = "FOLDER",
            defaultValue = "reports",
            description = "Where the evidence pack goes. Default: ${DEFAULT-VALUE}")
    Path reports = Path.of("reports");

    @Option(
            names = "--paper",
            paramLabel = "SIZE",
            defaultValue = "A4",
            converter = PaperOption.class,
            description = "Paper that report.pdf is laid out for: A4 or Letter. Default: ${DEFAULT-VALUE}")
    Paper paper = Paper.A4;

    @Option(
            names = "--operator",
            paramLabel = "NAME",
            defaultValue = "",
            description = "Who runs the trials, for the report. Default: as in the site file")
    String operator = "";

    @Option(
            names = "--answers",
            paramLabel = "FILE",
            description =
                    "Readings, releases, witnesses and work by hand that were written down beforehand, YAML or CSV."
                            + " Default: the person at the terminal is asked; without one such trials are BLOCKED; a"
                            + " rehearsal answers for people by itself")
    @Nullable
    Path answers;

    @Mixin
    private TrialPick pick = new TrialPick();

    /** Whether the trials are chosen by the work that was done to the machine. */
    boolean afterWork() {
        return pick.afterWork();
    }

    /** The scripts, checked, with the trials that were chosen. */
    SiteSession.Scripts scripts(Site of) throws ScriptProblemsException {
        return pick.of(SiteSession.scripts(of, scripts), of);
    }
}
