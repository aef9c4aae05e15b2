package org.axtrial.evidence;

import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import org.axtrial.evidence.RunTrend.LeftOut;
import org.axtrial.evidence.RunTrend.Point;
import org.axtrial.evidence.RunTrend.Series;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.measure.TrendStudy;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Unit;

/** Lays the runs of one machine side by side in order of time. */
public final class Trending {

    /**
     * A run that verifies.
     *
     * @param folder as it was given
     * @param recordHash SHA-256 of its {@code record.json}
     */
    public record Given(String folder, RunRecord record, String recordHash) {

        private String runId() {
            return record.stamps().runId();
        }
    }

    /** What makes values comparable; a way of measuring that changed makes another series. */
    private record Way(RunComparison.Key key, String method, Source source, Dimension dimension, boolean linear) {}

    private record Seen(Given run, TrialRecord trial, CheckRecord check) {}

    private final List<LeftOut> leftOut;
    private List<Given> runs;

    private Trending(List<Given> given, List<LeftOut> leftOut) {
        this.runs = given.stream()
                .sorted(Comparator.comparing(
                                (Given one) -> one.record().stamps().startedAt())
                        .thenComparing(Given::runId))
                .toList();
        this.leftOut = new ArrayList<>(leftOut);
    }

    /**
     * Follows every check of some axes.
     *
     * @param given in any order
     * @param leftOut what the caller already left out
     * @param axes names; empty for all
     * @throws IllegalArgumentException if no run has one of the axes, or fewer than two runs remain
     */
    public static RunTrend of(List<Given> given, List<LeftOut> leftOut, List<String> axes) {
        Trending work = new Trending(given, leftOut);
        work.requireKnown(axes);
        work.onceEach();
        work.oneKind();
        work.oneMachine();
        work.withAxis(axes);
        work.requireTwo();
        return work.trend(axes);
    }

    private void requireKnown(List<String> axes) {
        Set<String> known = names(runs);
        List<String> unknown = axes.stream()
                .filter(axis -> !known.contains(axis))
                .map(axis -> "no run has an axis \"" + axis + "\": " + NearMiss.hintOrAll(axis, known))
                .toList();
        if (!runs.isEmpty() && !unknown.isEmpty()) {
            throw new IllegalArgumentException(String.join("\n  ", unknown));
        }
    }

    private static Set<String> names(List<Given> runs) {
        Set<String> names = new LinkedHashSet<>();
        runs.forEach(run -> run.record().setup().axes().forEach(axis -> names.add(axis.name())));
        return names;
    }

    private void requireTwo() {
        if (runs.size() < 2) {
            StringBuilder why = new StringBuilder("a trend needs two runs at least, ")
                    .append(runs.isEmpty() ? "none is" : "one is")
                    .append(" left");
            leftOut.forEach(
                    each -> why.append("\n  ").append(each.what()).append(": ").append(each.reason()));
            throw new IllegalArgumentException(why.toString());
        }
    }

    /** A run that was given twice, alone and in a merged folder for example, counts once. */
    private void onceEach() {
        Map<String, List<Given>> byRun = new LinkedHashMap<>();
        runs.forEach(run ->
                byRun.computeIfAbsent(run.runId(), id -> new ArrayList<>()).add(run));
        List<Given> once = new ArrayList<>();
        byRun.forEach((id, same) -> {
            Given first = same.get(0);
            if (same.stream().allMatch(one -> one.recordHash().equals(first.recordHash()))) {
                once.add(first);
                same.stream()
                        .skip(1)
                        .forEach(again -> leftOut.add(new LeftOut(
                                again.folder(), "is run " + id + " as " + first.folder() + ", which counts once")));
            } else {
                same.forEach(one -> leftOut.add(new LeftOut(
                        one.folder(),
                        "is run " + id + " with another record than a further folder, so neither counts")));
            }
        });
        runs = once;
    }

    private void keep(List<Given> kept, String reason) {
        runs.stream().filter(run -> !kept.contains(run)).forEach(run -> leftOut.add(new LeftOut(run.folder(), reason)));
        runs = kept;
    }

