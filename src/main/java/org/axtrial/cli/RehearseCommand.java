package org.axtrial.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.axtrial.site.How;
import org.axtrial.site.SiteFile;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** Runs the same trials on simulated axes in virtual time. */
@Command(
        name = "rehearse",
        mixinStandardHelpOptions = true,
        description = {
            "Runs the same trials on simulated axes in virtual time, in seconds. No drive is contacted.",
            "It finds script errors and envelope conflicts; its report is marked SIMULATED and proves nothing of a machine."
        })
final class RehearseCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private SiteChoice choice;

    @Mixin
    private Agreed agreed;

    @Mixin
    private ParameterBaseline baseline;

    RehearseCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws Exception {
        return new Acceptance(
                        terminal, SiteFile.load(choice.site), How.REHEARSAL, choice, new Arming(terminal, List.of()))
                .by(agreed)
                .against(baseline)
                .run()
                .code();
    }
}
