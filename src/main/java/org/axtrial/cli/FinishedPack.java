package org.axtrial.cli;

import java.nio.file.Path;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.LedgerEntry;
import org.axtrial.acceptance.PunchItem;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.signing.Signature;
import org.axtrial.signing.SignatureCheck;
import org.axtrial.signing.Trust;
import org.axtrial.site.PersonName;
import org.axtrial.time.SystemTime;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.TypeConversionException;

/** A pack whose run is over, to which something is added; what the commands have in common that do so. */
final class FinishedPack {

    @Parameters(
            index = "0",
            paramLabel = "RUN-FOLDER",
            description = "Folder of the run, for example reports/20260101-080000-DEMO-1")
    Path folder = Path.of("");

    /** Who adds something. */
    static final class Person {

        @Option(
                names = "--by",
                required = true,
                paramLabel = "NAME",
                converter = FullName.class,
                description = "Who says so, by full name")
        String name = "";
    }

    /** Takes what stands in the ledger for years only where somebody can be asked by it, as at a hold point. */
    static final class FullName implements ITypeConverter<String> {

        @Override
        public String convert(String value) {
            if (!PersonName.isFull(value)) {
                throw new TypeConversionException("\"" + value + "\" is not the " + PersonName.EXPECTED);
            }
            return value;
        }
    }

    RunRecord record() {
        RunFolder.requireFinished(folder);
        return RunRecord.read(folder);
    }

    /**
     * What was added before, with nothing taken out that somebody signed for.
     *
     * @throws EvidenceLostException if it is not proven, or a signature does not hold
     */
    Ledger ledger(RunRecord record) {
        Ledger ledger = Ledger.read(folder, record);
        signatures(record);
        return ledger;
    }

    /**
     * Who has signed.
     *
     * @throws EvidenceLostException if a signature does not hold: it may have stood for entries that are gone
     */
    List<Signature> signatures(RunRecord record) {
        SignatureCheck check = SignatureCheck.of(folder, Optional.of(record), Trust.NONE);
        if (!check.problems().isEmpty()) {
            throw new EvidenceLostException(
                    "what was signed does not hold: " + check.problems().get(0)
                            + ". Nothing is said or added. All that is wrong: axtrial verify " + folder,
                    null);
        }
        return check.signatures();
    }

    /** Adds an entry and tells how the acceptance stands then. */
    ExitCode add(Terminal terminal, RunRecord record, Ledger ledger, LedgerEntry entry) {
        print(terminal, record, Standing.of(record, ledger.add(folder, SystemTime.INSTANCE.instant(), entry)));
        return ExitCode.PASSED;
    }

    /** The trial of that id; the axis may be left out where only one has it. */
    static TrialRecord trial(RunRecord record, String id, String axis) {
        List<TrialRecord> named = record.trials().stream()
                .filter(trial -> trial.trial().equals(id))
                .toList();
        if (named.isEmpty()) {
            throw new WrongUseException("the run has no trial \"" + id + "\"; it has "
                    + record.trials().stream()
                            .map(TrialRecord::trial)
                            .distinct()
                            .collect(Collectors.joining(", ")));
        }
        List<TrialRecord> fitting = named.stream()
                .filter(trial -> axis.isEmpty() || trial.axis().equals(axis))
                .toList();
        if (fitting.size() != 1) {
            throw new WrongUseException(id + " was made on "
                    + named.stream()
                            .map(trial -> trial.axis() + " (" + trial.script() + ")")
                            .collect(Collectors.joining(", "))
                    + "; say which one with --axis");
        }
        return fitting.get(0);
    }

    static void print(Terminal terminal, RunRecord record, Standing standing) {
        terminal.line(standing.state().printed() + (record.simulated() ? "  SIMULATED: nothing about a machine" : ""));
        standing.because().forEach(why -> terminal.line("  " + why));
        if (!standing.items().isEmpty()) {
            terminal.line("");
            terminal.line("Punch list");
            standing.items().forEach(item -> terminal.line("  " + line(item)));
        }
        if (!standing.deviations().isEmpty()) {
            terminal.line("");
            terminal.line("Agreed deviations");
            standing.deviations()
                    .forEach(each -> terminal.line("  " + each.agreed().trial() + " on "
                            + each.agreed().axis() + ", agreed by "
                            + each.agreed().by() + ": "
                            + each.agreed().reason()));
        }
        if (!standing.reissues().isEmpty()) {
            terminal.line("");
            terminal.line("Issues of the report after the first");
            standing.reissues()
                    .forEach(each -> terminal.line("  revision " + each.issued().revision() + " by "
                            + each.issued().by() + ": " + each.issued().reason()));
        }
    }

    private static String line(PunchItem item) {
        String late =
                item.overdue(LocalDate.ofInstant(SystemTime.INSTANCE.instant(), ZoneOffset.UTC)) ? ", OVERDUE" : "";
        return item.number() + "  " + item.grade() + "  " + item.text()
                + item.trial()
                        .map(trial -> "  [" + trial
                                + item.axis().map(axis -> " " + axis).orElse("") + "]")
                        .orElse("")
                + (item.owner().isEmpty() ? "" : "  owner " + item.owner())
                + item.due().map(day -> "  due " + day).orElse("")
                + item.closing()
                        .map(closing -> "  closed by " + closing.by() + ": " + closing.evidence())
                        .orElse("  open" + late);
    }
}