    private void oneKind() {
        List<Given> real =
                runs.stream().filter(run -> !run.record().simulated()).toList();
        if (!real.isEmpty()) {
            keep(real, "is simulated, and other runs are real; a simulated axis proves nothing about a machine");
        }
    }

    private void oneMachine() {
        if (runs.isEmpty()) {
            return;
        }
        Given last = runs.get(runs.size() - 1);
        List<Given> same = new ArrayList<>();
        for (Given run : runs) {
            List<String> differences = SameMachine.differences(run.record(), last.record());
            if (differences.isEmpty()) {
                same.add(run);
            } else {
                leftOut.add(new LeftOut(
                        run.folder(),
                        "is of another machine than the last run, " + last.runId() + ": "
                                + String.join(", ", differences)));
            }
        }
        runs = same;
    }

    private void withAxis(List<String> axes) {
        if (!axes.isEmpty()) {
            keep(
                    runs.stream()
                            .filter(run -> axes.stream()
                                    .anyMatch(axis -> run.record().axis(axis).isPresent()))
                            .toList(),
                    "has no axis " + String.join(", ", axes));
        }
        keep(
                runs.stream()
                        .filter(run -> run.record().trials().stream()
                                .anyMatch(trial -> trial.deciding().isPresent()))
                        .toList(),
                "has no trial that was tried");
    }

    private RunTrend trend(List<String> axes) {
        Map<Way, List<Seen>> ways = new LinkedHashMap<>();
        // The last run says in which order checks stand, and which way of measuring is the present one.
        for (int i = runs.size() - 1; i >= 0; i--) {
            collect(runs.get(i), axes, ways);
        }
        List<Series> series = new ArrayList<>();
        ways.forEach((way, seen) -> series.add(series(way, seen)));
        series.sort(Comparator.comparing(one -> one.flagged() ? 0 : 1));
        RunRecord last = runs.get(runs.size() - 1).record();
        return new RunTrend(
                RunTrend.FORMAT,
                last.simulated(),
                last.setup().machine(),
                axes.isEmpty() ? List.copyOf(names(runs)) : axes,
                runs.stream()
                        .map(run -> RunComparison.Source.of(run.record(), run.recordHash()))
                        .toList(),
                leftOut,
                conditions(axes),
                series);
    }

    private static void collect(Given run, List<String> axes, Map<Way, List<Seen>> ways) {
        for (TrialRecord trial : run.record().trials()) {
            if (!axes.isEmpty() && !axes.contains(trial.axis())) {
                continue;
            }
            boolean linear = run.record()
                    .axis(trial.axis())
                    .filter(axis -> axis.scale().leadMillimetres().isPresent())
                    .isPresent();
            RepeatedNames.of(trial).forEach((key, check) -> {
                CheckRecord.Measured measured = check.measured();
                Way way = new Way(
                        key,
                        measured.definition(),
                        measured.source(),
                        measured.unit().dimension(),
                        linear);
                ways.computeIfAbsent(way, each -> new ArrayList<>()).add(0, new Seen(run, trial, check));
            });
        }
    }

    private Series series(Way way, List<Seen> inOrderOfRuns) {
        // Runs on several computers may overlap in time.
        List<Seen> seen = inOrderOfRuns.stream()
                .sorted(Comparator.comparing((Seen one) -> one.check().at()))
                .toList();
        Seen last = seen.get(seen.size() - 1);
        Unit unit = last.check().measured().unit();
        List<Point> points = seen.stream().map(one -> point(one, unit)).toList();
        Instant start = points.get(0).at();
        OptionalDouble lower = limit(last.check().criterion().lower(), last, unit);
        OptionalDouble upper = limit(last.check().criterion().upper(), last, unit);
        List<TrendStudy.Point> counted = points.stream()
                .filter(point -> point.aside().isEmpty())
                .map(point -> new TrendStudy.Point(
                        Duration.between(start, point.at()).toNanos() * 1e-9,
                        point.value().orElseThrow(),
                        point.standardUncertainty()))
                .toList();
        TrendStudy study = TrendStudy.of(counted, lower, upper);
        return new Series(
                way.key(),
                last.trial().title(),
                unit,
                way.method(),
                way.source(),
                last.check().criterion().printed(),
                lower,
                upper,
                points,
                study,
                study.signs(),
                changes(seen));
    }

