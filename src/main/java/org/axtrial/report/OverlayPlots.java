package org.axtrial.report;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TraceFile;
import org.axtrial.evidence.TraceRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.quantity.Unit;

/** Draws the same motion of two runs over each other. */
final class OverlayPlots {

    private static final Map<String, String> CHANNELS = channels();

    private final Path baselineFolder;
    private final RunRecord baseline;
    private final Path runFolder;
    private final RunRecord run;

    private record Motion(String script, String trial, String axis, String trace) {}

    OverlayPlots(Path baselineFolder, RunRecord baseline, Path runFolder, RunRecord run) {
        this.baselineFolder = baselineFolder;
        this.baseline = baseline;
        this.runFolder = runFolder;
        this.run = run;
    }

    private static Map<String, String> channels() {
        Map<String, String> titles = new LinkedHashMap<>();
        titles.put("position", "Position from start");
        titles.put("speed", "Speed");
        titles.put("followingError", "Following error");
        titles.put("torque", "Torque");
        return titles;
    }

    List<View.Figure> figures() {
        Map<Motion, TraceRecord> before = motions(baseline);
        List<View.Figure> figures = new ArrayList<>();
        motions(run)
                .forEach((motion, now) -> Optional.ofNullable(before.get(motion))
                        .ifPresent(was -> figure("overlay-" + (figures.size() + 1), motion, was, now)
                                .ifPresent(figures::add)));
        return figures;
    }

    private static Map<Motion, TraceRecord> motions(RunRecord record) {
        Map<Motion, TraceRecord> map = new LinkedHashMap<>();
        for (TrialRecord trial : record.trials()) {
            trial.deciding().stream()
                    .flatMap(attempt -> attempt.traces().stream())
                    .forEach(trace ->
                            map.put(new Motion(trial.script(), trial.trial(), trial.axis(), trace.name()), trace));
        }
        return map;
    }

    private Optional<View.Figure> figure(String id, Motion motion, TraceRecord was, TraceRecord now) {
        TraceFile before = TraceFile.read(baselineFolder, was);
        TraceFile after = TraceFile.read(runFolder, now);
        if (before.size() == 0 || after.size() == 0) {
            return Optional.empty();
        }
        List<String> drawings = new ArrayList<>();
        CHANNELS.forEach((channel, title) ->
                plot(id, channel, title, was, before, now, after).ifPresent(drawings::add));
        String heading = motion.trial() + " on " + motion.axis() + ": " + Words.minus(now.title());
        String caption = was.title().equals(now.title())
                ? ""
                : "In the baseline this motion was \u201c" + Words.minus(was.title()) + "\u201d.";
        return Optional.of(new View.Figure(heading, now.file(), caption, drawings));
    }

    private static Optional<String> plot(
            String id,
            String channel,
            String title,
            TraceRecord was,
            TraceFile before,
            TraceRecord now,
            TraceFile after) {
        Optional<TraceRecord.Column> old = column(was, channel);
        Optional<TraceRecord.Column> fresh = column(now, channel);
        if (old.isEmpty()
                || fresh.isEmpty()
                || old.get().unit().dimension() != fresh.get().unit().dimension()) {
            return Optional.empty();
        }
        Unit unit = fresh.get().unit();
        boolean fromStart = channel.equals("position");
        double[] earlier = values(before, channel, old.get().unit(), unit, fromStart);
        double[] later = values(after, channel, unit, unit, fromStart);
        double[] timesBefore = before.times();
        double[] timesAfter = after.times();
        String printed = unit.printed();
        return Optional.of(new Plot(
                        id + "-" + channel,
                        title + " of both runs: " + Words.minus(now.title()),
                        title + " over time of both runs; the last values are "
                                + Words.spoken(earlier[earlier.length - 1], unit) + " in the baseline and "
                                + Words.spoken(later[later.length - 1], unit) + " in the run.",
                        title + (printed.isEmpty() ? "" : " / " + printed),
                        Math.min(0, Math.min(timesBefore[0], timesAfter[0])),
                        Math.max(timesBefore[timesBefore.length - 1], timesAfter[timesAfter.length - 1]))
                .leastHeight(10 * fresh.get().quantum())
                .line(Line.of("demand", timesBefore, earlier))
                .line(Line.of("actual", timesAfter, later))
                .svg());
    }

    private static Optional<TraceRecord.Column> column(TraceRecord trace, String channel) {
        return trace.channels().stream().filter(c -> c.name().equals(channel)).findFirst();
    }

    /** An axis rarely starts two runs at the same place, so positions count from the first sample. */
    private static double[] values(TraceFile file, String channel, Unit from, Unit to, boolean fromStart) {
        double[] values = file.values(channel).orElseThrow();
        double zero = fromStart ? values[0] : 0;
        return Arrays.stream(values)
                .map(value -> from.convert(value - zero, to))
                .toArray();
    }
}
