package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.axtrial.evidence.RunRecord;
import org.axtrial.measure.Verdict;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Machines whose axes act on each other, from the site file to the record. */
@Timeout(120)
class CoupledRehearsalTest {

    /** An axis of an invented machine with its name, the end of its address, and what stands in its load. */
    private static final String AXIS = """
              - name: %s
                drive: type-c.yaml
                endpoint: { host: 192.0.2.%d }
                scale:
                  countsPerRevolution: 131072
                  electronicGear: { encoderCounts: 8192, registerCounts: 625 }
                  lead: 10 mm
                envelope: { travel: ["-50 mm", "400 mm"], speed: 300 mm/s, acceleration: 3000 mm/s2 }
                samplePeriod: 5 ms
                afterTrial: %s
                simulate:
                  motor: { ratedTorque: 2.4 Nm, inertia: 3.2 kgcm2, maxSpeed: 3000 rpm }
                  load: { %s }
            """;

    private static final String HEAD = """
            job: { id: J-2, title: Coupled axes of an invented machine }
            target: simulated
            parallel: true
            axes:
            """;

    private static final String GANTRY = HEAD
            + AXIS.formatted("LEFT", 21, "disable", "mass: 40 kg, coulombFriction: 0.02 Nm")
            + AXIS.formatted("RIGHT", 22, "disable", "mass: 30 kg, coulombFriction: 0.02 Nm")
            + "couplings:\n  - { kind: gantry beam, axes: [LEFT, RIGHT], stiffness: 2000 N/mm, damping: 4 Ns/mm }\n";

    private static final String HAND_OVER = HEAD
            + AXIS.formatted("PUSHER", 23, "disable", "mass: 12 kg, coulombFriction: 0.02 Nm")
            + AXIS.formatted("LIFT", 24, "hold", "mass: 20 kg, gravity: -196 N")
            + "couplings:\n"
            + "  - { kind: load transfer, from: PUSHER, to: LIFT, mass: 15 kg, gravityAfter: -147 N, at: 30 mm }\n";

    /** The side that is not tried is dragged along, against its friction alone: 0.02 N·m of 2.4 N·m are 0.8 %. */
    private static final String BOTH_SIDES = """
            import { trial, nominal, between } from "axtrial";
            trial("Either side takes the other along", { id: "G-1", axes: ["LEFT", "RIGHT"] }, (axis, t) => {
              axis.enable();
              const out = axis.moveBy(axis.name === "LEFT" ? 20 : -20, "mm", { settle: [500, "ms"] });
              t.check("travel", out.travel(), nominal(axis.name === "LEFT" ? 20 : -20, "mm").plusMinus(0.05, "mm"));
              const hold = axis.holdSpeed(20, "mm/s", { for: [600, "ms"] });
              t.check("mean speed", hold.meanSpeed(), nominal(20, "mm/s").plusMinus(2, "%"));
              const torque = t.computed(axis.read("torque"), "permille", { from: ["torque"], uncertainty: [1, "permille"] });
              t.check("torque", torque, between(-100, 100, "permille"));
            });
            """;

    /** Screw: T = F·L/2π, without the load 196 N, with it 343 N; of 2.4 N·m that is 13.0 % and 22.7 %. */
    private static final String WEIGHT = """
            import { trial, nominal, between } from "axtrial";
            trial("The pusher brings the load", { id: "L-1", axes: "PUSHER" }, (axis, t) => {
              axis.enable();
              t.check("travel", axis.moveBy(40, "mm").travel(), nominal(40, "mm").plusMinus(0.05, "mm"));
            });
            trial("The lift carries it", { id: "L-2", axes: "LIFT" }, (axis, t) => {
              axis.enable();
              axis.moveBy(10, "mm", { settle: [500, "ms"] });
              const torque = t.computed(axis.read("torque"), "permille", { from: ["torque"], uncertainty: [1, "permille"] });
              t.check("holding torque", torque, between(%s - 6, %<s + 6, "permille"));
            });
            """;

    @TempDir
    Path folder;

    @BeforeEach
    void copyDrive() throws Exception {
        Files.copy(Path.of("test-scripts/drives/type-c.yaml"), folder.resolve("type-c.yaml"));
    }

    private RunRecord rehearse(String siteText, String script) throws Exception {
        Path file = folder.resolve("site.yaml");
        Files.writeString(file, siteText);
        Path words = folder.resolve("coupled.js");
        Files.writeString(words, script);
        Site site = SiteFile.load(file);
        try (SiteSession session = SiteSession.open(
                site,
                How.REHEARSAL,
                SiteSession.scripts(site, List.of(words)),
                Files.createTempDirectory(folder, "reports"),
                "")) {
            assertThat(session.session().parallel()).isFalse();
            assertThat(AcceptanceRun.of(session.session()).problems()).isEmpty();
            return session.pack().finish();
        }
    }

    private static void assertPassed(RunRecord record, int trials) {
        assertThat(record.trials()).hasSize(trials).allSatisfy(trial -> {
            assertThat(trial.reason()).as(trial.axis()).isEmpty();
            assertThat(trial.verdict()).isEqualTo(Verdict.PASS);
        });
    }

    private static List<String> traceHashes(RunRecord record) {
        return record.trials().stream()
                .flatMap(trial -> trial.deciding().stream())
                .flatMap(attempt -> attempt.traces().stream())
                .map(trace -> trace.file() + " " + trace.sha256())
                .toList();
    }

    @Test
    void aGantryIsTriedSideBySideAndRepeatsToTheBit() throws Exception {
        RunRecord first = rehearse(GANTRY, BOTH_SIDES);
        assertPassed(first, 2);
        RunRecord second = rehearse(GANTRY, BOTH_SIDES);
        assertThat(second.withoutStamps()).isEqualTo(first.withoutStamps());
        assertThat(traceHashes(second)).isNotEmpty().isEqualTo(traceHashes(first));
    }

    @Test
    void theLiftCarriesWhatThePusherBrought() throws Exception {
        double perNewton = 0.010 / (2 * Math.PI) / 2.4 * 1000;
        RunRecord first = rehearse(HAND_OVER, WEIGHT.formatted(343 * perNewton));
        assertPassed(first, 2);
        RunRecord second = rehearse(HAND_OVER, WEIGHT.formatted(343 * perNewton));
        assertThat(second.withoutStamps()).isEqualTo(first.withoutStamps());
        assertThat(traceHashes(second)).isNotEmpty().isEqualTo(traceHashes(first));

        RunRecord without = rehearse(HAND_OVER.replace("at: 30 mm", "at: 300 mm"), WEIGHT.formatted(196 * perNewton));
        assertPassed(without, 2);
    }

    @Test
    void withoutABeamTheAxesKeepTheirOwnClocksAndMayRunSideBySide() throws Exception {
        Path file = folder.resolve("site.yaml");
        Files.writeString(file, GANTRY.substring(0, GANTRY.indexOf("couplings:")));
        Path words = folder.resolve("coupled.js");
        Files.writeString(words, BOTH_SIDES);
        Site site = SiteFile.load(file);
        try (SiteSession session = SiteSession.open(
                site,
                How.REHEARSAL,
                SiteSession.scripts(site, List.of(words)),
                Files.createTempDirectory(folder, "reports"),
                "")) {
            assertThat(session.session().parallel()).isTrue();
        }
    }
}
