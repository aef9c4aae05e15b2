package org.axtrial.script;

import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.axtrial.axis.Axis;
import org.axtrial.axis.Motion;
import org.axtrial.axis.MoveOptions;
import org.axtrial.axis.ParameterChange;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.Measurement;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;
import org.jspecify.annotations.Nullable;

/** The axis under test as a script holds it. */
final class AxisObject extends WordObject {

    /** What was read has more digits than anyone wants to see; the trace holds them all. */
    private static final int READ_DIGITS = 6;
    /** A parameter is a stored number, and every digit of a 32-bit one may matter. */
    private static final int PARAMETER_DIGITS = 9;
    /** What a double holds exactly. */
    private static final int WHOLE_DIGITS = 15;

    private final Axis axis;
    private final TrialAxes axes;
    private final TrialEvents events;
    private final TrialClock clock;
    private final PersonSteps people;
    private final Set<String> looked = new HashSet<>();
    private boolean saved;

    /** A motion that is about to be made. */
    @FunctionalInterface
    interface Order {
        Motion make() throws InterruptedException;
    }

    AxisObject(WordHost host, Axis axis, TrialAxes axes, TrialEvents events, TrialClock clock, PersonSteps people) {
        super(host, "an axis");
        this.axes = axes;
        this.people = people;
        this.axis = axis;
        this.events = events;
        this.clock = clock;
        constant("name", axis.setup().name());
        loneWord("enable", (values, place) -> {
            new Arguments("enable", "axis.enable()", values).count(0, 0);
            axis.enable();
            events.step("Enable", place);
            return null;
        });
        loneWord("disable", (values, place) -> {
            new Arguments("disable", "axis.disable()", values).count(0, 0);
            axis.disable();
            events.step("Disable", place);
            return null;
        });
        loneWord("resetFault", (values, place) -> {
            new Arguments("resetFault", "axis.resetFault()", values).count(0, 0);
            axis.resetFault();
            events.step("Fault of the drive acknowledged", place);
            return null;
        });
        loneWord("moveBy", this::moveBy);
        loneWord("moveTo", this::moveTo);
        loneWord("holdSpeed", this::holdSpeed);
        loneWord("home", this::home);
        loneWord("dwell", this::dwell);
        axisWord("position", this::position);
        axisWord("read", this::read);
        axisWord("parameter", this::parameter);
        axisWord("setParameter", this::setParameter);
        axisWord("saveParameters", this::saveParameters);
        axisWord("strike", this::strike);
        new ProvokedWords(this, axis, events).offer();
        word("positioningPlan", (values, place) -> PlanObject.of(host, axis.setup(), values));
    }

    /** Whether a value has been read in this trial: a signal, or {@code position}. */
    boolean hasRead(String name) {
        return looked.contains(name);
    }

    /** A word that takes time on the axis, so that the trial's limit is looked at around it. */
    void axisWord(String name, WordHost.Word word) {
        word(name, timed(word));
    }

    /** A word that works this axis alone, for which no other may be under torque. */
    void loneWord(String name, WordHost.Word word) {
        axisWord(name, (values, place) -> {
            axes.requireAlone(name);
            return word.apply(values, place);
        });
    }

    WordHost.Word timed(WordHost.Word word) {
        return (values, place) -> {
            clock.check();
            @Nullable Object result = word.apply(values, place);
            clock.check();
            return result;
        };
    }

    private Object moveBy(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        Arguments arguments = new Arguments("moveBy", "axis.moveBy(1, \"rev\", { speed: [300, \"rpm\"] })", values);
        arguments.count(1, 3);
        Quantity distance = positionOf(arguments, "distance");
        if (distance.value() == 0) {
            throw new ScriptMistake("moveBy: the distance is 0, which moves nothing; use axis.dwell(…) to wait");
        }
        MoveOptions options = moveOptions(arguments);
        String text = "Move by " + distance.printed() + with(options);
        return moved("moveBy", text, () -> axis.moveBy(distance, options), place);
    }

    private Object moveTo(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        Arguments arguments = new Arguments("moveTo", "axis.moveTo(10, \"mm\", { speed: [20, \"mm/s\"] })", values);
        arguments.count(1, 3);
        Quantity target = positionOf(arguments, "target");
        MoveOptions options = moveOptions(arguments);
        String text = "Move to " + target.printed() + with(options);
        return moved("moveTo", text, () -> axis.moveTo(target, options), place);
    }

