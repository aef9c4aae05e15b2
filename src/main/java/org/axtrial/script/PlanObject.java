package org.axtrial.script;

import java.util.List;
import org.axtrial.axis.AxisSetup;
import org.axtrial.measure.PositioningPlan;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;
import org.graalvm.polyglot.proxy.ProxyArray;

/** A plan of a positioning test as a script holds it. Positions are told as numbers in a unit. */
final class PlanObject extends WordObject {

    private static final String USAGE =
            "axis.positioningPlan(0, 300, \"mm\", { overrun: [5, \"mm\"], period: [10, \"mm\"], seed: 1 })";

    private final PositioningPlan plan;

    private PlanObject(WordHost host, PositioningPlan plan, AxisSetup axis) {
        super(host, "the positioning plan");
        this.plan = plan;
        word("targets", (values, place) -> {
            Unit unit = unit("targets", values, axis);
            return ProxyArray.fromArray(plan.targets().stream()
                    .map(target -> (Object) in(target, unit, axis))
                    .toArray());
        });
        word("turnBelow", (values, place) -> in(plan.turnBelow(), unit("turnBelow", values, axis), axis));
        word("turnAbove", (values, place) -> in(plan.turnAbove(), unit("turnAbove", values, axis), axis));
        word("cycles", (values, place) -> {
            new Arguments("cycles", "cycles()", values).count(0, 0);
            return plan.cycles();
        });
    }

    /** Plans a test from the arguments of {@code axis.positioningPlan(…)}. */
    static PlanObject of(WordHost host, AxisSetup axis, List<Value> values) {
        Arguments arguments = new Arguments("positioningPlan", USAGE, values).count(2, 4);
        double low = arguments.number(0, "lowest position");
        Quantity high = arguments.motion(
                arguments.quantity(1, "highest position"),
                Dimension.Motion.POSITION,
                "highest position",
                axis.scale(),
                axis.unit());
        Options options = arguments.options(3, "overrun", "period", "seed");
        Unit unit = high.unit();
        double overrun =
                distance(arguments, arguments.pair(options.required("overrun", USAGE), "option overrun"), unit, axis);
        double period = options.pair("period")
                .map(quantity -> distance(arguments, quantity, unit, axis))
                .orElse(0.0);
        Value seed = options.required("seed", USAGE);
        if (!seed.fitsInLong()) {
            throw new ScriptMistake(
                    "positioningPlan: option seed must be a whole number but is " + Arguments.shown(seed));
        }
        return new PlanObject(host, PositioningPlan.of(unit, low, high.value(), overrun, period, seed.asLong()), axis);
    }

    private static double distance(Arguments arguments, Quantity quantity, Unit unit, AxisSetup axis) {
        Quantity checked = arguments.motion(
                arguments.positive(quantity, "a distance"),
                Dimension.Motion.POSITION,
                "distance",
                axis.scale(),
                axis.unit());
        return axis.scale().convert(checked.value(), checked.unit(), unit);
    }

    private static Unit unit(String word, List<Value> values, AxisSetup axis) {
        Arguments arguments = new Arguments(word, word + "(\"mm\")", values).count(1, 1);
        Unit unit = arguments.unit(0, word);
        arguments.motion(new Quantity(0, unit), Dimension.Motion.POSITION, word, axis.scale(), axis.unit());
        return unit;
    }

    private double in(double position, Unit unit, AxisSetup axis) {
        return axis.scale().convert(position, plan.unit(), unit);
    }

    @Override
    String printed() {
        return "a positioning plan of " + plan.targets().size() + " targets and " + plan.cycles() + " cycles";
    }
}