    private static OptionalDouble limit(OptionalDouble limit, Seen seen, Unit unit) {
        Unit from = seen.check().criterion().unit();
        if (limit.isEmpty() || from.dimension() != unit.dimension()) {
            return OptionalDouble.empty();
        }
        return OptionalDouble.of(scale(seen).convert(limit.getAsDouble(), from, unit));
    }

    private static Conversion scale(Seen seen) {
        return seen.run()
                .record()
                .axis(seen.trial().axis())
                .<Conversion>map(axis -> axis.scale().scale())
                .orElse(Conversion.SAME_DIMENSION);
    }

    private Point point(Seen seen, Unit unit) {
        Measurement measured = seen.check().measured().measurement().in(unit, scale(seen));
        boolean missing = measured.missing().isPresent();
        return new Point(
                seen.run().runId(),
                seen.check().at(),
                missing ? OptionalDouble.empty() : OptionalDouble.of(measured.value()),
                measured.bound(),
                measured.standardUncertainty(),
                measured.expandedUncertainty(),
                seen.check().criterion().printed(),
                seen.check().verdict(),
                missing
                        ? Optional.of("no value")
                        : measured.bound() != Measurement.Bound.EXACT
                                ? Optional.of("only a bound")
                                : retested(seen).map(by -> "tried again in run " + by));
    }

    /** A re-test takes the place of what it tries again, as it does for the acceptance. */
    private Optional<String> retested(Seen seen) {
        return runs.stream()
                .filter(later -> later.record()
                        .setup()
                        .earlier()
                        .filter(earlier -> earlier.runId().equals(seen.run().runId())
                                && earlier.of(seen.trial()).isPresent())
                        .isPresent())
                .filter(later -> later.record().trials().stream()
                        .anyMatch(trial -> trial.script().equals(seen.trial().script())
                                && trial.trial().equals(seen.trial().trial())
                                && trial.axis().equals(seen.trial().axis())
                                && trial.deciding().isPresent()))
                .map(Given::runId)
                .findFirst();
    }

    private static List<String> changes(List<Seen> seen) {
        List<String> changes = new ArrayList<>();
        for (int i = 1; i < seen.size(); i++) {
            Seen before = seen.get(i - 1);
            Seen now = seen.get(i);
            String was = before.check().criterion().printed();
            String is = now.check().criterion().printed();
            if (!was.equals(is)) {
                changes.add("Limits changed with run " + now.run().runId() + ": " + was + " before, " + is + " since");
            }
            if (!script(before).equals(script(now))) {
                changes.add("The script changed with run " + now.run().runId());
            }
        }
        return changes;
    }

    private static String script(Seen seen) {
        return seen.run().record().files().stream()
                .filter(file -> file.name().equals("scripts/" + seen.trial().script()))
                .map(RunRecord.PackedFile::sha256)
                .findFirst()
                .orElse("");
    }

    private List<String> conditions(List<String> axes) {
        List<String> all = new ArrayList<>();
        for (int i = 1; i < runs.size(); i++) {
            RunRecord before = runs.get(i - 1).record();
            RunRecord now = runs.get(i).record();
            String since = "With run " + now.stamps().runId() + " ";
            if (!before.setup().decisionRule().equals(now.setup().decisionRule())) {
                all.add(since + "the decision rule changed.");
            }
            for (RunSetup.AxisUnderTest axis : now.setup().axes()) {
                if (axes.isEmpty() || axes.contains(axis.name())) {
                    before.axis(axis.name()).ifPresent(was -> {
                        if (!was.driveType().equals(axis.driveType())) {
                            all.add(since + "the drive of axis " + axis.name() + " changed: was " + was.driveType()
                                    + ", is " + axis.driveType() + ".");
                        }
                        if (!was.scale().equals(axis.scale())) {
                            all.add(since + "the scale of axis " + axis.name() + " changed in the site file.");
                        }
                    });
                }
            }
        }
        return all;
    }
}
