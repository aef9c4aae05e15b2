package org.axtrial.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Runs trials on the axes of a site. */
@Command(
        name = "run",
        mixinStandardHelpOptions = true,
        description = {
            "Runs trials and leaves an evidence pack with report.html and report.pdf.",
            "",
            "Real axes move only after they have been armed in this run: the program asks for it, or --arm names them.",
            "Ctrl-C stops every axis, confirms standstill and finishes the report as stopped."
        })
final class RunCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private SiteChoice choice;

    @Mixin
    private Agreed agreed;

    @Mixin
    private ParameterBaseline baseline;

    @Mixin
    private RetestOf retestOf;

    @Option(names = "--simulated", description = "Work with simulated drives even if the site file's target is real")
    private boolean simulated;

    @Option(
            names = "--arm",
            split = ",",
            paramLabel = "AXIS",
            description =
                    "Arm these real axes without being asked, for example --arm INFEED,LIFT. Whoever gives this has"
                            + " made sure that they may move")
    private List<String> arm = List.of();

    @Option(
            names = "--retest",
            description = "After a trial that did not pass, ask whether to try it again, which needs a reason")
    private boolean retest;

    RunCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws Exception {
        Site site = SiteFile.load(choice.site);
        How how = simulated ? How.SIMULATED : site.target();
        Acceptance acceptance = new Acceptance(terminal, site, how, choice, new Arming(terminal, arm))
                .by(agreed)
                .against(baseline)
                .retesting(retestOf);
        if (retest) {
            if (!terminal.isInteractive() || choice.answers != null) {
                throw new WrongUseException(
                        "--retest asks at the terminal for the reason of each re-test, and nobody can be"
                                + " asked here; a trial is not tried again without a reason. Run it at a terminal and without"
                                + " --answers, or leave out --retest and give the reasons in the file of --answers"
                                + " (kind: retest)");
            }
            acceptance.withRetests();
        }
        return acceptance.run().code();
    }
}
