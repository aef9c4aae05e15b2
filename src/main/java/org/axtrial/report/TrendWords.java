package org.axtrial.report;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.evidence.RunTrend;
import org.axtrial.evidence.RunTrend.Series;
import org.axtrial.measure.IndividualsChart;
import org.axtrial.measure.TrendStudy;
import org.axtrial.measure.TrendStudy.Meeting;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** What a trend says in words, on the page and on the terminal. */
public final class TrendWords {

    private static final double DAY = 86_400;

    private TrendWords() {}

    /** The summary. */
    public static List<String> sentences(RunTrend trend) {
        List<String> all = new ArrayList<>();
        long flagged = trend.series().stream().filter(Series::flagged).count();
        long judged = trend.series().stream()
                .filter(series -> series.study().slope().isPresent())
                .count();
        all.add(Words.count(trend.series().size(), "check", "checks") + " in "
                + Words.count(trend.runs().size(), "run", "runs") + ", "
                + Words.dateTime(trend.runs().get(0).startedAt()) + " to "
                + Words.dateTime(trend.runs().get(trend.runs().size() - 1).startedAt()) + ".");
        all.add(
                flagged == 0
                        ? "No check shows a sign of drift."
                        : Words.count(flagged, "check shows", "checks show") + " a sign of drift.");
        if (judged < trend.series().size()) {
            all.add(Words.count(trend.series().size() - judged, "check has", "checks have")
                    + " fewer than three values to compare, so nothing is said of a slope.");
        }
        if (!trend.leftOut().isEmpty()) {
            all.add(Words.count(trend.leftOut().size(), "folder was", "folders were") + " left out.");
        }
        return all;
    }

    /** Which check on which axis. */
    public static String name(Series series) {
        int occurrence = series.key().occurrence();
        return Words.minus(series.key().check()) + (occurrence > 1 ? " (" + occurrence + ")" : "") + ", "
                + series.key().trial() + " on " + series.key().axis();
    }

    /** What was found of one check: signs of drift, slope, limits of control, and when a limit is met. */
    public static List<String> findings(Series series) {
        TrendStudy study = series.study();
        List<String> all = new ArrayList<>();
        List<RunTrend.Point> counted = counted(series);
        if (!study.outside().isEmpty()) {
            all.add(study.outside().size() + " of " + Words.count(counted.size(), "value", "values")
                    + " outside the control limits: run"
                    + (study.outside().size() == 1 ? " " : "s ")
                    + String.join(
                            ", ",
                            study.outside().stream()
                                    .map(i -> counted.get(i).runId())
                                    .toList())
                    + ".");
        }
        if (series.signs().contains(TrendStudy.Sign.ONE_SIDE_OF_THE_MEAN)) {
            all.add(study.oneSide() + " values one after the other lie on one side of their mean.");
        }
        study.slope().ifPresent(slope -> all.add(slope(slope, series)));
        if (study.slope().filter(TrendStudy.Slope::significant).isPresent()) {
            all.add(study.meeting()
                    .map(meeting -> meets(meeting, series))
                    .orElseGet(() -> notMet(slope(study), series)));
        }
        return all;
    }

    private static List<RunTrend.Point> counted(Series series) {
        return series.points().stream().filter(point -> point.aside().isEmpty()).toList();
    }

    private static String slope(TrendStudy.Slope slope, Series series) {
        String rate = each(slope.perSecond(), slope.halfWidth(), series);
        return slope.significant() ? "Drifts by " + rate + "." : "No slope that differs from zero: " + rate + ".";
    }

    /** For each day, hour, minute or second: the largest that fits into what was watched. */
    private static String each(double perSecond, double halfWidth, Series series) {
        double watched = watched(series);
        double period = watched >= DAY ? DAY : watched >= 3600 ? 3600 : watched >= 60 ? 60 : 1;
        String name = period == DAY ? "day" : period == 3600 ? "hour" : period == 60 ? "minute" : "second";
        double change = perSecond * period;
        return (change > 0 ? "+" : "") + value(change, series.unit(), 3) + " ± "
                + Words.uncertainty(halfWidth * period, series.unit()) + " each " + name + " (95 %)";
    }

