package org.axtrial.script;

import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.CopyOnWriteArrayList;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisException;
import org.axtrial.axis.JointMotion;
import org.axtrial.axis.ParameterChange;
import org.axtrial.axis.StopReport;
import org.axtrial.time.AtOnce;

/**
 * The axes that one attempt works: the one on trial, and those that move at once with it. They begin, stop and end
 * together.
 */
final class TrialAxes {

    private final Axis main;
    private final List<Axis> others;
    private final List<Axis> begun = new CopyOnWriteArrayList<>();
    private boolean together;

    /** @param others the axes that the trial names as moving with the one on trial; usually none */
    TrialAxes(Axis main, List<Axis> others) {
        this.main = main;
        this.others = List.copyOf(others);
    }

    Axis main() {
        return main;
    }

    /** The one on trial first. */
    List<Axis> all() {
        List<Axis> all = new ArrayList<>(List.of(main));
        all.addAll(others);
        return all;
    }

    List<String> names() {
        return all().stream().map(axis -> axis.setup().name()).toList();
    }

    boolean several() {
        return !others.isEmpty();
    }

    /**
     * Readies all of them for a new trial.
     *
     * @throws AxisException for the first that is not fit
     */
    void begin() throws InterruptedException {
        AtOnce.align(all().stream().map(Axis::time).toList());
        for (Axis axis : all()) {
            axis.beginTrial();
            begun.add(axis);
        }
    }

    /** All of them have torque from now on, so that none may be out of sight. */
    void workedTogether() {
        together = true;
    }

    /** Refuses a word that would work one axis while the others, under torque, are out of sight. */
    void requireAlone(String word) {
        if (together) {
            throw new ScriptMistake(word + ": this word works " + main.setup().name() + " alone, and "
                    + String.join(", ", names().subList(1, names().size()))
                    + " would be under torque and out of sight meanwhile; use t.moveTogether({ … })");
        }
    }

    /** Watches the axis on trial for a while, and the others too once they have torque. */
    void watch(Duration time) throws InterruptedException {
        if (together) {
            JointMotion.watch(all(), time);
        } else {
            main.dwell(time);
        }
    }

    /** Stops all of them at the same time; tells whether every one was seen to stand. */
    boolean safeStop(String reason) {
        List<StopReport> reports = new CopyOnWriteArrayList<>();
        Map<String, Runnable> stops = new LinkedHashMap<>();
        all().forEach(axis -> stops.put("stop of " + axis.setup().name(), () -> reports.add(axis.safeStop(reason))));
        AtOnce.urgently(stops);
        return reports.size() == all().size() && reports.stream().allMatch(StopReport::standstill);
    }

    /**
     * Ends the trial on every axis that it began on; tells the names of those that were not seen to stand.
     */
    List<String> end() {
        List<String> moving = new ArrayList<>();
        for (Axis axis : begun) {
            if (!axis.endTrial().standstill()) {
                moving.add(axis.setup().name());
            }
        }
        return moving;
    }

    /** Whether it began on any axis, so that it must be ended there. */
    boolean hasBegun() {
        return !begun.isEmpty();
    }

    /**
     * A parameter that still holds the value of a trial.
     *
     * @param axis name
     */
    record Left(String axis, ParameterChange change) {}

    List<Left> leftChanged() {
        return all().stream()
                .flatMap(axis -> axis.leftChanged().stream()
                        .map(change -> new Left(axis.setup().name(), change)))
                .toList();
    }
}
