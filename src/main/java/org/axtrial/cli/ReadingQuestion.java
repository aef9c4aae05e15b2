package org.axtrial.cli;

import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.measure.Instrument;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.script.MissingReadingException;
import org.axtrial.script.Readings;
import org.jspecify.annotations.Nullable;

/** One reading, with its temperature where that is needed. */
final class ReadingQuestion implements Question<Readings.Answer> {

    private final Terminal terminal;
    private final String operator;
    private final Readings.Request request;
    private @Nullable Quantity value;
    private boolean answered;

    ReadingQuestion(Terminal terminal, String operator, Readings.Request request) {
        this.terminal = terminal;
        this.operator = operator;
        this.request = request;
    }

    @Override
    public void put() {
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

    @Override
    public Optional<Readings.Answer> take(String line) {
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

    private Readings.Answer answer(Quantity read, OptionalDouble temperature) {
        answered = true;
        terminal.line("  Taken: " + read.printed()
                + (temperature.isPresent()
                        ? " at " + new Quantity(temperature.getAsDouble(), Unit.DEGREE_CELSIUS).printed()
                        : ""));
        return new Readings.Answer(read, temperature, operator, "typed at the terminal");
    }

    @Override
    public RuntimeException ended() {
        return new MissingReadingException(request.what() + " is missing: the input of the terminal has ended");
    }

    @Override
    public boolean answered() {
        return answered;
    }
}
