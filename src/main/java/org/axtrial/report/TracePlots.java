package org.axtrial.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.TraceFile;
import org.axtrial.evidence.TraceRecord;
import org.axtrial.measure.Mark;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Unit;

/** The plots of one trace: position with demand, deviation from the target, speed and torque. */
final class TracePlots {

    private static final String POSITION = "position";

    private final String id;
    private final TraceRecord trace;
    private final TraceFile samples;
    private final List<CheckRecord> checks;
    private final List<Mark> marks;
    private final double[] times;

    /**
     * @param id unique on the page
     * @param checks those that were measured on this trace
     */
    TracePlots(String id, TraceRecord trace, TraceFile samples, List<CheckRecord> checks) {
        this.id = id;
        this.trace = trace;
        this.samples = samples;
        this.checks = checks;
        this.times = samples.times();
        this.marks = checks.stream()
                .flatMap(check -> check.marks().stream())
                .distinct()
                .toList();
    }

    List<String> svgs() {
        List<String> out = new ArrayList<>();
        if (samples.size() == 0) {
            return out;
        }
        Optional<Target> target = target();
        position(target).ifPresent(out::add);
        target.ifPresent(t -> out.add(deviation(t)));
        simple("speed", "Speed").ifPresent(out::add);
        simple("torque", "Torque").ifPresent(out::add);
        return out;
    }

    /** What the plots show in words, under them. */
    String caption() {
        StringBuilder out = new StringBuilder("Solid line: as reported by the drive.");
        if (samples.values("demand").isPresent()) {
            out.append(" Dashed line: demand.");
        }
        target().ifPresent(t ->
                out.append(" Shaded: accepted range of “").append(t.check()).append("”."));
        if (!marks.isEmpty()) {
            out.append(" Upright lines: instants that a check used.");
        }
        return out.append(" ")
                .append(trace.samples())
                .append(" samples, ordered every ")
                .append(Words.seconds(trace.orderedPeriod()))
                .append(
                        trace.worstPeriod().isPresent()
                                ? ", at worst "
                                        + Words.seconds(trace.worstPeriod().getAsDouble()) + " apart."
                                : ".")
                .toString();
    }

    private Optional<String> position(Optional<Target> target) {
        return plot(POSITION, "Position").map(plot -> {
            samples.values("demand").ifPresent(values -> plot.line(Line.of("demand", times, values)));
            samples.values(POSITION).ifPresent(values -> plot.line(Line.of("actual", times, values)));
            return plot.band(target.map(t -> new Plot.Band(t.value() - t.below(), t.value() + t.above())))
                    .marks(marks)
                    .svg();
        });
    }

