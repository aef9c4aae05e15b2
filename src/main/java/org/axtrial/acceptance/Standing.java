package org.axtrial.acceptance;

import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import org.axtrial.evidence.PunchClass;
import org.axtrial.evidence.PunchNote;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;

/**
 * How the acceptance of a run stands. The rules, the first that holds decides:
 *
 * <ol>
 *   <li>NOT ACCEPTED if a trial failed and no deviation was agreed for it, or a punch item of class A is open;
 *   <li>INCOMPLETE if the run has no trial or was stopped, or a trial proved nothing (ERROR, BLOCKED, INCONCLUSIVE, NOT
 *       RUN) and no deviation was agreed for it;
 *   <li>ACCEPTED WITH DEVIATIONS if a deviation counts, or a punch item of another class is open;
 *   <li>ACCEPTED otherwise.
 * </ol>
 *
 * <p>Common practice, no source; the contract comes first. People accept a machine, with their signatures; this says what
 * they would sign.
 *
 * @param state what follows from the rules
 * @param because why it is not ACCEPTED, one sentence each; empty if it is
 * @param items punch items, those that scripts raised first
 * @param deviations what was agreed, first one first
 * @param reissues issues of the report after the first
 */
public record Standing(
        AcceptanceState state,
        List<String> because,
        List<PunchItem> items,
        List<Deviation> deviations,
        List<Reissue> reissues) {

    /** An agreed deviation and when it was agreed. */
    public record Deviation(Instant at, LedgerEntry.DeviationAgreed agreed) {

        boolean covers(TrialRecord trial) {
            return agreed.script().equals(trial.script())
                    && agreed.trial().equals(trial.trial())
                    && agreed.axis().equals(trial.axis());
        }
    }

    /** A further issue of the report and when it was issued. */
    public record Reissue(Instant at, LedgerEntry.ReportReissued issued) {}

    public Standing {
        because = List.copyOf(because);
        items = List.copyOf(items);
        deviations = List.copyOf(deviations);
        reissues = List.copyOf(reissues);
    }

    /** How the acceptance of a run stands by its own results and what scripts raised. */
    public static Standing of(RunRecord record) {
        return of(record, new Ledger(List.of(), record.stamps().journalHash()));
    }

    /** How it stands with what came after the run. */
    public static Standing of(RunRecord record, Ledger ledger) {
        Map<Integer, PunchItem> items = new TreeMap<>();
        for (PunchNote note : record.punch()) {
            items.put(items.size() + 1, raised(items.size() + 1, note));
        }
        List<Deviation> deviations = new ArrayList<>();
        List<Reissue> reissues = new ArrayList<>();
        for (Ledger.Dated dated : ledger.entries()) {
            if (dated.entry() instanceof LedgerEntry.PunchOpened e) {
                items.put(e.number(), opened(dated.at(), e));
            } else if (dated.entry() instanceof LedgerEntry.PunchClosed e) {
                items.computeIfPresent(e.number(), (number, item) -> closed(item, dated.at(), e));
            } else if (dated.entry() instanceof LedgerEntry.DeviationAgreed e) {
                deviations.add(new Deviation(dated.at(), e));
            } else if (dated.entry() instanceof LedgerEntry.ReportReissued e) {
                reissues.add(new Reissue(dated.at(), e));
            }
        }
        List<PunchItem> all = List.copyOf(items.values());
        return judged(record, all, deviations, reissues);
    }

    private static PunchItem raised(int number, PunchNote note) {
        return new PunchItem(
                number,
                note.at(),
                note.text(),
                note.grade(),
                note.owner(),
                note.due(),
                Optional.of(note.trial()),
                Optional.of(note.axis()),
                "script " + note.script(),
                Optional.empty());
    }

    private static PunchItem opened(Instant at, LedgerEntry.PunchOpened e) {
        return new PunchItem(
                e.number(), at, e.text(), e.grade(), e.owner(), e.due(), e.trial(), e.axis(), e.by(), Optional.empty());
    }

    private static PunchItem closed(PunchItem item, Instant at, LedgerEntry.PunchClosed e) {
        return new PunchItem(
                item.number(),
                item.raisedAt(),
                item.text(),
                item.grade(),
                item.owner(),
                item.due(),
                item.trial(),
                item.axis(),
                item.by(),
                Optional.of(new PunchItem.Closing(at, e.evidence(), e.by())));
    }

    private static Standing judged(
            RunRecord record, List<PunchItem> items, List<Deviation> deviations, List<Reissue> reissues) {
        List<String> refused = new ArrayList<>();
        List<String> missing = new ArrayList<>();
        List<String> agreed = new ArrayList<>();
        if (record.ended() == RunRecord.Ended.STOPPED) {
            missing.add("the run was stopped: " + record.stopReason());
        }
        if (record.trials().isEmpty()) {
            missing.add("no trial was made");
        }
        for (TrialRecord trial : record.trials()) {
            if (trial.verdict() == Verdict.PASS || trial.verdict() == Verdict.NOT_APPLICABLE) {
                continue;
            }
            String named = trial.trial() + " on " + trial.axis();
            if (deviations.stream().anyMatch(each -> each.covers(trial))) {
                agreed.add(named + " is " + trial.verdict().printed() + " and was taken as a deviation");
            } else if (trial.verdict() == Verdict.FAIL) {
                refused.add(named + " failed");
            } else {
                missing.add(named + " is " + trial.verdict().printed());
            }
        }
        for (PunchItem item : items) {
            if (item.open()) {
                (item.grade() == PunchClass.A ? refused : agreed)
                        .add("punch item " + item.number() + " of class " + item.grade() + " is open");
            }
        }
        AcceptanceState state = !refused.isEmpty()
                ? AcceptanceState.NOT_ACCEPTED
                : !missing.isEmpty()
                        ? AcceptanceState.INCOMPLETE
                        : !agreed.isEmpty()
                                ? AcceptanceState.ACCEPTED_WITH_DEVIATIONS
                                : AcceptanceState.ACCEPTED;
        List<String> because = new ArrayList<>(refused);
        because.addAll(missing);
        because.addAll(agreed);
        return new Standing(state, because, items, deviations, reissues);
    }

    /** Items that are still to be done. */
    public List<PunchItem> open() {
        return items.stream().filter(PunchItem::open).toList();
    }

    /** Number that the next item gets. */
    public int nextNumber() {
        return items.stream().mapToInt(PunchItem::number).max().orElse(0) + 1;
    }

    /** Revision that the next issue of the report gets; the first issue is revision 1. */
    public int nextRevision() {
        return reissues.size() + 2;
    }
}
