package org.axtrial.cli;

import java.util.Optional;
import java.util.function.BooleanSupplier;
import org.axtrial.engine.Retests;
import org.axtrial.script.People;
import org.axtrial.script.Readings;
import org.axtrial.script.TrialOutcome;
import org.axtrial.time.SystemTime;
import org.jspecify.annotations.Nullable;

/** Asks the person at the terminal, one question after the other however many axes ask. */
final class TerminalQuestions implements Readings, People, Retests {

    private static final long LOOK_NANOS = 100_000_000;

    private final Terminal terminal;
    private final Progress progress;
    private final String operator;
    private final Keyboard keyboard;
    private @Nullable Question<?> open;

    /** @param operator who is recorded as the one who read and operated; empty string if nobody is named */
    TerminalQuestions(Terminal terminal, Progress progress, String operator) {
        this.terminal = terminal;
        this.progress = progress;
        this.operator = operator;
        this.keyboard = new Keyboard(terminal);
    }

    @Override
    public Readings.Pending ask(Readings.Request request) {
        ReadingQuestion question = new ReadingQuestion(terminal, operator, request);
        return new Readings.Pending() {
            @Override
            public Optional<Readings.Answer> look() {
                return TerminalQuestions.this.look(question);
            }

            @Override
            public void close() {
                takeBack(question);
            }
        };
    }

    @Override
    public People.Pending ask(People.Request request) {
        PersonQuestion question = new PersonQuestion(terminal, operator, request);
        return new People.Pending() {
            @Override
            public Optional<People.Answer> look() {
                return question.given().or(() -> TerminalQuestions.this.look(question));
            }

            @Override
            public boolean isReady() {
                Optional<People.Answer> unused = look();
                return question.isReady();
            }

            @Override
            public void close() {
                takeBack(question);
            }
        };
    }

    @Override
    public Optional<String> reason(TrialOutcome outcome, BooleanSupplier stopped) throws InterruptedException {
        RetestQuestion question = new RetestQuestion(terminal, outcome);
        try {
            Optional<Optional<String>> answer = look(question);
            while (answer.isEmpty() && !stopped.getAsBoolean()) {
                SystemTime.INSTANCE.sleepUntil(SystemTime.INSTANCE.nanos() + LOOK_NANOS);
                answer = look(question);
            }
            return answer.orElse(Optional.empty());
        } finally {
            takeBack(question);
        }
    }

    private synchronized <T> Optional<T> look(Question<T> question) {
        if (open == null) {
            open = question;
            progress.hold();
            question.put();
            keyboard.begin();
        }
        if (open != question) {
            return Optional.empty();
        }
        Optional<Optional<String>> typed = keyboard.line();
        if (typed.isEmpty()) {
            return Optional.empty();
        }
        if (typed.get().isEmpty() && question instanceof RetestQuestion) {
            return question.take("");
        }
        return question.take(typed.get().orElseThrow(question::ended));
    }

    private synchronized void takeBack(Question<?> question) {
        if (open == question) {
            open = null;
            if (!question.answered()) {
                terminal.line("");
                terminal.line("  The question is taken back, because the trial has ended.");
            }
            progress.release();
        }
    }
}
