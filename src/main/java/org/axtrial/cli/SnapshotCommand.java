package org.axtrial.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.Snapshot;
import org.axtrial.evidence.SnapshotRecord.Difference;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.quantity.Quantity;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import org.axtrial.site.SiteFile;
import org.axtrial.site.SiteLinks;
import org.axtrial.survey.ParameterSurvey;
import org.axtrial.time.SystemTime;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Reads the parameters of every drive and holds them against others. */
@Command(
        name = "snapshot",
        mixinStandardHelpOptions = true,
        description = {
            "Reads all declared parameters of every drive into an evidence pack: names, values, units, raw words. Writes nothing.",
            "",
            "--against holds them against another snapshot, or against an approved set in YAML or JSON, such as",
            "  INFEED: { ratedTorque: 2.4 Nm, gearNumerator: 1 }"
        },
        footer = {
            "",
            "Exit codes: 0 all was read, and nothing differs; 1 something differs; 2 wrong use; 3 nothing differs, but not all",
            "could be read."
        })
final class SnapshotCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private SiteLook look = new SiteLook();

    @Mixin
    private ParameterBaseline baseline = new ParameterBaseline();

    /** The option's spelling of a state. */
    private enum As {
        found,
        left
    }

    @Option(names = "--as", paramLabel = "STATE", description = "Keep it as found or as left: ${COMPLETION-CANDIDATES}")
    private Optional<As> as = Optional.empty();

    SnapshotCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws Exception {
        Site site = SiteFile.load(look.site);
        How how = look.how(site);
        baseline.read();
        SiteLook.head(terminal, site, how, "parameter snapshot");
        try (SiteLinks links = SiteLinks.of(site, how)) {
            Snapshot snapshot = new Snapshot(
                    Snapshot.FORMAT,
                    SystemTime.INSTANCE.instant(),
                    as.map(state -> state == As.found ? Snapshot.State.FOUND : Snapshot.State.LEFT),
                    values(site, links));
            List<Difference> differences = baseline.differences(snapshot);
            EvidencePack pack = SiteSession.look(
                    site, how, look.reports, look.operator, "snapshot", name -> peer(site, links, name));
            pack.accept(
                    new RunEvent.SnapshotTaken(SystemTime.INSTANCE.instant(), snapshot, baseline.name(), differences));
            SiteLook.finish(pack);
            return print(snapshot, differences, pack.folder()).code();
        }
    }

    private static String peer(Site site, SiteLinks links, String name) {
        return site.axes().stream()
                .filter(axis -> axis.name().equals(name))
                .map(links::peer)
                .findFirst()
                .orElse("");
    }

    private List<Snapshot.AxisValues> values(Site site, SiteLinks links) {
        List<Snapshot.AxisValues> values = new ArrayList<>();
        for (SiteAxis axis : site.axes()) {
            try (RegisterLink link = links.open(axis, axis.endpoint().unit())) {
                values.add(ParameterSurvey.read(axis.name(), axis.drive(), link));
            } catch (LinkException e) {
                values.add(ParameterSurvey.unreachable(
                        axis.name(), axis.drive(), links.peer(axis), String.valueOf(e.getMessage())));
            }
        }
        return values;
    }

    private ExitCode print(Snapshot snapshot, List<Difference> differences, Path folder) {
        boolean all = true;
        for (Snapshot.AxisValues axis : snapshot.axes()) {
            terminal.line(axis.axis() + ", " + axis.driveType() + " at " + axis.peer());
            for (Snapshot.Value value : axis.values()) {
                all &= value.value().isPresent();
                String printed = value.value().isPresent()
                        ? new Quantity(value.value().getAsDouble(), value.unit()).toString()
                        : "NOT READ: " + value.trouble();
                terminal.line(String.format("  %-24s %-20s %s", value.name(), printed, value.raw()));
            }
        }
        terminal.line("");
        baseline.name()
                .ifPresent(file -> terminal.line(
                        differences.isEmpty() ? "Nothing differs from " + file : "Against " + file + ":"));
        ParameterBaseline.tell(terminal, differences);
        terminal.line("Report: " + folder.resolve("report.html"));
        if (!differences.isEmpty()) {
            return ExitCode.FAILED;
        }
        return all ? ExitCode.PASSED : ExitCode.NOT_PROVEN;
    }
}
