package org.axtrial.script;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisChannels;
import org.axtrial.axis.AxisSetup;
import org.axtrial.axis.JointMotion;
import org.axtrial.axis.Motion;
import org.axtrial.axis.MoveOptions;
import org.axtrial.evidence.ScriptPlace;
import org.axtrial.measure.Skew;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;
import org.jspecify.annotations.Nullable;

/** The words of a trial that move several axes at once. */
final class TogetherWords {

    private static final String ENABLE = "t.enableTogether()";
    private static final String MOVE =
            "t.moveTogether({ INFEED: { by: [1, \"rev\"], speed: [150, \"rpm\"] }, LIFT: { to: [40, \"mm\"] } })";

    private static final String SKEW = "t.skew(moves.LEFT, moves.RIGHT)";

    private final TrialObject trial;
    private final TrialAxes axes;
    private final TrialEvents events;
    private final Map<String, AxisObject> objects = new LinkedHashMap<>();

    /** @param objects one for each axis, the one on trial first */
    TogetherWords(TrialObject trial, TrialAxes axes, List<AxisObject> objects, TrialEvents events) {
        this.trial = trial;
        this.axes = axes;
        this.events = events;
        objects.forEach(object -> this.objects.put(object.printed(), object));
    }

    void offer(AxisObject main) {
        trial.word("enableTogether", main.timed(this::enable));
        trial.word("moveTogether", main.timed(this::move));
        trial.word("skew", (values, place) -> skew(values));
    }

    private @Nullable Object enable(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        new Arguments("enableTogether", ENABLE, values).count(0, 0);
        requireSeveral("enableTogether");
        axes.workedTogether();
        JointMotion.enable(axes.all());
        events.step("Enable " + String.join(", ", axes.names()), place);
        return null;
    }

    private Object move(List<Value> values, Optional<ScriptPlace> place) throws InterruptedException {
        Arguments arguments = new Arguments("moveTogether", MOVE, values).count(1, 1);
        requireSeveral("moveTogether");
        Map<String, Value> wanted = arguments.members(0, "axes that move");
        wanted.keySet().forEach(this::requireKnown);
        if (wanted.isEmpty()) {
            throw new ScriptMistake("moveTogether: no axis is named; write " + MOVE);
        }
        axes.workedTogether();
        List<JointMotion.Part> parts = new ArrayList<>();
        Map<String, String> texts = new LinkedHashMap<>();
        for (Axis axis : axes.all()) {
            String name = axis.setup().name();
            Value way = wanted.get(name);
            JointMotion.Part part = way == null
                    ? JointMotion.Part.watched(axis)
                    : part(
                            axis,
                            object(name),
                            arguments,
                            arguments.options(way, name, "by", "to", "speed", "acceleration", "settle"));
            parts.add(part);
            part.quantity()
                    .ifPresent(quantity -> texts.put(
                            name,
                            name
                                    + (part.absolute() ? " to " : " by ")
                                    + quantity.printed()
                                    + AxisObject.with(part.options())));
        }
        return moved(parts, texts, place);
    }

    private JointObject moved(List<JointMotion.Part> parts, Map<String, String> texts, Optional<ScriptPlace> place)
            throws InterruptedException {
        List<Optional<Motion>> motions = JointMotion.move(parts);
        events.step("Move at once: " + texts.values().stream().collect(Collectors.joining("; ")), place);
        JointObject joint = new JointObject(trial.host());
        motions.forEach(motion -> motion.ifPresent(made -> joint.add(
                made.axis(), object(made.axis()).traced("moveTogether", "Move " + texts.get(made.axis()), made))));
        return joint;
    }

    private MeasurementObject skew(List<Value> values) {
        Arguments arguments = new Arguments("skew", SKEW, values).count(2, 2);
        Motion one = motion(arguments.value(0));
        Motion other = motion(arguments.value(1));
        if (one.axis().equals(other.axis())) {
            throw new ScriptMistake(
                    "skew: both motions are of " + one.axis() + "; give those of two axes, such as " + SKEW);
        }
        Unit unit = axis(one).setup().unit();
        if (unit != axis(other).setup().unit()) {
            throw new ScriptMistake("skew: " + one.axis() + " is measured in " + unit.symbol() + " and " + other.axis()
                    + " in " + axis(other).setup().unit().symbol() + "; only axes of one unit can go the same way");
        }
        return new MeasurementObject(
                trial.host(),
                Skew.of(side(one), side(other), AxisChannels.POSITION),
                Optional.empty(),
                axis(one).setup().scale());
    }

    private static Motion motion(Value value) {
        if (value.isProxyObject() && value.asProxyObject() instanceof MotionObject object) {
            return object.motion();
        }
        throw new ScriptMistake(
                "skew: expected the motion of an axis but got " + Arguments.shown(value) + "; write " + SKEW);
    }

    /** Orders beyond the envelope are refused, so that its acceleration bounds what a move can do. */
    private Skew.Side side(Motion motion) {
        AxisSetup setup = axis(motion).setup();
        Quantity most = setup.envelope().acceleration();
        return new Skew.Side(
                motion.trace(),
                motion.startPosition(),
                Math.abs(setup.scale()
                        .convert(
                                most.value(),
                                most.unit(),
                                setup.unit().perSecond().perSecond())));
    }

    private Axis axis(Motion motion) {
        return axes.all().stream()
                .filter(axis -> axis.setup().name().equals(motion.axis()))
                .findFirst()
                .orElseThrow();
    }

    private AxisObject object(String axis) {
        AxisObject object = objects.get(axis);
        if (object == null) {
            throw new IllegalStateException("no axis of this trial is named " + axis);
        }
        return object;
    }

    private static JointMotion.Part part(Axis axis, AxisObject object, Arguments arguments, Options given) {
        String name = axis.setup().name();
        Optional<Quantity> by = given.pair("by");
        Optional<Quantity> to = given.pair("to");
        if (by.isPresent() == to.isPresent()) {
            throw new ScriptMistake(
                    "moveTogether: " + name + " needs either by, a distance, or to, a target; write " + MOVE);
        }
        if (by.isPresent() && by.get().value() == 0) {
            throw new ScriptMistake("moveTogether: the distance of " + name + " is 0, which moves nothing; leave "
                    + name + " out, it is watched all the same");
        }
        Quantity quantity = object.positionOf(arguments, by.or(() -> to).orElseThrow(), "way of " + name);
        MoveOptions options = object.moveOptions(arguments, given);
        return new JointMotion.Part(axis, Optional.of(quantity), to.isPresent(), options);
    }

    private void requireSeveral(String word) {
        if (!axes.several()) {
            throw new ScriptMistake(word + ": this trial works one axis; name the others where it is declared, such as"
                    + " { axes: [\"INFEED\"], with: [\"LIFT\"] }");
        }
    }

    private void requireKnown(String name) {
        if (!objects.containsKey(name)) {
            throw new ScriptMistake("moveTogether: this trial does not work axis \"" + name + "\"; "
                    + NearMiss.hintOrAll(name, List.copyOf(objects.keySet()))
                    + ". Axes that move with the one on trial are declared by with: [\"…\"]");
        }
    }
}
