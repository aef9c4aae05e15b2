package org.axtrial.evidence;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.function.Function;
import org.axtrial.evidence.RunComparison.CheckChange;
import org.axtrial.evidence.RunComparison.Side;
import org.axtrial.evidence.RunComparison.TrialChange;
import org.axtrial.evidence.RunComparison.Unmatched;
import org.axtrial.measure.Criterion;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.ValueChange;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.Conversion;

/** Holds one run against an earlier one. */
public final class Comparing {

    private record TrialName(String script, String trial, String axis) {}

    private final RunRecord baseline;
    private final RunRecord run;
    private final List<TrialChange> trials = new ArrayList<>();
    private final List<CheckChange> checks = new ArrayList<>();
    private final List<Unmatched> onlyInBaseline = new ArrayList<>();
    private final List<Unmatched> onlyInRun = new ArrayList<>();
    private final List<String> refusals = new ArrayList<>();

    private Comparing(RunRecord baseline, RunRecord run) {
        this.baseline = baseline;
        this.run = run;
    }

    /**
     * Compares two records.
     *
     * @param baselineHash SHA-256 of the record of {@code baseline}
     * @param runHash SHA-256 of the record of {@code run}
     * @param parameters how the parameters differ; empty if not both packs hold a snapshot
     * @throws IllegalArgumentException if the runs are not of the same machine and axes; all that differs is told
     */
    public static RunComparison compare(
            RunRecord baseline,
            String baselineHash,
            RunRecord run,
            String runHash,
            Optional<List<SnapshotRecord.Difference>> parameters) {
        Comparing work = new Comparing(baseline, run);
        work.identities();
        work.refuse();
        work.matchTrials();
        work.refuse();
        work.trials.sort(Comparator.comparing(trial -> trial.worse() ? 0 : trial.was() != trial.is() ? 1 : 2));
        work.checks.sort(Comparator.comparing(Comparing::rank));
        return new RunComparison(
                RunComparison.FORMAT,
                RunComparison.Source.of(baseline, baselineHash),
                RunComparison.Source.of(run, runHash),
                baseline.simulated() || run.simulated(),
                work.trials,
                work.checks,
                work.onlyInBaseline,
                work.onlyInRun,
                work.conditions(),
                parameters.isPresent(),
                parameters.orElse(List.of()));
    }

    private static int rank(CheckChange check) {
        if (check.verdictChanged()) {
            return check.is().verdict().compareTo(check.was().verdict()) < 0 ? 0 : 1;
        }
        return switch (check.change().outcome()) {
            case MOVED -> 2;
            case NO_UNCERTAINTY, ONLY_BOUND, NO_VALUE -> 3;
            case WITHIN_UNCERTAINTY -> check.limitsChanged() ? 3 : 4;
        };
    }

    private void refuse() {
        if (!refusals.isEmpty()) {
            throw new IllegalArgumentException(String.join("\n  ", refusals));
        }
    }

    private void identities() {
        SameMachine.differences(baseline, run)
                .forEach(difference -> refusals.add("the runs are of different machines: " + difference));
        boolean shared = false;
        for (RunSetup.AxisUnderTest axis : run.setup().axes()) {
            Optional<RunSetup.AxisUnderTest> before = baseline.axis(axis.name());
            shared |= before.isPresent();
            before.filter(other -> other.scale().leadMillimetres().isPresent()
                            != axis.scale().leadMillimetres().isPresent())
                    .ifPresent(other ->
                            refusals.add("axis " + axis.name() + " is linear in one run and rotary in the other"));
        }
        if (!shared) {
            refusals.add("the runs have no axis in common: " + names(baseline) + " and " + names(run));
        }
    }

    private static String names(RunRecord record) {
        List<String> names =
                record.setup().axes().stream().map(RunSetup.AxisUnderTest::name).toList();
        return names.isEmpty() ? "none" : String.join(", ", names);
    }

    private void matchTrials() {
        Map<TrialName, TrialRecord> was = byName(baseline);
        Map<TrialName, TrialRecord> is = byName(run);
        was.forEach((name, before) -> {
            TrialRecord now = is.get(name);
            if (now == null) {
                onlyInBaseline.add(whole(before));
            } else {
                trials.add(new TrialChange(
                        name.script(), name.trial(), name.axis(), now.title(), before.verdict(), now.verdict()));
                matchChecks(before, now);
            }
        });
        is.forEach((name, now) -> {
            if (!was.containsKey(name)) {
                onlyInRun.add(whole(now));
            }
        });
    }