    private Object holdSpeed(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        String usage = "axis.holdSpeed(600, \"rpm\", { for: [5, \"s\"] })";
        Arguments arguments = new Arguments("holdSpeed", usage, values).count(1, 3);
        Quantity speed = speedOf(arguments, arguments.quantity(0, "speed"), "speed");
        if (speed.value() == 0) {
            throw new ScriptMistake("holdSpeed: the speed is 0; use axis.dwell(…) to watch a standing axis");
        }
        Options given = arguments.options(2, "for", "acceleration", "operate", "rehearse");
        Duration hold = arguments.duration(arguments.pair(given.required("for", usage), "option for"), "option for");
        MoveOptions options = new MoveOptions(Optional.empty(), acceleration(arguments, given), Optional.empty());
        String text = "Hold " + speed.printed() + " for " + seconds(hold) + with(options);
        return attended(
                arguments,
                given,
                new Attended("holdSpeed", text, hold),
                operation -> axis.holdSpeed(speed, hold, options, operation),
                () -> axis.holdSpeed(speed, hold, options),
                place);
    }

    private Object home(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        String usage = "axis.home({ within: [200, \"mm\"] })";
        Arguments arguments = new Arguments("home", usage, values).count(1, 1);
        Options given = arguments.options(0, "within", "settle");
        Quantity reach =
                arguments.positive(arguments.pair(given.required("within", usage), "option within"), "option within");
        arguments.motion(
                reach,
                Dimension.Motion.POSITION,
                "option within",
                axis.setup().scale(),
                axis.setup().unit());
        Optional<Duration> settle = given.pair("settle").map(pair -> arguments.duration(pair, "option settle"));
        MoveOptions options = new MoveOptions(Optional.empty(), Optional.empty(), settle);
        return moved("home", "Home within " + reach.printed() + with(options), () -> axis.home(reach, options), place);
    }

    private Object dwell(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        Arguments arguments = new Arguments("dwell", "axis.dwell(2, \"s\")", values).count(1, 3);
        Duration time = arguments.duration(arguments.quantity(0, "time"), "the time");
        return attended(
                arguments,
                arguments.options(2, "operate", "rehearse"),
                new Attended("dwell", "Watch the axis for " + seconds(time), time),
                operation -> axis.dwell(time, operation),
                () -> axis.dwell(time),
                place);
    }

    private Object position(List<Value> values, Optional<ScriptPlace> place) {
        Arguments arguments = new Arguments("position", "axis.position(\"mm\")", values).count(1, 1);
        Unit unit = arguments.unit(0, "position");
        Quantity position = axis.position();
        arguments.motion(
                new Quantity(0, unit),
                Dimension.Motion.POSITION,
                "position",
                axis.setup().scale(),
                axis.setup().unit());
        double value = axis.setup().scale().convert(position.value(), position.unit(), unit);
        looked.add("position");
        events.step("Position reads " + new Quantity(value, unit).printed(READ_DIGITS), place);
        return value;
    }

    private Object read(List<Value> values, Optional<ScriptPlace> place) {
        String signal = new Arguments("read", "axis.read(\"temperature\")", values)
                .count(1, 1)
                .text(0, "signal");
        double value = axis.read(signal);
        if (!Double.isFinite(value)) {
            throw new IllegalStateException(signal + " reads " + value);
        }
        looked.add(signal);
        events.step("Signal " + signal + " reads " + new Quantity(value, Unit.ONE).printed(READ_DIGITS), place);
        return value;
    }

    private Object parameter(List<Value> values, Optional<ScriptPlace> place) {
        String name = new Arguments("parameter", "axis.parameter(\"positionWindow\")", values)
                .count(1, 1)
                .text(0, "name");
        Quantity value = axis.parameter(name);
        if (!Double.isFinite(value.value())) {
            throw new IllegalStateException(name + " reads " + value.value());
        }
        // A whole number may be an identity or a word of bits, of which every digit counts.
        boolean whole = value.value() == Math.rint(value.value());
        events.step("Parameter " + name + " reads " + value.printed(whole ? WHOLE_DIGITS : PARAMETER_DIGITS), place);
        Measurement stored = Measurement.stored("parameter " + name, value.value(), value.unit());
        return new MeasurementObject(
                host(), stored, Optional.empty(), axis.setup().scale());
    }

    private @Nullable Object setParameter(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        String usage = "axis.setParameter(\"positionWindow\", 5, \"count\")";
        Arguments arguments = new Arguments("setParameter", usage, values).count(2, 4);
        String name = arguments.text(0, "name");
        Quantity value = arguments.quantity(1, "value");
        boolean keep = arguments.options(3, "keep").flag("keep");
        ParameterChange change = axis.setParameter(name, value, keep);
        String end = keep ? "meant to stay" : "put back when the trial ends";
        events.step(
                change.isNone()
                        ? "Parameter " + name + " is " + change.printedFound() + ", as wanted"
                        : "Set parameter " + change.printed() + ", " + end,
                place);
        return null;
    }

    private @Nullable Object saveParameters(List<Value> values, Optional<ScriptPlace> place)
            throws InterruptedException {
        String command = new Arguments("saveParameters", "axis.saveParameters(\"storeParameters\")", values)
                .count(1, 1)
                .text(0, "name of the save command");
        if (saved) {
            throw new ScriptMistake(
                    "saveParameters: this trial has saved the parameters already; once is enough, and the"
                            + " memory of a drive wears");
        }
        saved = true;
        axis.saveParameters(command);
        events.step("Parameters saved in the drive by " + command, place);
        return null;
    }

