package org.axtrial.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.TraceFile;
import org.axtrial.evidence.TraceRecord;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Unit;
import org.axtrial.report.Judged.Held;
import org.axtrial.report.Judged.Subject;
import org.axtrial.report.Judged.Target;
import org.axtrial.trace.Gap;

/** The plots of one trace: position with demand, speed, following error and torque, and what was judged from near. */
final class TracePlots {

    private static final String POSITION = "position";
    private static final String FOLLOWING_ERROR = "followingError";

    /** An accepted range that takes up at least this part of the height needs no picture of its own. */
    private static final double SEEN_WELL = 0.15;

    /** So many gaps are listed under the plots. */
    private static final int MOST_TOLD = 5;

    private final String id;
    private final TraceRecord trace;
    private final TraceFile samples;
    private final Judged judged;
    private final double[] times;
    private final Optional<Target> target;
    private final Optional<Held> held;

    /**
     * @param id unique on the page
     * @param checks those that were measured on this trace
     * @param conversion between the units that the axis is told in
     */
    TracePlots(String id, TraceRecord trace, TraceFile samples, List<CheckRecord> checks, Conversion conversion) {
        this.id = id;
        this.trace = trace;
        this.samples = samples;
        this.judged = new Judged(checks, conversion);
        this.times = samples.times();
        this.target = findTarget();
        this.held = judged.held()
                .filter(h -> column("speed")
                        .filter(c -> judged.converts(c.unit(), h.unit()))
                        .isPresent());
    }

    List<String> svgs() {
        List<String> out = new ArrayList<>();
        if (samples.size() == 0) {
            return out;
        }
        position().ifPresent(out::add);
        if (judged.isEmpty()) {
            // Nobody judged this motion, so it is told in short; the samples are in the pack.
            speed().ifPresent(out::add);
            return out;
        }
        boolean needsCloseUp = target.filter(t -> t.tolerance() < SEEN_WELL / 2 * range(POSITION))
                .isPresent();
        if (needsCloseUp) {
            target.ifPresent(t -> out.add(deviation(t)));
        }
        speed().ifPresent(out::add);
        held.ifPresent(h -> out.add(heldSpeed(h)));
        // Two stand beside each other, so an odd number leaves room for one that is always worth a look.
        boolean room = out.size() % 2 == (column("torque").isPresent() ? 0 : 1);
        if (judged.has(Subject.FOLLOWING_ERROR) || (room && range(FOLLOWING_ERROR) > 0)) {
            sized(FOLLOWING_ERROR, "Following error", Subject.FOLLOWING_ERROR).ifPresent(out::add);
        }
        sized("torque", "Torque", Subject.TORQUE).ifPresent(out::add);
        return out;
    }

    /** What the plots show in words, under them. */
    String caption() {
        StringBuilder out = new StringBuilder(judged.isEmpty() ? "No check was made on this motion. " : "");
        target.ifPresent(t -> out.append("Shaded: accepted range of “")
                .append(Words.minus(t.check()))
                .append("”. "));
        held.ifPresent(h -> out.append("Shaded: accepted range of “")
                .append(Words.minus(h.check()))
                .append("”. "));
        out.append(Words.count(trace.samples(), "sample", "samples"))
                .append(", ordered every ")
                .append(Words.seconds(trace.orderedPeriod()));
        trace.worstPeriod()
                .ifPresent(worst ->
                        out.append(", at worst ").append(Words.seconds(worst)).append(" apart"));
        return out.append(".").append(gaps()).toString();
    }

    /** Where samples are missing, dotted in the plots. */
    private String gaps() {
        List<Gap> gaps = Line.gaps(times);
        if (gaps.isEmpty()) {
            return "";
        }
        String listed = gaps.stream()
                .sorted(Comparator.comparingDouble(Gap::length).reversed())
                .limit(MOST_TOLD)
                .sorted(Comparator.comparingDouble(Gap::from))
                .map(gap -> Words.seconds(gap.length()) + " from " + Words.minus(Words.seconds(gap.from())))
                .collect(Collectors.joining(", "));
        return " Dotted: " + Words.count(gaps.size(), "gap", "gaps") + " without samples"
                + (gaps.size() > MOST_TOLD ? ", the longest are " : ": ") + listed + ".";
    }

    private Optional<String> position() {
        return plot(POSITION, "Position").map(plot -> {
            samples.values("demand").ifPresent(values -> plot.line(Line.of("demand", times, values)));
            samples.values(POSITION).ifPresent(values -> plot.lines(Line.sampled(times, values)));
            return plot.band(target.map(Target::band))
                    .marks(judged.marks(Subject.POSITION))
                    .svg();
        });
    }

    private Optional<String> speed() {
        return plot("speed", "Speed").map(plot -> {
            Unit unit = column("speed").orElseThrow().unit();
            samples.values("speed").ifPresent(values -> plot.lines(Line.sampled(times, values)));
            return plot.band(held.map(h ->
                            new Plot.Band(judged.in(unit, h.low(), h.unit()), judged.in(unit, h.high(), h.unit()))))
                    .marks(judged.marks(Subject.SPEED))
                    .svg();
        });
    }

    private Optional<String> sized(String channel, String title, Subject subject) {
        return plot(channel, title).map(plot -> {
            Unit unit = column(channel).orElseThrow().unit();
            double[] values = samples.values(channel).orElseThrow();
            return plot.lines(Line.sampled(times, values))
                    .band(judged.sizeLimit(subject, values, unit))
                    .marks(judged.marks(subject))
                    .svg();
        });
    }

