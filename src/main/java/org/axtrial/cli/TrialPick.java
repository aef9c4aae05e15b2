package org.axtrial.cli;

import java.util.List;
import org.axtrial.engine.SiteSession;
import org.axtrial.engine.TrialChoice;
import org.axtrial.evidence.RunSelection;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import picocli.CommandLine.Option;

/** Which of the trials are to run: the options, and what they choose. */
final class TrialPick {

    @Option(
            names = "--after",
            split = ",",
            paramLabel = "WORK",
            description =
                    "Only what is to be proven again after this work: motor, encoder, drive, firmware, belt, coupling,"
                            + " screw, gearbox, limit-switch, brake, parameters or safety; several with commas")
    private List<String> after = List.of();

    @Option(
            names = "--axis",
            split = ",",
            paramLabel = "NAME",
            description = "Only trials of this axis; several with commas")
    private List<String> axes = List.of();

    @Option(
            names = "--tag",
            split = ",",
            paramLabel = "TAG",
            description = "Only trials with this tag; several with commas")
    private List<String> tags = List.of();

    @Option(
            names = "--clause",
            paramLabel = "CLAUSE",
            description = "Only trials that answer this requirement; give it again for several")
    private List<String> clauses = List.of();

    /**
     * Chooses among the trials of the scripts; without an option all of them.
     *
     * @throws WrongUseException if a word is asked for that nothing answers to
     * @throws ZeroTrialsException if every word is known but no trial fits all of them
     */
    SiteSession.Scripts of(SiteSession.Scripts scripts, Site site) {
        TrialChoice choice = new TrialChoice(after, axes, tags, clauses);
        if (choice.isAll()) {
            return scripts;
        }
        List<String> known = site.axes().stream().map(SiteAxis::name).toList();
        List<String> problems = choice.problems(scripts.trials(), known);
        if (!problems.isEmpty()) {
            throw new WrongUseException("The trials cannot be chosen (" + problems.size()
                    + (problems.size() == 1 ? " problem" : " problems") + "). Nothing has moved."
                    + System.lineSeparator()
                    + String.join(System.lineSeparator(), problems));
        }
        SiteSession.Scripts chosen = scripts.chosen(choice, known);
        RunSelection selection = chosen.selection().orElseThrow();
        if (selection.picked().isEmpty()) {
            throw new ZeroTrialsException(
                    "Zero trials: " + selection.sentence()
                            + ". Nothing has moved, nothing is proven and no pack is left. Ask for less at once, or leave out an option",
                    selection.notCovered());
        }
        return chosen;
    }

    /** Whether work that was done to the machine is named. */
    boolean afterWork() {
        return !after.isEmpty();
    }

    /** Says what was chosen and why, what was not, and what no script covers. */
    static void tell(Terminal terminal, SiteSession.Scripts scripts) {
        scripts.selection().ifPresent(selection -> {
            terminal.line("Selected by " + selection.sentence());
            scripts.names().stream()
                    .flatMap(script -> selection.picked().stream()
                            .filter(one -> one.script().equals(script)))
                    .map(one -> "  " + one.trial() + " on " + one.axis() + ": " + one.reason())
                    .forEach(terminal::line);
            terminal.line("  Left out, so not proven: " + selection.leftOut().size());
            selection.notCovered().forEach(line -> terminal.line("  " + line));
            selection.notes().forEach(line -> terminal.line("  Note: " + line));
            terminal.line("");
        });
    }
}
