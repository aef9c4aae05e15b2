package org.axtrial.cli;

import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.evidence.RunEvent;
import org.axtrial.link.LinkException;
import org.axtrial.link.RegisterLink;
import org.axtrial.quantity.AxisScale;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import org.axtrial.site.SiteFile;
import org.axtrial.site.SiteLinks;
import org.axtrial.survey.HandMove;
import org.axtrial.survey.LinkCheck;
import org.axtrial.survey.Together;
import org.axtrial.time.SystemTime;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Looks at the link to every drive of a site. */
@Command(
        name = "link",
        mixinStandardHelpOptions = true,
        description = {
            "Looks at the link to every drive: connection, unit, identity, constants, reply times, limits. Writes nothing.",
            "",
            "What does not fit the drive description is diagnosed, with the line to change; the description itself is never",
            "changed. With --hand-move a person turns the axis by hand and the position register is proven by it."
        },
        footer = {
            "",
            "Exit codes: 0 everything is as described; 1 something contradicts the description (wrong drive, wrong value,",
            "wrong limit); 2 wrong use; 3 nothing contradicts it, but not all could be shown (no connection, no reply, no",
            "constant that proves anything)."
        })
final class LinkCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private SiteLook look = new SiteLook();

    @Option(
            names = "--reads",
            paramLabel = "NUMBER",
            defaultValue = "1000",
            description = "Timed looks at each drive, 1 to 1000000. Default: ${DEFAULT-VALUE}")
    private int reads = 1000;

    @Option(
            names = "--try-connections",
            description =
                    "Open as many connections as the description says the drive allows. This may disturb other masters")
    private boolean tryConnections;

    @Option(
            names = "--hand-move",
            split = ",",
            paramLabel = "AXIS",
            description = "Axes to be moved by hand, both ways, while the position is watched. Their power must be off")
    private List<String> handMoves = List.of();

    @Option(
            names = "--turns",
            paramLabel = "NUMBER",
            defaultValue = "1",
            description = "Turns of the load for --hand-move, above 0, up to 1000. Default: ${DEFAULT-VALUE}")
    private double turns = 1;

    LinkCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws Exception {
        Site site = SiteFile.load(look.site);
        How how = look.how(site);
        check(site, how);
        SiteLook.head(terminal, site, how, "link check");
        try (SiteLinks links = SiteLinks.of(site, how)) {
            List<LinkCheck.Result> results = new ArrayList<>();
            for (SiteAxis axis : site.axes()) {
                terminal.line("  " + axis.name() + " at " + links.peer(axis) + " …");
                results.add(LinkCheck.full(
                        look.subject(axis, links.peer(axis)),
                        new LinkCheck.Scope(reads, tryConnections),
                        unit -> links.open(axis, unit),
                        SystemTime.INSTANCE));
            }
            List<LinkRecord> records = new ArrayList<>();
            for (LinkRecord record : Together.of(results, site.behind())) {
                records.add(handMoves.contains(record.axis()) ? moved(site, links, record) : record);
            }
            EvidencePack pack = SiteSession.look(
                    site, how, look.reports, look.operator, "link", name -> links.peer(axis(site, name)));
            records.forEach(record -> pack.accept(new RunEvent.LinkChecked(SystemTime.INSTANCE.instant(), record)));
            SiteLook.finish(pack);
            new LinkTable(terminal).print(records);
            terminal.line("Report: " + pack.folder().resolve("report.html"));
            return exitCode(records).code();
        }
    }

    private void check(Site site, How how) {
        if (reads < 1 || reads > 1_000_000) {
            throw new WrongUseException("--reads must be 1 … 1000000, got " + reads);
        }
        if (!(turns > 0) || turns > 1000) {
            throw new WrongUseException("--turns must be above 0, up to 1000, got " + turns);
        }
        Set<String> unknown = new LinkedHashSet<>(handMoves);
        site.axes().forEach(axis -> unknown.remove(axis.name()));
        if (!unknown.isEmpty()) {
            throw new WrongUseException("The site has no axis " + String.join(", ", unknown) + "; it has "
                    + String.join(", ", site.axes().stream().map(SiteAxis::name).toList()));
        }
        if (!handMoves.isEmpty() && how == How.REAL && !terminal.isInteractive()) {
            throw new WrongUseException("--hand-move needs a person at a terminal, and there is nobody to ask");
        }
    }

    private static SiteAxis axis(Site site, String name) {
        return site.axes().stream()
                .filter(axis -> axis.name().equals(name))
                .findFirst()
                .orElseThrow(() -> new WrongUseException("The site has no axis " + name));
    }

    private LinkRecord moved(Site site, SiteLinks links, LinkRecord record) {
        SiteAxis axis = axis(site, record.axis());
        AxisScale scale = axis.setup().scale();
        HandMove.Hand hand = links.simulated(axis.name())
                .<HandMove.Hand>map(drive -> simulated(drive, scale))
                .orElse(this::person);
        try (RegisterLink link = links.open(axis, axis.endpoint().unit())) {
            return HandMove.watch(
                    record, look.subject(axis, links.peer(axis)), scale, turns, link, hand, SystemTime.INSTANCE);
        } catch (LinkException e) {
            return record.with(new LinkRecord.Finding(
                    LinkRecord.Grade.NOT_PROVEN, "Not moved by hand: " + e.getMessage(), List.of(), List.of()));
        }
    }

    private boolean person(String instruction, double loadTurns) {
        terminal.line("");
        return terminal.ask(instruction + ". Then press Enter: ").isPresent();
    }

    private HandMove.Hand simulated(SimulatedDrive drive, AxisScale scale) {
        return (instruction, loadTurns) -> {
            terminal.line("  " + instruction + " (the simulated shaft is turned)");
            drive.turnByHand(loadTurns * scale.motorPerLoad() * scale.direction() * 2 * Math.PI);
            return true;
        };
    }

    static ExitCode exitCode(List<LinkRecord> records) {
        LinkRecord.Grade worst = records.stream()
                .map(LinkRecord::outcome)
                .reduce(LinkRecord.Grade.PROVEN, (one, other) -> one.compareTo(other) > 0 ? one : other);
        return switch (worst) {
            case PROVEN -> ExitCode.PASSED;
            case NOT_PROVEN -> ExitCode.NOT_PROVEN;
            case WRONG -> ExitCode.FAILED;
        };
    }
}