    private Optional<String> simple(String channel, String title) {
        return plot(channel, title).map(plot -> {
            samples.values(channel).ifPresent(values -> plot.line(Line.of("actual", times, values)));
            return plot.band(band(channel)).marks(marks).svg();
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
                    title + ": " + trace.title(),
                    title + " over time, from " + least + " to " + most + " " + unit + ".",
                    title + (unit.isEmpty() ? "" : " / " + unit),
                    times[0],
                    times[times.length - 1]);
        });
    }

    private Optional<TraceRecord.Column> column(String channel) {
        return trace.channels().stream().filter(c -> c.name().equals(channel)).findFirst();
    }

    /** The accepted range of a nominal value in the unit of a channel, if it lies where the curve goes. */
    private Optional<Plot.Band> band(String channel) {
        Unit unit = column(channel).orElseThrow().unit();
        double[] values = samples.values(channel).orElseThrow();
        double least = Arrays.stream(values).min().orElse(0);
        double most = Arrays.stream(values).max().orElse(0);
        double spare = (most - least) / 10;
        return checks.stream()
                .map(CheckRecord::criterion)
                .filter(c -> c.kind() == CheckRecord.Limits.Kind.NOMINAL
                        && c.unit().dimension() == unit.dimension()
                        && unit.dimension() != Dimension.RATIO)
                .map(c -> new Plot.Band(
                        c.unit().convert(c.lower().orElseThrow(), unit),
                        c.unit().convert(c.upper().orElseThrow(), unit)))
                .filter(b -> b.low() > least - spare && b.high() < most + spare)
                .findFirst();
    }

    /**
     * Where the axis had to come to rest, in the unit of the position.
     *
     * @param check name of the check that says so
     * @param value the target
     * @param below accepted distance on the lower side, positive
     * @param above accepted distance on the upper side, positive
     */
    private record Target(String check, double value, double below, double above) {}

    /**
     * A nominal check in a unit of position is about the distance moved or about the end position. Which of them is seen
     * from the samples, because the measured value is one of the two; a check that fits neither draws no band.
     */
    private Optional<Target> target() {
        Optional<double[]> position = samples.values(POSITION);
        if (position.isEmpty() || samples.size() < 2) {
            return Optional.empty();
        }
        Unit unit = column(POSITION).orElseThrow().unit();
        double start = start(position.get());
        double end = mean(position.get(), Math.max(0, samples.size() - 5), samples.size());
        return checks.stream()
                .flatMap(check -> target(check, unit, start, end).stream())
                .findFirst();
    }

    private static Optional<Target> target(CheckRecord check, Unit unit, double start, double end) {
        CheckRecord.Limits limits = check.criterion();
        boolean fits = limits.kind() == CheckRecord.Limits.Kind.NOMINAL
                && limits.unit().dimension() == unit.dimension()
                && check.measured().value().isPresent();
        if (!fits) {
            return Optional.empty();
        }
        Unit from = limits.unit();
        double value = from.convert(check.measured().value().getAsDouble(), unit);
        double nominal = from.convert(limits.nominal().orElseThrow(), unit);
        double tolerance = from.convert(limits.plusMinus().orElseThrow(), unit);
        double near = tolerance / 4 + from.convert(check.measured().expandedUncertainty(), unit);
        if (Math.abs(end - start - value) <= near) {
            return Optional.of(new Target(check.name(), start + nominal, tolerance, tolerance));
        }
        return Math.abs(end - value) <= near
                ? Optional.of(new Target(check.name(), nominal, tolerance, tolerance))
                : Optional.empty();
    }

    private double start(double[] position) {
        int atRest = 0;
        while (atRest < times.length && times[atRest] < 0) {
            atRest++;
        }
        return mean(position, 0, Math.max(1, atRest));
    }

    private static double mean(double[] values, int from, int to) {
        return Arrays.stream(values, from, to).average().orElse(0);
    }

    /** The end of the move, so near that the band fills a good part of the height. */
    private String deviation(Target target) {
        Unit unit = column(POSITION).orElseThrow().unit();
        Unit fine = fine(unit, target.above());
        double[] deviation = Arrays.stream(samples.values(POSITION).orElseThrow())
                .map(value -> unit.convert(value - target.value(), fine))
                .toArray();
        double above = unit.convert(target.above(), fine);
        double last = deviation[deviation.length - 1];
        double reach = Math.max(2.5 * above, 1.3 * Math.abs(last));
        int from = 0;
        for (int i = 0; i < deviation.length; i++) {
            from = Math.abs(deviation[i]) > reach ? i : from;
        }
        double begin = times[Math.min(from, times.length - 2)];
        double end = times[times.length - 1];
        return new Plot(
                        id + "-deviation",
                        "Deviation from the target at the end of the move: " + trace.title(),
                        "Position minus target near the end, last value " + last + " " + fine.printed()
                                + ", accepted range ± " + above + " " + fine.printed() + ".",
                        "Deviation from target / " + fine.printed(),
                        begin,
                        end)
                .line(Line.of(
                        "actual",
                        Arrays.copyOfRange(times, from, times.length),
                        Arrays.copyOfRange(deviation, from, times.length)))
                .band(Optional.of(new Plot.Band(-unit.convert(target.below(), fine), above)))
                .marks(marks)
                .values(-reach, reach)
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
