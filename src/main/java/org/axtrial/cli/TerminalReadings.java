package org.axtrial.cli;

import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.measure.Instrument;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.script.MissingReadingException;
import org.axtrial.script.Readings;
import org.jspecify.annotations.Nullable;

/** Asks the person at the terminal for readings, one question after the other however many axes ask. */
final class TerminalReadings implements Readings {

    private final Terminal terminal;
    private final Progress progress;
    private final String operator;
    private final Keyboard keyboard;
    private @Nullable Question open;

    /** @param operator who is recorded as the reader; empty string if nobody is named */
    TerminalReadings(Terminal terminal, Progress progress, String operator) {
        this.terminal = terminal;
        this.progress = progress;
        this.operator = operator;
        this.keyboard = new Keyboard(terminal);
    }

    @Override
    public Pending ask(Request request) {
        return new Question(request);
    }

    private synchronized Optional<Answer> look(Question question) {
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
        return typed.isEmpty()
                ? Optional.empty()
                : question.take(typed.get()
                        .orElseThrow(() -> new MissingReadingException(
                                question.request.what() + " is missing: the input of the terminal has ended")));
    }

    private synchronized void takeBack(Question question) {
        if (open == question) {
            open = null;
            if (!question.answered) {
                terminal.line("");
                terminal.line("  The question is taken back, because the trial has ended.");
            }
            progress.release();
        }
    }

    /** One reading, with its temperature where that is needed. */
    private final class Question implements Pending {

        private final Request request;
        private @Nullable Quantity value;
        private boolean answered;

        Question(Request request) {
            this.request = request;
        }

        @Override
        public Optional<Answer> look() {
            return TerminalReadings.this.look(this);
        }

        @Override
        public void close() {
            takeBack(this);
        }

        private void put() {
            Instrument instrument = request.instrument();
            terminal.line("");
            terminal.line("READING  axis " + request.key().axis() + ", trial "
                    + request.key().trial());
            terminal.line("  " + request.name());
            terminal.line("  on " + instrument.id() + ": " + instrument.type() + ", serial " + instrument.serial());
            terminal.line("  The axis may be under torque, and may move as soon as you have answered:");
            terminal.line("  be out of its reach before you press Enter. Ctrl-C stops.");
            prompt();
        }

        private void prompt() {
            terminal.raw(
                    value == null
                            ? "  Value in " + request.unit().symbol() + ": "
                            : "  Temperature of " + request.instrument().id() + " in degC: ");
        }

        private Optional<Answer> take(String line) {
            try {
                if (value == null) {
                    TypedReading typed = TypedReading.of(line, request.unit());
                    value = typed.value();
                    if (!request.needsTemperature() || typed.temperature().isPresent()) {
                        return Optional.of(answer(typed.value(), typed.temperature()));
                    }
                } else {
                    return Optional.of(answer(value, OptionalDouble.of(TypedReading.celsius(line))));
                }
            } catch (TypedReading.NotUnderstood e) {
                terminal.line("  Not taken: " + e.getMessage());
            }
            prompt();
            return Optional.empty();
        }

        private Answer answer(Quantity read, OptionalDouble temperature) {
            answered = true;
            terminal.line("  Taken: " + read.printed()
                    + (temperature.isPresent()
                            ? " at " + new Quantity(temperature.getAsDouble(), Unit.DEGREE_CELSIUS).printed()
                            : ""));
            return new Answer(read, temperature, operator, "typed at the terminal");
        }
    }
}
