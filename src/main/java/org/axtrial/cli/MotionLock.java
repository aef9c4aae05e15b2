package org.axtrial.cli;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.axtrial.axis.Axis;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.evidence.RunEvent;
import org.axtrial.site.KeyLines;
import org.axtrial.site.Rig;
import org.axtrial.site.Site;
import org.axtrial.site.SiteAxis;
import org.axtrial.survey.LinkCheck;
import org.axtrial.time.SystemTime;

/** Keeps real axes from moving whose link and drive have not been proven in this run. */
final class MotionLock {

    private final Terminal terminal;
    private final List<LinkRecord> links = new ArrayList<>();

    MotionLock(Terminal terminal) {
        this.terminal = terminal;
    }

    /**
     * Looks at every axis over the link that it works over, and locks those that are not proven.
     *
     * @return why an axis is locked, by its name
     */
    Map<String, String> check(Site site, Rig rig, List<Axis> axes) {
        Map<String, String> locked = new LinkedHashMap<>();
        for (Axis opened : axes) {
            SiteAxis axis = site.axes().stream()
                    .filter(one -> one.name().equals(opened.setup().name()))
                    .findFirst()
                    .orElseThrow();
            LinkCheck.Result result = LinkCheck.brief(
                    new LinkCheck.Subject(
                            axis.name(),
                            rig.peer(axis.name()),
                            axis.endpoint().unit(),
                            axis.drive(),
                            axis.setup().samplePeriod(),
                            SiteLook.places(axis.driveFile(), KeyLines.read(axis.driveFile()))),
                    rig.link(axis.name()),
                    opened.time());
            links.add(result.link());
            if (!result.proven()) {
                String why = result.link().findings().get(0).text();
                locked.put(axis.name(), why);
                opened.lock("its link check did not pass: " + why);
            }
        }
        terminal.line("Link check: " + (axes.size() - locked.size()) + " of " + axes.size() + " axes proven");
        locked.forEach((name, why) -> terminal.line("  LOCKED " + name + ": " + why));
        if (!locked.isEmpty()) {
            terminal.line("  Locked axes do not move in this run. axtrial link " + site.file() + " tells more.");
        }
        terminal.line("");
        return locked;
    }

    /** Puts what was seen into the evidence, as soon as the run has begun there. */
    void record(EvidencePack pack) {
        pack.listen(event -> {
            if (event instanceof RunEvent.RunStarted) {
                links.forEach(link -> pack.accept(new RunEvent.LinkChecked(SystemTime.INSTANCE.instant(), link)));
            }
        });
    }
}
