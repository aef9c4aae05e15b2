package org.axtrial.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.axtrial.acceptance.AcceptanceState;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.PackProblem;
import org.axtrial.evidence.RunRecord;
import org.axtrial.signing.Signature;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** Tells how the acceptance of a run stands. */
@Command(
        name = "state",
        mixinStandardHelpOptions = true,
        description = {
            "Tells how the acceptance of a run stands by stated rules. NOT ACCEPTED if a trial failed or a punch item of class A",
            "is open; INCOMPLETE if something was not proven; ACCEPTED WITH DEVIATIONS if a deviation was agreed or another item",
            "is open; else ACCEPTED. The contract comes first, and people accept with their signatures."
        })
final class StateCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private FinishedPack pack = new FinishedPack();

    StateCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        RunRecord record = pack.record();
        List<Signature> signatures = pack.signatures(record);
        Ledger ledger = Ledger.read(pack.folder, record);
        Standing standing = Standing.of(record, ledger);
        FinishedPack.print(terminal, record, standing);
        List<PackProblem> later = SignedEntries.later(ledger, signatures);
        if (!later.isEmpty()) {
            terminal.line("");
            later.forEach(entry -> terminal.line(entry.toString()));
        }
        List<Ledger.Stranger> strangers = ledger.strangers(pack.folder);
        if (!strangers.isEmpty()) {
            strangers.forEach(stranger -> terminal.error(stranger.toString()));
            return ExitCode.EVIDENCE_BROKEN.code();
        }
        return exitCode(standing.state()).code();
    }

    private static ExitCode exitCode(AcceptanceState state) {
        return switch (state) {
            case ACCEPTED, ACCEPTED_WITH_DEVIATIONS -> ExitCode.PASSED;
            case NOT_ACCEPTED -> ExitCode.FAILED;
            case INCOMPLETE -> ExitCode.NOT_PROVEN;
        };
    }
}
