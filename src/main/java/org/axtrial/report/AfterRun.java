package org.axtrial.report;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.axtrial.acceptance.LedgerEntry.ReportReissued;
import org.axtrial.acceptance.PunchItem;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunRecord.PackedFile;

/**
 * What the front page says about acceptance.
 *
 * @param state as printed
 * @param kind CSS class
 * @param revision which issue this is, and what it takes the place of; empty for the first
 * @param deviations agreed for results that are not PASS
 * @param items punch items
 * @param signed who had signed electronically before a further issue; empty in the first
 */
record AfterRun(
        String state,
        String kind,
        List<Revision> revision,
        List<Deviation> deviations,
        List<Item> items,
        List<Reissued.Signer> signed) {

    /** Which issue of the report this is; {@code replaced} are the files whose place it takes, with hashes. */
    record Revision(int number, String at, String by, String reason, List<String> replaced) {}

    /** An agreed deviation, in print. */
    record Deviation(String trial, String axis, String reason, String by, String at) {}

    /** A punch item, in print. */
    record Item(
            int number,
            String grade,
            String text,
            String where,
            String owner,
            String due,
            String state,
            boolean open) {}

    static AfterRun of(RunRecord record, Standing standing, Optional<Reissued> reissued) {
        return new AfterRun(
                standing.state().printed(),
                standing.state().name().toLowerCase(Locale.ROOT).replace('_', '-'),
                reissued.map(AfterRun::revision).stream().toList(),
                standing.deviations().stream()
                        .map(each -> new Deviation(
                                each.agreed().trial(),
                                each.agreed().axis(),
                                each.agreed().reason(),
                                each.agreed().by(),
                                Words.dateTime(each.at())))
                        .toList(),
                standing.items().stream().map(AfterRun::item).toList(),
                reissued.map(Reissued::signers).orElse(List.of()));
    }

    private static Revision revision(Reissued reissued) {
        ReportReissued issue = reissued.issue();
        return new Revision(
                issue.revision(),
                Words.dateTime(reissued.at()),
                issue.by(),
                issue.reason(),
                issue.replaces().stream().map(AfterRun::named).toList());
    }

    private static String named(PackedFile file) {
        return file.name() + " (SHA-256 " + file.sha256() + ")";
    }

    private static Item item(PunchItem item) {
        return new Item(
                item.number(),
                item.grade() + ", " + item.grade().meaning(),
                item.text(),
                item.trial()
                        .map(trial ->
                                trial + item.axis().map(axis -> " on " + axis).orElse(""))
                        .or(item::axis)
                        .orElse("—"),
                item.owner().isEmpty() ? "not named" : item.owner(),
                item.due().map(Object::toString).orElse("no date"),
                item.closing()
                        .map(closing -> "closed " + Words.dateTime(closing.at()) + " by " + closing.by() + ": "
                                + closing.evidence())
                        .orElse("open, raised by " + item.by()),
                item.open());
    }
}
