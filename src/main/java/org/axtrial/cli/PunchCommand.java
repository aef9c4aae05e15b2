package org.axtrial.cli;

import java.time.LocalDate;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.LedgerEntry;
import org.axtrial.acceptance.PunchItem;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.PunchClass;
import org.axtrial.evidence.RunRecord;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Adds an item to the punch list of a run, or closes one. */
@Command(
        name = "punch",
        mixinStandardHelpOptions = true,
        description = {
            "Adds an item to the punch list of a run, or closes one with its evidence. Nothing is ever taken out of the list.",
            "Example: axtrial punch reports/20260101-080000-DEMO-1 --add \"Tighten the clamp\" --class B --due 2026-02-01 --by \"A. Sample\"",
            "         axtrial punch reports/20260101-080000-DEMO-1 --close 1 --evidence \"run 20260102-090000-DEMO-1\" --by \"A. Sample\""
        })
final class PunchCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private FinishedPack pack = new FinishedPack();

    @Mixin
    private FinishedPack.Person person = new FinishedPack.Person();

    @Option(names = "--add", paramLabel = "TEXT", description = "What is to be done")
    private Optional<String> add = Optional.empty();

    @Option(
            names = "--class",
            paramLabel = "A|B|C",
            description = "A bars acceptance until closed, B has a date, C is minor")
    private Optional<String> letter = Optional.empty();

    @Option(names = "--owner", paramLabel = "NAME", defaultValue = "", description = "Who has to do it")
    private String owner = "";

    @Option(names = "--due", paramLabel = "DATE", description = "By when, as 2027-01-31")
    private Optional<LocalDate> due = Optional.empty();

    @Option(names = "--trial", paramLabel = "ID", description = "Trial that it comes from")
    private Optional<String> trial = Optional.empty();

    @Option(names = "--axis", paramLabel = "NAME", description = "Axis that it belongs to")
    private Optional<String> axis = Optional.empty();

    @Option(names = "--close", paramLabel = "NUMBER", description = "Number of the item to close")
    private Optional<Integer> close = Optional.empty();

    @Option(
            names = "--evidence",
            paramLabel = "TEXT",
            defaultValue = "",
            description = "What shows that the item is done: a run, a drawing, a photograph")
    private String evidence = "";

    PunchCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (add.isPresent() == close.isPresent()) {
            throw new WrongUseException("give either --add TEXT or --close NUMBER; the list itself is shown by"
                    + " axtrial state " + pack.folder);
        }
        RunRecord record = pack.record();
        Ledger ledger = pack.ledger(record);
        Standing standing = Standing.of(record, ledger);
        LedgerEntry entry;
        try {
            entry = add.isPresent() ? opened(record, standing, add.get()) : closed(standing, close.orElseThrow());
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        }
        return pack.add(terminal, record, ledger, entry).code();
    }

    private LedgerEntry opened(RunRecord record, Standing standing, String text) {
        PunchClass grade = letter.flatMap(PunchClass::of)
                .orElseThrow(() -> new WrongUseException("an item needs --class A, B or C"
                        + letter.map(given -> ", not \"" + given + "\"").orElse("")));
        trial.ifPresent(id -> FinishedPack.trial(record, id, axis.orElse("")));
        axis.filter(name -> record.axis(name).isEmpty()).ifPresent(name -> {
            throw new WrongUseException("the run has no axis \"" + name + "\"");
        });
        return new LedgerEntry.PunchOpened(standing.nextNumber(), text, grade, owner, due, trial, axis, person.name);
    }

    private LedgerEntry closed(Standing standing, int number) {
        PunchItem item = standing.items().stream()
                .filter(each -> each.number() == number)
                .findFirst()
                .orElseThrow(() -> new WrongUseException("there is no item " + number + "; the list has "
                        + standing.items().size()));
        item.closing().ifPresent(closing -> {
            throw new WrongUseException(
                    "item " + number + " was closed by " + closing.by() + " already: " + closing.evidence());
        });
        return new LedgerEntry.PunchClosed(number, evidence, person.name);
    }
}
