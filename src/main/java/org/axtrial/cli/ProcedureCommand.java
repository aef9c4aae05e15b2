package org.axtrial.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.evidence.Procedure;
import org.axtrial.report.ProcedurePage;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.axtrial.time.SystemTime;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Writes the procedure to agree on before the day. */
@Command(
        name = "procedure",
        mixinStandardHelpOptions = true,
        description = {
            "Writes the procedure to agree on before the day: procedure.html, procedure.pdf and procedure.json.",
            "It comes from a rehearsal in virtual time. No drive is contacted, nothing moves, and no pack is left."
        })
final class ProcedureCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private SiteChoice choice;

    @Option(
            names = "--out",
            paramLabel = "DIR",
            description =
                    "Where to write, by default reports/procedure-JOB, or the name of the site file without a job id")
    private Optional<Path> out = Optional.empty();

    ProcedureCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws Exception {
        Site site = SiteFile.load(choice.site);
        Path folder = out.orElseGet(() -> choice.reports.resolve("procedure-" + name(site)));
        Procedure procedure = Rehearsed.procedure(terminal, site, choice, (made, record) -> {
            made.write(folder);
            ProcedurePage.write(folder, made, record, SystemTime.INSTANCE.instant(), choice.paper);
        });
        TrialPick.tell(terminal, choice.scripts(site));
        terminal.line("Procedure: " + folder.resolve("procedure.html"));
        terminal.line("  " + procedure.trials().size() + " trials on "
                + procedure.axes().size() + " axes, rehearsed in virtual time; nothing real was touched");
        ExpectedTime.of(procedure, site.parallel()).tell(terminal);
        procedure
                .trials()
                .forEach(trial -> trial.gaps()
                        .forEach(gap -> terminal.line(
                                "  Not known beyond this, " + trial.trial() + " on " + trial.axis() + ": " + gap)));
        terminal.line("SHA-256 of procedure.json: " + procedure.sha256());
        return (procedure.trials().stream().allMatch(trial -> trial.gaps().isEmpty())
                        ? ExitCode.PASSED
                        : ExitCode.NOT_PROVEN)
                .code();
    }

    private static String name(Site site) {
        String file = String.valueOf(site.file().getFileName()).replaceFirst("\\.[^.]*$", "");
        String id = site.job().getOrDefault("id", "");
        return (id.isEmpty() ? file : id).replaceAll("[^A-Za-z0-9]+", "-");
    }
}
