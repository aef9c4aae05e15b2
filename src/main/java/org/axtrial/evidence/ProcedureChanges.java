package org.axtrial.evidence;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.axtrial.evidence.Procedure.CheckPlan;
import org.axtrial.evidence.Procedure.TrialPlan;

/** What differs between the procedure that was agreed and that of the site as it is now, each with old and new. */
public final class ProcedureChanges {

    private final List<String> found = new ArrayList<>();

    private ProcedureChanges() {}

    /**
     * One sentence for each deviation, in the order of the procedure; empty if nothing changed.
     *
     * @param agreed as it was agreed
     * @param now as a rehearsal shows it now
     */
    public static List<String> between(Procedure agreed, Procedure now) {
        ProcedureChanges changes = new ProcedureChanges();
        changes.value("decision rule", agreed.decisionRule(), now.decisionRule());
        changes.maps("file", files(agreed), files(now));
        changes.maps("instrument", instruments(agreed), instruments(now));
        changes.axes(agreed, now);
        changes.trials(agreed, now);
        return List.copyOf(changes.found);
    }

    private static Map<String, String> files(Procedure procedure) {
        Map<String, String> files = new LinkedHashMap<>();
        procedure.files().forEach(file -> files.put(file.name(), "SHA-256 " + file.sha256()));
        return files;
    }

    private static Map<String, String> instruments(Procedure procedure) {
        Map<String, String> instruments = new LinkedHashMap<>();
        procedure
                .instruments()
                .forEach(each -> instruments.put(
                        each.id(),
                        each.type() + ", serial " + each.serial() + ", certificate " + each.certificate()
                                + ", calibrated " + each.calibrated() + ", due " + each.due() + ", uncertainty "
                                + each.uncertainty() + " " + each.unit().symbol()));
        return instruments;
    }

    private void axes(Procedure agreed, Procedure now) {
        Map<String, String> was = new LinkedHashMap<>();
        Map<String, String> is = new LinkedHashMap<>();
        agreed.axes()
                .forEach(axis -> axis.facts().forEach(fact -> was.put(axis.name() + ", " + fact.name(), fact.value())));
        now.axes()
                .forEach(axis -> axis.facts().forEach(fact -> is.put(axis.name() + ", " + fact.name(), fact.value())));
        maps("axis", was, is);
    }

    private void trials(Procedure agreed, Procedure now) {
        Map<String, TrialPlan> was = byKey(agreed);
        Map<String, TrialPlan> is = byKey(now);
        was.forEach((key, trial) -> {
            TrialPlan other = is.get(key);
            if (other == null) {
                found.add("Trial " + key + ", \"" + trial.title() + "\", was agreed and is not in this run.");
            } else {
                trial(key, trial, other);
            }
        });
        is.forEach((key, trial) -> {
            if (!was.containsKey(key)) {
                found.add("Trial " + key + ", \"" + trial.title() + "\", is in this run and was not agreed.");
            }
        });
        List<String> before = was.keySet().stream().filter(is::containsKey).toList();
        List<String> after = is.keySet().stream().filter(was::containsKey).toList();
        if (!before.equals(after)) {
            value("order of trials", String.join(", ", before), String.join(", ", after));
        }
    }

    private static Map<String, TrialPlan> byKey(Procedure procedure) {
        Map<String, TrialPlan> trials = new LinkedHashMap<>();
        procedure.trials().forEach(t -> trials.put(t.trial() + " on " + t.axis() + " (" + t.script() + ")", t));
        return trials;
    }

    private void trial(String key, TrialPlan was, TrialPlan is) {
        value("title of " + key, was.title(), is.title());
        value("clause of " + key, was.clause(), is.clause());
        value("steps of " + key, steps(was), steps(is));
        maps("criterion of " + key + ",", criteria(was), criteria(is));
        maps("limit of " + key + ",", limits(was), limits(is));
    }

    private static String steps(TrialPlan trial) {
        return String.join(
                "; ",
                trial.steps().stream()
                        .map(step -> step.text() + (step.request().isEmpty() ? "" : " (" + step.request() + ")"))
                        .toList());
    }

    /** A name may stand more than once in a trial. */
    private static Map<String, String> criteria(TrialPlan trial) {
        Map<String, String> criteria = new LinkedHashMap<>();
        for (CheckPlan check : trial.checks()) {
            criteria.merge(check.name(), check.criterion(), (a, b) -> a + " / " + b);
        }
        return criteria;
    }

    private static Map<String, String> limits(TrialPlan trial) {
        Map<String, String> limits = new LinkedHashMap<>();
        trial.checks().stream()
                .flatMap(check -> check.limits().stream())
                .forEach(limit -> limits.put(
                        limit.name(), limit.value() + ", " + limit.from().printed()));
        return limits;
    }

    private void maps(String what, Map<String, String> was, Map<String, String> is) {
        was.forEach((name, value) -> value(what + " " + name, value, is.getOrDefault(name, "")));
        is.forEach((name, value) -> {
            if (!was.containsKey(name)) {
                value(what + " " + name, "", value);
            }
        });
    }

    private void value(String what, String was, String is) {
        if (!Objects.equals(was, is)) {
            found.add("Deviation from the agreed procedure, " + what + ": agreed " + orNone(was) + "; now " + orNone(is)
                    + ".");
        }
    }

    private static String orNone(String text) {
        return text.isEmpty() ? "nothing" : text;
    }
}