    private static double watched(Series series) {
        List<RunTrend.Point> points = counted(series);
        return Duration.between(
                                points.get(0).at(),
                                points.get(points.size() - 1).at())
                        .toNanos()
                * 1e-9;
    }

    private static TrendStudy.Slope slope(TrendStudy study) {
        return study.slope().orElseThrow();
    }

    /** Why nothing is told of when the line meets a limit. */
    private static String notMet(TrendStudy.Slope slope, Series series) {
        boolean rises = slope.perSecond() > 0;
        OptionalDouble limit = rises ? series.upper() : series.lower();
        if (limit.isEmpty()) {
            return "There is no limit ahead of it.";
        }
        double ahead = limit.getAsDouble() - slope.end();
        String named = "the limit " + value(limit.getAsDouble(), series.unit());
        return (rises ? ahead : -ahead) <= 0
                ? "The line has met " + named + " already."
                : "At this rate " + named
                        + " is farther off than the time that was watched, so nothing is told of when.";
    }

    private static String meets(Meeting meeting, Series series) {
        String limit = "If this goes on, the line meets the limit " + value(meeting.limit(), series.unit()) + " ";
        String from = day(series, meeting.earliest());
        if (meeting.likely().isEmpty()) {
            return limit + "not before " + from + "; when is too far ahead to tell.";
        }
        String likely = "about " + day(series, meeting.likely().getAsDouble());
        return limit
                + likely
                + (meeting.latest().isPresent()
                        ? ", with 95 % between " + from + " and "
                                + day(series, meeting.latest().getAsDouble()) + "."
                        : ", with 97.5 % not before " + from + "; until when is too far ahead to tell.");
    }

    private static String day(Series series, double seconds) {
        Instant at = series.points().get(0).at().plusMillis(Math.round(seconds * 1000));
        return watched(series) >= DAY ? Words.dateTime(at).substring(0, 10) : Words.dateTime(at);
    }

    /** Centre and control limits; empty where there are too few values. */
    static Optional<String> control(Series series) {
        Unit unit = series.unit();
        return series.study()
                .chart()
                .map(chart -> control(chart, unit, counted(series).size()));
    }

    private static String control(IndividualsChart chart, Unit unit, int values) {
        return value(chart.lower(), unit) + " to " + value(chart.upper(), unit) + ", mean "
                + value(chart.centre(), unit)
                + (values < TrendStudy.SURE_CHART ? ", from " + values + " values only" : "");
    }

    /** In short: whether it drifts, and by what sign. */
    public static String finding(Series series) {
        List<TrendStudy.Sign> signs = series.signs();
        if (signs.isEmpty()) {
            return series.study().slope().isEmpty() ? "too few values" : "no sign of drift";
        }
        return String.join(
                ", ",
                signs.stream()
                        .map(sign -> switch (sign) {
                            case OUTSIDE_CONTROL_LIMITS -> "outside its control limits";
                            case ONE_SIDE_OF_THE_MEAN -> "stays on one side of its mean";
                            case SLOPE -> "drifts";
                        })
                        .toList());
    }

    static String value(double value, Unit unit) {
        return value(value, unit, 6);
    }

    private static String value(double value, Unit unit, int digits) {
        return Words.minus(new Quantity(value, unit).printed(digits));
    }

    /** A value of one run with its uncertainty. */
    static String value(RunTrend.Point point, Unit unit) {
        if (point.value().isEmpty()) {
            return "no value";
        }
        String bound = switch (point.bound()) {
            case EXACT -> "";
            case AT_LEAST -> "at least ";
            case AT_MOST -> "at most ";
        };
        return bound
                + value(point.value().getAsDouble(), unit)
                + (point.standardUncertainty() == 0
                        ? ""
                        : String.format(Locale.ROOT, " ± %s", Words.uncertainty(point.expandedUncertainty(), unit)));
    }
}