    private @Nullable Object strike(List<Value> values, Optional<ScriptPlace> place) {
        String usage = "axis.strike({ kind: \"more friction\", factor: 3 })";
        Map<String, Object> fault =
                new Arguments("strike", usage, values).count(1, 1).plainMembers(0, "fault");
        axis.strike(fault);
        String told = fault.entrySet().stream()
                .map(entry -> entry.getKey().equals("kind")
                        ? String.valueOf(entry.getValue())
                        : entry.getKey() + " " + entry.getValue())
                .collect(Collectors.joining(", "));
        events.step("The simulated machine was given a fault: " + told, place);
        return null;
    }

    /**
     * A motion in which a person may act.
     *
     * @param text what is ordered, in words
     * @param longest the time that they have
     */
    private record Attended(String word, String text, Duration longest) {}

    private MotionObject attended(
            Arguments arguments,
            Options given,
            Attended what,
            PersonSteps.Attended<Motion> withPerson,
            Order alone,
            Optional<ScriptPlace> place)
            throws InterruptedException {
        Optional<String> operate = given.text("operate");
        if (operate.isEmpty()) {
            if (given.get("rehearse").isPresent()) {
                throw new ScriptMistake(
                        what.word() + ": option rehearse belongs to option operate, which is missing; to let"
                                + " a fault come about use axis.strike(…)");
            }
            return moved(what.word(), what.text(), alone, place);
        }
        return people.during(
                operate.get(),
                what.text(),
                what.longest().toNanos() * 1e-9,
                PersonWords.rehearsal(arguments, given),
                place,
                withPerson,
                motion -> recorded(what.word(), what.text() + ", " + ending(motion), motion, place));
    }

    private static String ending(Motion motion) {
        return motion.driveStop()
                .map(stop -> "stopped by the machine after "
                        + new Quantity(stop.seconds(), Unit.SECOND).printed(READ_DIGITS) + ": " + stop.how())
                .orElse("not stopped by the machine");
    }

    MotionObject moved(String word, String text, Order order, Optional<ScriptPlace> place) throws InterruptedException {
        return recorded(word, text, order.make(), place);
    }

    private MotionObject recorded(String word, String text, Motion motion, Optional<ScriptPlace> place) {
        events.step(text, place);
        return traced(word, text, motion);
    }

    /** A motion whose trace is kept. */
    MotionObject traced(String word, String title, Motion motion) {
        return new MotionObject(host(), motion, events.trace(word, title, motion.trace()));
    }

    Quantity positionOf(Arguments arguments, String name) {
        return positionOf(arguments, arguments.quantity(0, name), name);
    }

    Quantity positionOf(Arguments arguments, Quantity position, String name) {
        return arguments.motion(
                position,
                Dimension.Motion.POSITION,
                name,
                axis.setup().scale(),
                axis.setup().unit());
    }

    private Quantity speedOf(Arguments arguments, Quantity speed, String name) {
        return arguments.motion(
                speed,
                Dimension.Motion.SPEED,
                name,
                axis.setup().scale(),
                axis.setup().unit());
    }

    private MoveOptions moveOptions(Arguments arguments) {
        return moveOptions(arguments, arguments.options(2, "speed", "acceleration", "settle"));
    }

    MoveOptions moveOptions(Arguments arguments, Options given) {
        Optional<Quantity> speed = given.pair("speed")
                .map(pair -> speedOf(arguments, arguments.positive(pair, "option speed"), "option speed"));
        Optional<Duration> settle = given.pair("settle").map(pair -> arguments.duration(pair, "option settle"));
        return new MoveOptions(speed, acceleration(arguments, given), settle);
    }

    private Optional<Quantity> acceleration(Arguments arguments, Options given) {
        return given.pair("acceleration")
                .map(pair -> arguments.motion(
                        arguments.positive(pair, "option acceleration"),
                        Dimension.Motion.ACCELERATION,
                        "option acceleration",
                        axis.setup().scale(),
                        axis.setup().unit()));
    }

    static String with(MoveOptions options) {
        StringBuilder text = new StringBuilder();
        options.speed().ifPresent(speed -> text.append(" at ").append(speed.printed()));
        options.acceleration()
                .ifPresent(acceleration -> text.append(", acceleration ").append(acceleration.printed()));
        options.settle()
                .ifPresent(settle ->
                        text.append(", sampled ").append(seconds(settle)).append(" longer"));
        return text.toString();
    }

    private static String seconds(Duration duration) {
        return new Quantity(duration.toNanos() / 1e9, Unit.SECOND).printed();
    }

    @Override
    String printed() {
        return axis.setup().name();
    }

    @Override
    String asNumber() {
        return "write axis.position(\"" + axis.setup().unit().symbol() + "\") to take its position";
    }
}
