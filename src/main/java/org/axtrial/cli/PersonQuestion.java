package org.axtrial.cli;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.axtrial.evidence.PersonPart.Outcome;
import org.axtrial.script.MissingAnswerException;
import org.axtrial.script.People;
import org.axtrial.site.PersonName;

/** A hold point, a witness point, or work by hand, put to the person at the terminal. */
final class PersonQuestion implements Question<People.Answer> {

    private static final String TYPED = "typed at the terminal";

    private final Terminal terminal;
    private final String operator;
    private final People.Request request;
    private String refusedBy = "";
    private boolean ready;
    private Optional<People.Answer> given = Optional.empty();

    /** @param operator who is recorded as the one who operates; empty string if nobody is named */
    PersonQuestion(Terminal terminal, String operator, People.Request request) {
        this.terminal = terminal;
        this.operator = operator;
        this.request = request;
    }

    @Override
    public void put() {
        String title = People.title(request.kind()).toUpperCase(Locale.ROOT);
        terminal.line("");
        terminal.line(title + "  axis " + request.key().axis() + ", trial "
                + request.key().trial() + (request.simulated() ? "  (SIMULATED)" : ""));
        terminal.line("  " + request.text());
        request.motion()
                .ifPresentOrElse(
                        motion -> {
                            terminal.line("  THE AXIS WILL MOVE: " + motion + ".");
                            terminal.line(
                                    "  It starts when you press Enter; act while it moves. Stay out of its reach.");
                        },
                        () -> {
                            terminal.line("  The axis may be under torque, and may move as soon as you have answered:");
                            terminal.line("  be out of its reach before you press Enter.");
                        });
        switch (request.kind()) {
            case HOLD -> terminal.line("  The work waits until a person releases it.");
            case WITNESS -> terminal.line("  The work goes on whether or not a witness comes.");
            case OPERATE -> {
                terminal.line("  Operate it only if local rules allow it and it is yours to do.");
                if (request.simulated()) {
                    terminal.line("  On this simulated axis Enter does it.");
                }
            }
        }
        terminal.line("  Ctrl-C stops.");
        prompt();
    }

    private void prompt() {
        terminal.raw(
                switch (request.kind()) {
                    case HOLD ->
                        refusedBy.isEmpty()
                                ? "  Released by (name; \"no\" and a name to refuse): "
                                : "  Why does " + refusedBy + " refuse: ";
                    case WITNESS -> "  Witness present (name; Enter alone if nobody came): ";
                    case OPERATE ->
                        mustGetReady()
                                ? "  Enter when ready and clear of the axis, or type why it cannot be done: "
                                : "  Enter when done, or type why it cannot be done: ";
                });
    }

    private boolean mustGetReady() {
        return request.motion().isPresent() && !ready;
    }

    /** Whether the axis may begin the motion that the person acts in. */
    boolean isReady() {
        return !mustGetReady() || answered();
    }

    Optional<People.Answer> given() {
        return given;
    }

    @Override
    public Optional<People.Answer> take(String line) {
        if (mustGetReady() && line.isEmpty()) {
            ready = true;
            prompt();
            return Optional.empty();
        }
        return switch (request.kind()) {
            case HOLD -> release(line);
            case WITNESS -> witness(line);
            case OPERATE ->
                Optional.of(
                        line.isEmpty() ? answer(Outcome.DONE, operator, "") : answer(Outcome.NOT_DONE, operator, line));
        };
    }

    /** Only a named person releases or refuses, and a refusal has a reason. */
    private Optional<People.Answer> release(String line) {
        if (!refusedBy.isEmpty()) {
            return line.isEmpty()
                    ? notTaken("type the reason.")
                    : Optional.of(answer(Outcome.REFUSED, refusedBy, line));
        }
        boolean refused = line.toLowerCase(Locale.ROOT).startsWith("no ");
        String name = refused ? line.substring("no ".length()).strip() : line;
        if (!PersonName.isFull(name)) {
            return notTaken((refused ? "after \"no\" type " : "type ") + PersonName.EXPECTED + ".");
        }
        if (!refused) {
            return Optional.of(answer(Outcome.RELEASED, name, ""));
        }
        refusedBy = name;
        prompt();
        return Optional.empty();
    }

    private Optional<People.Answer> witness(String line) {
        if (line.isEmpty()) {
            return Optional.of(answer(Outcome.NOBODY_CAME, "", ""));
        }
        return PersonName.isFull(line)
                ? Optional.of(answer(Outcome.WITNESSED, line, ""))
                : notTaken("type " + PersonName.EXPECTED + ", or Enter alone if nobody came.");
    }

    private Optional<People.Answer> notTaken(String what) {
        terminal.text(List.of("  Not taken: " + what));
        prompt();
        return Optional.empty();
    }

    private People.Answer answer(Outcome outcome, String by, String words) {
        terminal.line("  Taken: " + outcome.name().toLowerCase(Locale.ROOT).replace('_', ' ')
                + (by.isEmpty() ? "" : ", " + by));
        People.Answer answer = new People.Answer(outcome, by, words, TYPED);
        given = Optional.of(answer);
        return answer;
    }

    @Override
    public RuntimeException ended() {
        return new MissingAnswerException(request.what() + " is not answered: the input of the terminal has ended");
    }

    @Override
    public boolean answered() {
        return given.isPresent();
    }
}
