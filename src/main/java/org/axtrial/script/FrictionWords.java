package org.axtrial.script;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.axtrial.axis.AxisChannels;
import org.axtrial.axis.AxisSetup;
import org.axtrial.measure.Friction;
import org.axtrial.measure.Measurement;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;

/** The words of a trial that part friction into what is there at any speed and what grows with it. */
final class FrictionWords {

    private static final int FEWEST = 3;

    private final TrialObject trial;
    private final AxisSetup axis;

    FrictionWords(TrialObject trial, AxisSetup axis) {
        this.trial = trial;
        this.axis = axis;
    }

    void offer() {
        part("coulombFriction", "Coulomb friction", Friction.Fit::coulomb);
        part("viscousFriction", "viscous friction", Friction.Fit::viscous);
    }

    private void part(String word, String name, Function<Friction.Fit, Measurement> part) {
        String usage = "t." + word + "([{ out: hold, back: other }, …])";
        trial.word(word, (values, place) -> {
            List<HoldPair> pairs = pairs(word, usage, values);
            return new MeasurementObject(trial.host(), measured(name, pairs, part), Optional.empty(), axis.scale());
        });
    }

    private static Measurement measured(String name, List<HoldPair> pairs, Function<Friction.Fit, Measurement> part) {
        if (pairs.stream().anyMatch(pair -> !pair.reports(AxisChannels.TORQUE) || !pair.reports(AxisChannels.SPEED))) {
            return Measurement.notReported(
                    name, Unit.PERCENT, "the drive does not report torque and speed; describe their registers");
        }
        List<Friction.AtSpeed> points = pairs.stream().map(HoldPair::friction).toList();
        return points.stream()
                .flatMap(point -> point.friction().missing().stream())
                .findFirst()
                .map(why -> Measurement.notReported(name, Unit.PERCENT, why))
                .orElseGet(() -> part.apply(Friction.fit(points)));
    }

    private static List<HoldPair> pairs(String word, String usage, List<Value> values) {
        Value list = new Arguments(word, usage, values).count(1, 1).value(0);
        if (!list.hasArrayElements() || list.getArraySize() < FEWEST) {
            throw new ScriptMistake(word + ": expected a list of holds at " + FEWEST
                    + " different speeds or more, both ways each, but got " + Arguments.shown(list) + "; write "
                    + usage);
        }
        List<HoldPair> pairs = new ArrayList<>();
        for (long i = 0; i < list.getArraySize(); i++) {
            Options both = new Arguments(word, usage, List.of(list.getArrayElement(i))).options(0, "out", "back");
            HoldPair pair = HoldPair.of(both.required("out", usage), both.required("back", usage), word, usage);
            if (pairs.stream().anyMatch(pair::isAsFastAs)) {
                throw new ScriptMistake(word + ": " + pair.one().commanded().printed()
                        + " is there twice; a straight line over speed needs " + FEWEST + " different ones");
            }
            pairs.add(pair);
        }
        return pairs;
    }
}
