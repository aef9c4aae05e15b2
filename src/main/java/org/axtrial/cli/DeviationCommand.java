package org.axtrial.cli;

import java.util.concurrent.Callable;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.LedgerEntry;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Records that the customer takes a result as it is. */
@Command(
        name = "deviation",
        mixinStandardHelpOptions = true,
        description = {
            "Records that the customer takes a result that is not PASS as it is. The result stays what it was and stays in the",
            "report; only the acceptance no longer hangs on it."
        })
final class DeviationCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private FinishedPack pack = new FinishedPack();

    @Option(names = "--trial", required = true, paramLabel = "ID", description = "Trial whose result is taken")
    private String trial = "";

    @Option(
            names = "--axis",
            paramLabel = "NAME",
            defaultValue = "",
            description = "Axis, if the trial was made on several")
    private String axis = "";

    @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "Why it is taken")
    private String reason = "";

    @Option(
            names = "--agreed-by",
            required = true,
            paramLabel = "NAME",
            converter = FinishedPack.FullName.class,
            description = "Who agreed for the customer, by full name")
    private String by = "";

    DeviationCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        RunRecord record = pack.record();
        TrialRecord of = FinishedPack.trial(record, trial, axis);
        if (of.verdict() == Verdict.PASS || of.verdict() == Verdict.NOT_APPLICABLE) {
            throw new WrongUseException(of.trial() + " on " + of.axis() + " is "
                    + of.verdict().printed() + "; there is nothing to agree to");
        }
        Ledger ledger = pack.ledger(record);
        try {
            return pack.add(
                            terminal,
                            record,
                            ledger,
                            new LedgerEntry.DeviationAgreed(of.script(), of.trial(), of.axis(), reason, by))
                    .code();
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        }
    }
}