    private Optional<Plot> plot(String channel, String title) {
        return column(channel).map(column -> {
            double[] values = samples.values(channel).orElseThrow();
            double least = Arrays.stream(values).min().orElse(0);
            double most = Arrays.stream(values).max().orElse(0);
            String unit = column.unit().printed();
            return new Plot(
                            id + "-" + channel,
                            title + ": " + Words.minus(trace.title()),
                            title + " over time, from " + Words.spoken(least, column.unit()) + " to "
                                    + Words.spoken(most, column.unit()) + ".",
                            title + (unit.isEmpty() ? "" : " / " + unit),
                            Math.min(0, times[0]),
                            times[times.length - 1])
                    .leastHeight(10 * column.quantum());
        });
    }

    private Optional<TraceRecord.Column> column(String channel) {
        return trace.channels().stream().filter(c -> c.name().equals(channel)).findFirst();
    }

    private double range(String channel) {
        return samples.values(channel)
                .filter(values -> values.length > 0)
                .map(values -> Arrays.stream(values).max().orElse(0)
                        - Arrays.stream(values).min().orElse(0))
                .orElse(0.0);
    }

    private Optional<Target> findTarget() {
        return samples.values(POSITION).filter(position -> position.length >= 2).flatMap(position -> {
            int atRest = 0;
            while (atRest < times.length && times[atRest] < 0) {
                atRest++;
            }
            return judged.target(
                    mean(position, 0, Math.max(1, atRest)),
                    mean(position, Math.max(0, position.length - 5), position.length),
                    column(POSITION).orElseThrow().unit());
        });
    }

    private static double mean(double[] values, int from, int to) {
        return Arrays.stream(values, from, to).average().orElse(0);
    }

    /** The end of the move, so near that the band fills a good part of the height. */
    private String deviation(Target to) {
        Unit unit = column(POSITION).orElseThrow().unit();
        Unit fine = fine(unit, to.tolerance());
        double[] deviation = Arrays.stream(samples.values(POSITION).orElseThrow())
                .map(value -> unit.convert(value - to.value(), fine))
                .toArray();
        double tolerance = unit.convert(to.tolerance(), fine);
        double last = deviation[deviation.length - 1];
        double reach = Math.max(2.5 * tolerance, 1.3 * Math.abs(last));
        int from = 0;
        for (int i = 0; i < deviation.length; i++) {
            from = Math.abs(deviation[i]) > reach ? i : from;
        }
        return new Plot(
                        id + "-deviation",
                        "Deviation from the target at the end of the move: " + Words.minus(trace.title()),
                        "Position minus target near the end, last value " + Words.spoken(last, fine)
                                + ", accepted range ± " + Words.spoken(tolerance, fine) + ".",
                        "Off target / " + fine.printed(),
                        times[Math.min(from, times.length - 2)],
                        times[times.length - 1])
                .lines(Line.sampled(
                        Arrays.copyOfRange(times, from, times.length),
                        Arrays.copyOfRange(deviation, from, times.length)))
                .band(Optional.of(new Plot.Band(-tolerance, tolerance)))
                .marks(judged.marks(Subject.POSITION))
                .values(-reach, reach)
                .svg();
    }

    /** The time in which a speed was to be held, in the unit of its limits. */
    private String heldSpeed(Held h) {
        Unit unit = column("speed").orElseThrow().unit();
        double[] values = Arrays.stream(samples.values("speed").orElseThrow())
                .map(value -> judged.in(h.unit(), value, unit))
                .toArray();
        double middle = (h.low() + h.high()) / 2;
        double reach = 0.9 * (h.high() - h.low());
        double spare = (h.to() - h.from()) / 20;
        for (int i = 0; i < values.length; i++) {
            if (times[i] >= h.from() && times[i] <= h.to()) {
                reach = Math.max(reach, 1.2 * Math.abs(values[i] - middle));
            }
        }
        return new Plot(
                        id + "-held",
                        "Speed in the time that was judged: " + Words.minus(trace.title()),
                        "Speed between the limits " + Words.spoken(h.low(), h.unit()) + " and "
                                + Words.spoken(h.high(), h.unit()) + ".",
                        "Speed / " + h.unit().printed(),
                        h.from() - spare,
                        h.to() + spare)
                .lines(Line.sampled(times, values))
                .band(Optional.of(new Plot.Band(h.low(), h.high())))
                .marks(judged.marks(Subject.SPEED))
                .values(middle - reach, middle + reach)
                .svg();
    }

    /** The largest unit in which the tolerance is at least a tenth, so that the axis shows plain numbers. */
    private static Unit fine(Unit unit, double tolerance) {
        List<Unit> units = switch (unit.dimension()) {
            case ANGLE -> List.of(Unit.REVOLUTION, Unit.DEGREE, Unit.ARC_MINUTE, Unit.ARC_SECOND);
            case LENGTH -> List.of(Unit.MILLIMETRE, Unit.MICROMETRE);
            default -> List.of(unit);
        };
        return units.stream()
                .filter(candidate -> unit.convert(tolerance, candidate) >= 0.1)
                .findFirst()
                .orElse(units.get(units.size() - 1));
    }
}
