package org.axtrial.report;

import java.util.List;
import java.util.Locale;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunSetup;
import org.axtrial.evidence.Snapshot;
import org.axtrial.evidence.SnapshotRecord;

/** What the section on links and parameters prints, in words and in order. */
record LooksView(List<Link> links, List<Parameters> snapshots) {

    record Link(String axis, String peer, String result, List<RunSetup.Fact> facts, List<Finding> findings) {}

    record Finding(String result, String text, List<String> readings, List<String> corrections) {}

    record Parameters(
            String state,
            String file,
            String sha256,
            int parameters,
            int unreadable,
            String against,
            List<Difference> differences) {}

    record Difference(String axis, String parameter, String kind, String there, String here) {}

    static LooksView of(RunRecord record) {
        return new LooksView(
                record.links().stream().map(LooksView::link).toList(),
                record.snapshots().stream().map(LooksView::parameters).toList());
    }

    private static Link link(LinkRecord link) {
        return new Link(
                link.axis(),
                link.peer(),
                word(link.outcome()),
                link.facts(),
                link.findings().stream()
                        .map(finding -> new Finding(
                                word(finding.grade()), finding.text(), finding.readings(), finding.corrections()))
                        .toList());
    }

    private static Parameters parameters(SnapshotRecord snapshot) {
        return new Parameters(
                snapshot.state()
                        .map(state -> state == Snapshot.State.FOUND ? "As found" : "As left")
                        .orElse("As read"),
                snapshot.file(),
                snapshot.sha256(),
                snapshot.parameters(),
                snapshot.unreadable(),
                snapshot.against()
                        .map(file -> file + (snapshot.differences().isEmpty() ? "; nothing differs" : ""))
                        .orElse("nothing"),
                snapshot.differences().stream()
                        .map(difference -> new Difference(
                                difference.axis(),
                                difference.parameter(),
                                difference.kind().name().toLowerCase(Locale.ROOT),
                                difference.was(),
                                difference.is()))
                        .toList());
    }

    static String word(LinkRecord.Grade grade) {
        return switch (grade) {
            case PROVEN -> "proven";
            case NOT_PROVEN -> "not proven";
            case WRONG -> "wrong";
        };
    }
}
