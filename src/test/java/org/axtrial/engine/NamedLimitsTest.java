package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.tuple;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.CheckRecord;
import org.axtrial.evidence.LimitUse;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Limits of the site file in place of those of a script, from the file to the record. */
@Timeout(60)
class NamedLimitsTest {

    private static final Path SOURCES = Path.of("test-scripts");

    private static final String SCRIPT = """
            import { trial, nominal, atMost, between } from "axtrial";
            trial("Limits", { id: "LIM-1", axes: ["INFEED", "LIFT"],
                limits: { travel: [0.5, "mm"], time: [2, "s"], low: [-1, "mm"], high: [1.5, "mm"] } }, (axis, t) => {
              axis.enable();
              const out = axis.moveBy(1, "mm");
              t.check("by name", out.travel(), nominal(1, "mm").plusMinus(t.limit("travel")));
              t.check("spread", out.settling({ window: [0.05, "mm"] }), atMost(...t.limit("time")));
              t.check("both", out.travel(), between(t.limit("low"), t.limit("high")));
              t.check("number", out.travel(), atMost(2, "mm"));
            });
            """;

    @TempDir
    Path folder;

    private Site site(String top, String infeed) throws Exception {
        for (String name : List.of("demo/site.yaml", "drives/type-c.yaml", "drives/type-d.yaml")) {
            Path target = folder.resolve(name);
            Files.createDirectories(target.getParent());
            Files.copy(SOURCES.resolve(name), target);
        }
        Path file = folder.resolve("demo/site.yaml");
        Files.writeString(
                file,
                Files.readString(file)
                        .replace("\njob:", "\n" + top + "\njob:")
                        .replace("  - name: INFEED\n", "  - name: INFEED\n    " + infeed + "\n"));
        Files.writeString(script(), SCRIPT);
        return SiteFile.load(file);
    }

    private Path script() {
        return folder.resolve("demo/limits.js");
    }

    private static List<CheckRecord> checks(RunRecord record, String axis) {
        return record.trials().stream()
                .filter(trial -> trial.axis().equals(axis))
                .map(TrialRecord::deciding)
                .flatMap(Optional::stream)
                .findFirst()
                .orElseThrow()
                .checks();
    }

    @Test
    void theSiteGoesBeforeTheScriptAndTheAxisBeforeTheSite() throws Exception {
        Site site = site("limits: { LIM-1: { travel: 100 um, time: 3 s } }", "limits: { LIM-1: { travel: 0.2 um } }");
        try (SiteSession session = SiteSession.open(
                site,
                How.REHEARSAL,
                SiteSession.scripts(site, List.of(script())),
                folder.resolve("reports"),
                "nobody")) {
            assertThat(AcceptanceRun.of(session.session()).problems()).isEmpty();
            RunRecord record = session.pack().finish();

            List<CheckRecord> lift = checks(record, "LIFT");
            assertThat(lift.get(0).limits())
                    .containsExactly(new LimitUse("travel", LimitUse.From.SITE, "100 um", Optional.of("0.5 mm")));
            assertThat(lift.get(0).criterion().plusMinus()).hasValue(0.1);
            assertThat(lift.get(1).limits())
                    .containsExactly(new LimitUse("time", LimitUse.From.SITE, "3 s", Optional.of("2 s")));
            assertThat(lift.get(2).limits())
                    .extracting(LimitUse::name, LimitUse::from)
                    .containsExactly(tuple("low", LimitUse.From.SCRIPT), tuple("high", LimitUse.From.SCRIPT));
            assertThat(lift.get(3).limits()).isEmpty();
            CheckRecord infeed = checks(record, "INFEED").get(0);
            assertThat(infeed.limits())
                    .extracting(LimitUse::from, LimitUse::value)
                    .containsExactly(tuple(LimitUse.From.SITE_AXIS, "0.2 um"));
            // A count of this axis is 1 um, so a limit of 0.2 um cannot be resolved, and the site's limit decides.
            assertThat(infeed.verdict()).isNotEqualTo(Verdict.PASS);
        }
    }

    @Test
    void whatNoScriptDeclaresIsToldWithItsLineAndWhatWasMeant() throws Exception {
        Site site = site("limits: { LIM-2: { travel: 1 mm } }", "limits: { LIM-1: { travl: 1 mm, time: 3 mm } }");

        assertThatThrownBy(() -> SiteSession.scripts(site, List.of(script())))
                .isInstanceOf(ScriptProblemsException.class)
                .hasMessageContaining(
                        "limits.LIM-2.travel: no script of this site declares the trial \"LIM-2\"; did you mean \"LIM-1\"?")
                .hasMessageContaining("trial \"LIM-1\" has no limit \"travl\"; did you mean \"travel\"?")
                .hasMessageContaining("\"3 mm\" is a distance, but the limit \"time\" of trial \"LIM-1\" is a time")
                .hasMessageMatching("(?s).*site.yaml:\\d+:\\d+: axes\\[1\\].*");
    }
}
