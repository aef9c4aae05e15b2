package org.axtrial.cli;

import java.time.Instant;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.Snapshot;
import org.axtrial.evidence.SnapshotRecord.Difference;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.site.Rig;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import org.axtrial.survey.ParameterSurvey;

/**
 * The parameters of all drives of a site as a run finds them, before anything moves, and as it leaves them, after its last
 * trial, also when it was stopped. Reads only; what it finds decides no verdict.
 */
final class FoundAndLeft {

    private static final String AS_FOUND = "as found";

    private final Terminal terminal;
    private final Site site;
    private final Rig rig;
    private final EvidencePack pack;
    private final ParameterBaseline baseline;
    private Optional<Snapshot> found = Optional.empty();

    FoundAndLeft(Terminal terminal, Site site, SiteSession session, ParameterBaseline baseline) {
        this.terminal = terminal;
        this.site = site;
        this.rig = session.rig();
        this.pack = session.pack();
        this.baseline = baseline;
    }

    /** Reads and tells the parameters as found; they are recorded as soon as the run has begun in the evidence. */
    void found() {
        Snapshot snapshot = read(Snapshot.State.FOUND);
        List<Difference> differences = baseline.differences(snapshot);
        tell(AS_FOUND, snapshot, baseline.name(), differences);
        terminal.line("");
        found = Optional.of(snapshot);
        pack.listen(event -> {
            if (event instanceof RunEvent.RunStarted started) {
                pack.accept(new RunEvent.SnapshotTaken(started.at(), snapshot, baseline.name(), differences));
            }
        });
    }

    /** Reads, tells and records the parameters as left, against those as found. */
    void left() {
        Snapshot snapshot = read(Snapshot.State.LEFT);
        List<Difference> differences = found.map(before ->
                        ParameterSurvey.compare(ParameterSurvey.values(snapshot), ParameterSurvey.values(before)))
                .orElse(List.of());
        pack.accept(new RunEvent.SnapshotTaken(now(), snapshot, Optional.of(AS_FOUND), differences));
        terminal.line("");
        tell("as left", snapshot, Optional.of(AS_FOUND), differences);
    }

    private Snapshot read(Snapshot.State state) {
        return new Snapshot(
                Snapshot.FORMAT,
                now(),
                Optional.of(state),
                site.axes().stream().map(this::read).toList());
    }

    private Snapshot.AxisValues read(SiteAxis axis) {
        RegisterLink link = rig.link(axis.name());
        try {
            return ParameterSurvey.read(axis.name(), axis.drive(), link);
        } catch (LinkException e) {
            return ParameterSurvey.unreachable(axis.name(), axis.drive(), link.peer(), String.valueOf(e.getMessage()));
        }
    }

    private void tell(String state, Snapshot snapshot, Optional<String> against, List<Difference> differences) {
        List<Snapshot.Value> values =
                snapshot.axes().stream().flatMap(axis -> axis.values().stream()).toList();
        List<String> unread = snapshot.axes().stream()
                .flatMap(axis -> axis.values().stream()
                        .filter(value -> value.value().isEmpty())
                        .map(value -> "  NOT READ " + axis.axis() + "." + value.name() + ": " + value.trouble()))
                .toList();
        terminal.line("Parameters " + state + ": " + (values.size() - unread.size()) + " of " + values.size() + " read"
                + against.map(name -> differences.isEmpty() ? ", none differs from " + name : ", against " + name + ":")
                        .orElse(""));
        ParameterBaseline.tell(terminal, differences);
        unread.forEach(terminal::line);
        if (values.isEmpty()) {
            terminal.line("  No drive description of the site declares parameters.");
        }
    }

    /** The latest of the clocks, which in a rehearsal are virtual. */
    private Instant now() {
        return rig.axes().stream()
                .map(axis -> axis.time().instant())
                .max(Comparator.naturalOrder())
                .orElse(Instant.EPOCH);
    }
}
