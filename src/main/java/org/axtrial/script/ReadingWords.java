package org.axtrial.script;

import java.time.Duration;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.axtrial.axis.Axis;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.Instrument;
import org.axtrial.measure.Measurement;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;

/**
 * The word of a trial that takes a value from an instrument beside the machine. While a person is waited for, the axis is
 * watched like in any dwell: envelope, drive state, stop and keep-alive stay in force.
 */
final class ReadingWords {

    private static final String USAGE = "t.reading(\"Position at target 3\", { instrument: \"IND-1\", unit: \"mm\" })";

    /** Short, so that an answer is taken at once; every sample of it is held against the envelope. */
    private static final Duration SLICE = Duration.ofMillis(200);

    private final TrialObject trial;
    private final TrialAxes axes;
    private final Axis axis;
    private final TrialKey key;
    private final TrialEvents events;
    private final TrialLimit limit;
    private final ReadingSetup setup;
    private final Set<String> names = new HashSet<>();

    ReadingWords(
            TrialObject trial, TrialAxes axes, TrialKey key, TrialEvents events, TrialLimit limit, ReadingSetup setup) {
        this.trial = trial;
        this.axes = axes;
        this.axis = axes.main();
        this.key = key;
        this.events = events;
        this.limit = limit;
        this.setup = setup;
    }

    void offer() {
        trial.word("reading", this::reading);
    }

    private MeasurementObject reading(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        Arguments arguments = new Arguments("reading", USAGE, values).count(2, 2);
        String name = arguments.text(0, "name");
        Options options = arguments.options(1, "instrument", "unit");
        options.required("instrument", USAGE);
        options.required("unit", USAGE);
        Instrument instrument = instrument(options.text("instrument").orElseThrow());
        Unit unit = unit(options.text("unit").orElseThrow(), instrument);
        if (!names.add(name)) {
            throw new ScriptMistake("reading: \"" + name + "\" was read already in this trial; give each reading a name"
                    + " of its own, for example by adding the number of the cycle");
        }
        Readings.Request request = new Readings.Request(key, name, instrument, unit);
        double before = axis.position().value();
        Readings.Answer answer = await(request);
        double moved = axis.position().value() - before;
        Measurement measurement = measured(request, answer);
        Optional<String> motion = moved(moved, instrument);
        events.step(
                told(request, answer, measurement)
                        + motion.map(text -> "; " + text).orElse(""),
                place);
        return new MeasurementObject(
                trial.host(),
                measurement.withReservation(motion),
                Optional.empty(),
                axis.setup().scale());
    }

    private Instrument instrument(String id) {
        return setup.find(id)
                .orElseThrow(() -> new ScriptMistake("reading: the site file has no instrument \"" + id + "\"; "
                        + (setup.instruments().isEmpty()
                                ? "list it under instruments:"
                                : NearMiss.hintOrAll(id, setup.ids()))));
    }

    private static Unit unit(String spelling, Instrument instrument) {
        List<String> fitting = units(instrument.unit().dimension());
        Unit unit = Unit.of(spelling)
                .orElseThrow(() -> new ScriptMistake(
                        "reading: unknown unit \"" + spelling + "\"; " + NearMiss.hintOrAll(spelling, fitting)));
        if (unit.dimension() != instrument.unit().dimension()) {
            throw new ScriptMistake("reading: instrument " + instrument.id() + " reads in "
                    + instrument.unit().symbol() + ", and \"" + spelling + "\" is a unit of another kind; use "
                    + String.join(", ", fitting));
        }
        return unit;
    }

    private static List<String> units(Dimension dimension) {
        return Arrays.stream(Unit.values())
                .filter(unit -> unit.dimension() == dimension)
                .map(Unit::symbol)
                .toList();
    }

    /** Nobody can be hurried, so the limits of the trial wait as well; the axis does not go unwatched meanwhile. */
    private Readings.Answer await(Readings.Request request) throws InterruptedException {
        try (Readings.Pending pending = setup.readings().ask(request)) {
            Optional<Readings.Answer> answer = pending.look();
            if (answer.isPresent()) {
                return answer.get();
            }
            limit.pause();
            try {
                while (answer.isEmpty()) {
                    axes.watch(SLICE);
                    answer = pending.look();
                }
            } finally {
                limit.resume();
            }
            return answer.get();
        }
    }

    private Measurement measured(Readings.Request request, Readings.Answer answer) {
        Quantity value = answer.value();
        Instrument instrument = request.instrument();
        if (value.unit().dimension() != request.unit().dimension()) {
            throw new MissingReadingException(request.what() + " was answered with " + value.printed() + " ("
                    + answer.how() + "), a unit of another kind; it reads in "
                    + request.unit().symbol());
        }
        if (request.needsTemperature() && answer.temperature().isEmpty()) {
            throw new MissingReadingException("the temperature for " + request.what() + " is missing (" + answer.how()
                    + "); " + instrument.id() + " has a temperature coefficient");
        }
        Quantity wanted = new Quantity(value.in(request.unit()), request.unit());
        return instrument.measured(request.name(), wanted, answer.temperature(), setup.day());
    }

    /** A position that changed while it was read belongs to no place. */
    private Optional<String> moved(double by, Instrument instrument) {
        boolean ofPlace = instrument.unit().dimension() == Dimension.LENGTH
                || instrument.unit().dimension() == Dimension.ANGLE;
        Quantity window = axis.setup().standstillWindow();
        double allowed = axis.setup()
                .scale()
                .convert(window.value(), window.unit(), axis.setup().unit());
        // The window lies on both sides of one place.
        return ofPlace && Math.abs(by) > 2 * allowed
                ? Optional.of(
                        "the axis moved by " + new Quantity(by, axis.setup().unit()).printed(4)
                                + " while the value was read; hold it still and read again")
                : Optional.empty();
    }

    private static String told(Readings.Request request, Readings.Answer answer, Measurement measurement) {
        StringBuilder text = new StringBuilder("Reading \"" + request.name() + "\" on "
                + request.instrument().id() + ": " + answer.value().printed());
        answer.temperature()
                .ifPresent(celsius -> text.append(" at ").append(new Quantity(celsius, Unit.DEGREE_CELSIUS).printed()));
        if (request.needsTemperature()) {
            text.append(", at 20 °C ").append(new Quantity(measurement.value(), measurement.unit()).printed(9));
        }
        text.append(answer.by().isEmpty() ? ", reader not named" : ", read by " + answer.by())
                .append(", ")
                .append(answer.how());
        return text.toString();
    }
}
