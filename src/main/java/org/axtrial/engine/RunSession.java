package org.axtrial.engine;

import java.util.List;
import java.util.Optional;
import java.util.function.Function;
import org.axtrial.axis.Axis;
import org.axtrial.evidence.EvidenceSink;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunInfo.PlannedTrial;
import org.axtrial.evidence.RunSelection;
import org.axtrial.script.ScriptLibrary;

/**
 * All that a run needs.
 *
 * @param library the scripts folder
 * @param scripts names of the scripts to run, in order, unless the test platform selects others
 * @param axes the axes under test, open, with names of their own
 * @param sink takes all events of the run
 * @param info describes the run, given the plan
 * @param parallel whether axes may move at the same time
 * @param stop ends the run early
 * @param lastly is done when the last trial has ended, before the end of the run is recorded
 * @param afterwards is done when the last event of the run has been recorded
 * @param retests decides whether a trial that did not pass is tried again
 * @param selection which of the trials are to run; empty for all
 */
public record RunSession(
        ScriptLibrary library,
        List<String> scripts,
        List<Axis> axes,
        EvidenceSink sink,
        Function<List<PlannedTrial>, RunInfo> info,
        boolean parallel,
        StopSwitch stop,
        Runnable lastly,
        Runnable afterwards,
        Retests retests,
        Optional<RunSelection> selection) {

    /** A session in which nothing is tried again. */
    public RunSession(
            ScriptLibrary library,
            List<String> scripts,
            List<Axis> axes,
            EvidenceSink sink,
            Function<List<PlannedTrial>, RunInfo> info,
            boolean parallel,
            StopSwitch stop,
            Runnable afterwards) {
        this(library, scripts, axes, sink, info, parallel, stop, () -> {}, afterwards, Retests.NONE, Optional.empty());
    }

    public RunSession {
        scripts = List.copyOf(scripts);
        axes = List.copyOf(axes);
        List<String> names = axes.stream().map(axis -> axis.setup().name()).toList();
        if (names.stream().distinct().count() != names.size()) {
            throw new IllegalArgumentException("axes must have names of their own, got " + names);
        }
    }

    /** The same session with something to do when it is over. */
    RunSession withAfterwards(Runnable action) {
        return new RunSession(library, scripts, axes, sink, info, parallel, stop, lastly, action, retests, selection);
    }

    /** The same session with something to do and to record after its last trial. */
    public RunSession withLastly(Runnable action) {
        return new RunSession(
                library, scripts, axes, sink, info, parallel, stop, action, afterwards, retests, selection);
    }

    /** Whether a trial is to run on an axis. */
    boolean wants(String script, String trial, String axis) {
        return selection.isEmpty()
                || selection.get().reason(script, trial, axis).isPresent();
    }

    /** The axes of these names. */
    List<Axis> axes(List<String> names) {
        return axes.stream().filter(axis -> names.contains(axis.setup().name())).toList();
    }

    List<String> axisNames() {
        return axes.stream().map(axis -> axis.setup().name()).toList();
    }
}