    private static Map<TrialName, TrialRecord> byName(RunRecord record) {
        Map<TrialName, TrialRecord> map = new LinkedHashMap<>();
        record.trials().forEach(trial -> map.put(new TrialName(trial.script(), trial.trial(), trial.axis()), trial));
        return map;
    }

    private static Unmatched whole(TrialRecord trial) {
        return new Unmatched(trial.script(), trial.trial(), trial.axis(), Optional.empty(), trial.verdict());
    }

    private void matchChecks(TrialRecord before, TrialRecord now) {
        Map<RunComparison.Key, CheckRecord> was = RepeatedNames.of(before);
        Map<RunComparison.Key, CheckRecord> is = RepeatedNames.of(now);
        Function<Map.Entry<RunComparison.Key, CheckRecord>, Unmatched> lone = entry -> new Unmatched(
                before.script(),
                before.trial(),
                before.axis(),
                Optional.of(entry.getKey().check()),
                entry.getValue().verdict());
        was.entrySet().stream()
                .filter(entry -> !is.containsKey(entry.getKey()))
                .map(lone)
                .forEach(onlyInBaseline::add);
        is.entrySet().stream()
                .filter(entry -> !was.containsKey(entry.getKey()))
                .map(lone)
                .forEach(onlyInRun::add);
        was.forEach((key, check) -> Optional.ofNullable(is.get(key)).ifPresent(other -> compare(key, check, other)));
    }

    private void compare(RunComparison.Key key, CheckRecord was, CheckRecord is) {
        // A judged value stands in the unit of its criterion; both go into the unit of the later one.
        Measurement now = is.measured().measurement();
        Measurement before;
        Criterion limits = was.criterion().criterion();
        boolean limitsChanged;
        try {
            before = was.measured().measurement().in(now.unit(), scale(baseline, key.axis()));
            limitsChanged = differ(limits.lower(), is.criterion().lower(), was, is, key)
                    || differ(limits.upper(), is.criterion().upper(), was, is, key);
        } catch (IllegalArgumentException e) {
            refusals.add("\"" + key.check() + "\" of " + key.trial() + " on " + key.axis()
                    + " cannot be compared: the units are "
                    + was.measured().unit().symbol() + " and " + now.unit().symbol());
            return;
        }
        ValueChange change = ValueChange.of(before, now);
        checks.add(new CheckChange(
                key,
                now.unit(),
                side(before, was),
                side(now, is),
                change,
                is.criterion().unit() == now.unit()
                        ? change.shareOf(is.criterion().criterion())
                        : OptionalDouble.empty(),
                limitsChanged));
    }

    private boolean differ(
            OptionalDouble was, OptionalDouble is, CheckRecord before, CheckRecord now, RunComparison.Key key) {
        if (was.isEmpty() || is.isEmpty()) {
            return was.isPresent() != is.isPresent();
        }
        double earlier = scale(baseline, key.axis())
                .convert(
                        was.getAsDouble(),
                        before.criterion().unit(),
                        now.criterion().unit());
        double later = is.getAsDouble();
        // Only what a conversion may round away counts as equal.
        return Math.abs(earlier - later) > 1e-12 * Math.max(Math.abs(earlier), Math.abs(later));
    }

    private static Conversion scale(RunRecord record, String axis) {
        return record.axis(axis).<Conversion>map(known -> known.scale().scale()).orElse(Conversion.SAME_DIMENSION);
    }

    private static Side side(Measurement measured, CheckRecord check) {
        return new Side(
                measured.missing().isPresent() ? OptionalDouble.empty() : OptionalDouble.of(measured.value()),
                measured.standardUncertainty(),
                measured.expandedUncertainty(),
                check.criterion().printed(),
                check.verdict());
    }

    private List<String> conditions() {
        List<String> all = new ArrayList<>();
        if (!baseline.setup().decisionRule().equals(run.setup().decisionRule())) {
            all.add("The decision rule differs.");
        }
        if (baseline.simulated() != run.simulated()) {
            all.add("One of both runs was simulated, the other one was not.");
        }
        for (RunSetup.AxisUnderTest axis : run.setup().axes()) {
            baseline.axis(axis.name()).ifPresent(before -> {
                if (!before.driveType().equals(axis.driveType())) {
                    all.add("Axis " + axis.name() + ": the drive was " + before.driveType() + ", now "
                            + axis.driveType() + ".");
                }
                if (!before.scale().equals(axis.scale())) {
                    all.add("Axis " + axis.name() + ": the scale of the site file differs.");
                }
            });
        }
        if (baseline.verdict() == Verdict.NOT_RUN || run.verdict() == Verdict.NOT_RUN) {
            all.add("One of both runs has trials that did not run.");
        }
        return all;
    }
}
