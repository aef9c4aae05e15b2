package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import org.axtrial.plant.GantryBeam;
import org.axtrial.plant.LoadTransfer;
import org.axtrial.plant.LoadTransfer.AfterTime;
import org.axtrial.plant.LoadTransfer.AtPlace;
import org.axtrial.sim.SimulatedDrive;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Two linear axes SLIDE and OTHER, rotary TABLE that cannot be simulated, and what couples them. */
@Timeout(60)
class CouplingReaderTest {

    private static final String OTHER = SiteBench.SITE
            .substring(SiteBench.SITE.indexOf("  - name: SLIDE"), SiteBench.SITE.indexOf("target:"))
            .replace("SLIDE", "OTHER")
            .replace("192.0.2.2", "192.0.2.3");

    private static final String BEAM =
            "{ kind: gantry beam, axes: [SLIDE, OTHER], stiffness: 100 N/mm, damping: 0.4 Ns/mm, skew: 0.2 mm }";

    @TempDir
    Path folder;

    private SiteBench bench(String... couplings) {
        String list = String.join(
                "\n", List.of(couplings).stream().map(line -> "  - " + line).toList());
        return new SiteBench(folder)
                .site(
                        "      load: { mass: 10 kg }\n",
                        "      load: { mass: 10 kg }\n" + OTHER + "couplings:\n" + list + "\n");
    }

    @Test
    void readsCouplingsInSiUnits() throws SiteProblemsException {
        Site site = bench(
                        BEAM,
                        "{ kind: load transfer, from: SLIDE, to: OTHER, mass: 15 kg, gravityAfter: -147 N, at: 30 mm }",
                        "{ kind: load transfer, from: OTHER, to: SLIDE, mass: 2 kg, gravityBefore: 1 N, after: 20 s }",
                        "{ kind: load transfer, from: SLIDE, to: OTHER, mass: 1 kg, at: -2 rev }")
                .load();
        assertThat(site.couplings())
                .containsExactly(
                        new SiteCoupling(new GantryBeam(1e5, 400, 0.2e-3), "SLIDE", "OTHER"),
                        new SiteCoupling(new LoadTransfer(15, 0, -147, new AtPlace(0.03)), "SLIDE", "OTHER"),
                        new SiteCoupling(new LoadTransfer(2, 1, 0, new AfterTime(20)), "OTHER", "SLIDE"),
                        new SiteCoupling(new LoadTransfer(1, 0, 0, new AtPlace(-0.02)), "SLIDE", "OTHER"));
    }

    @Test
    void readsCouplingsOfRotaryAxes() throws SiteProblemsException {
        String simulate = "\n    simulate:\n      motor: { ratedTorque: 2 Nm, inertia: 3 kgcm2, maxSpeed: 3000 rpm }\n"
                + "      load: { inertia: 5 kgcm2 }";
        String table = SiteBench.SITE
                        .substring(SiteBench.SITE.indexOf("  - name: TABLE"), SiteBench.SITE.indexOf("  - name: SLIDE"))
                        .replace("TABLE", "SECOND")
                        .replace("192.0.2.1", "192.0.2.4")
                        .stripTrailing()
                + simulate + "\n";
        Site site = new SiteBench(folder)
                .site("acceleration: 3000 rpm/s", "acceleration: 3000 rpm/s" + simulate)
                .site(
                        "      load: { mass: 10 kg }\n",
                        "      load: { mass: 10 kg }\n" + table + "couplings:\n"
                                + "  - { kind: gantry beam, axes: [TABLE, SECOND], stiffness: 50 Nm/rad, damping: 0.1 Nms/rad }\n"
                                + "  - { kind: load transfer, from: TABLE, to: SECOND, inertia: 20 kgcm2, gravityAfter: 1 Nm, at: 0.5 rev }\n")
                .load();
        assertThat(site.couplings())
                .containsExactly(
                        new SiteCoupling(new GantryBeam(50, 0.1), "TABLE", "SECOND"),
                        new SiteCoupling(new LoadTransfer(2e-3, 0, 1, new AtPlace(Math.PI)), "TABLE", "SECOND"));
    }

    @Test
    void tellsEverythingThatIsWrongAtOnceWithItsPlace() {
        assertThat(bench(
                                "{ kind: gantry beam, axes: [SLIDE, OTHR], stiffness: 100 N/mm }",
                                "{ kind: gantry beam, axes: [SLIDE, TABLE], stiffness: 100 N/mm }",
                                "{ kind: gantry beam, axes: [SLIDE, SLIDE], stiffness: 100 N/mm, mass: 2 kg }",
                                "{ kind: gantry beam, axes: [SLIDE, OTHER], stiffness: 5 Nm/rad, damping: 1 kg }",
                                "{ kind: gantry beam, axes: [SLIDE, OTHER] }",
                                "{ kind: gantry beam, axes: [SLIDE, OTHER], stiffness: 1000000 N/mm }",
                                "{ kind: load transfer, from: SLIDE, to: OTHER, inertia: 2 kgm2 }",
                                "{ kind: load transfer, from: SLIDE, mass: 2 kg, at: 1 mm, after: 2 s }",
                                "{ kind: load transfer, from: SLIDE, to: OTHER, mass: 2 kg, at: 0 mm }",
                                "{ kind: load transfer, from: SLIDE, to: OTHER, mass: -2 kg, at: 3 mm, gravityAfter: 2 Nm }",
                                "{ kind: rope }")
                        .problems())
                .containsExactly(
                        "site.yaml:34:40: couplings[0].axes[1]: there is no axis \"OTHR\"; did you mean \"OTHER\"?",
                        "site.yaml:35:40: couplings[1].axes[1]: axis TABLE has no simulate block, and couplings are"
                                + " only simulated; give it one or take the coupling out",
                        "site.yaml:35:40: couplings[1].axes[1]: SLIDE is linear and TABLE is rotary; a coupling"
                                + " joins axes of one kind",
                        "site.yaml:36:40: couplings[2].axes[1]: a coupling joins two axes, found \"SLIDE\" twice",
                        "site.yaml:36:69: couplings[2].mass: a coupling of the kind \"gantry beam\" has no mass;"
                                + " leave it out",
                        "site.yaml:37:59: couplings[3].stiffness: \"5 Nm/rad\" is a stiffness;"
                                + " expected one in N/m, because these axes are linear",
                        "site.yaml:37:78: couplings[3].damping: \"1 kg\" is a mass; expected a damping, in Ns/m,"
                                + " Ns/mm, Nms/rad",
                        "site.yaml:38:5: couplings[4].stiffness: missing: a coupling of the kind \"gantry beam\""
                                + " needs stiffness",
                        "site.yaml:39:13: couplings[5].kind: with this stiffness the beam swings with 628 Hz, and at"
                                + " most 318 Hz can be simulated; lower the stiffness",
                        "site.yaml:40:5: couplings[6].at: missing: a coupling of the kind \"load transfer\" needs at"
                                + " or after",
                        "site.yaml:40:52: couplings[6].inertia: these axes are linear: tell the load by mass",
                        "site.yaml:41:5: couplings[7].to: missing: a coupling of the kind \"load transfer\" needs to",
                        "site.yaml:41:63: couplings[7].after: a load is handed over at a place or after a time, not"
                                + " both; leave one out",
                        "site.yaml:42:13: couplings[8].kind: the first axis stands at the place of the hand-over at"
                                + " the start; tell another place, or a time",
                        "site.yaml:43:58: couplings[9].mass: expected more than 0, found \"-2 kg\"",
                        "site.yaml:43:89: couplings[9].gravityAfter: \"2 Nm\" is a torque; expected one in N,"
                                + " because these axes are linear",
                        "site.yaml:44:13: couplings[10].kind: expected gantry beam or load transfer, found \"rope\"");
    }

    /** Loops that are too fast are told when the drive is made; a run on real drives has no use for that. */
    @Test
    void aDriveThatCannotBeSimulatedIsNoFaultOfTheCoupling() throws SiteProblemsException {
        Site site = bench(BEAM)
                .site("maxSpeed: 3000 rpm }\n", "maxSpeed: 3000 rpm }\n      loops: { speedBandwidth: 2000 Hz }\n")
                .load();
        assertThat(site.couplings()).hasSize(1);
        assertThatThrownBy(() -> SimulatedSite.drive(site.axes().get(1))).hasMessageContaining("1250 Hz");
    }

    /** Both loads go the same way in space, so the counts of an axis that counts backwards fall. */
    @Test
    void anAxisThatCountsBackwardsIsTakenAlongTheSameWay() throws Exception {
        Site site = bench(BEAM)
                .site(OTHER, OTHER.replace("lead: 10 mm }", "lead: 10 mm, direction: negative }"))
                .load();
        RehearsalBench bench = new RehearsalBench(site);
        SimulatedDrive slide = bench.drive(site.axes().get(1));
        SimulatedDrive other = bench.drive(site.axes().get(2));
        slide.turnByHand(20);
        // Damped and without friction: both come to the common centre of equal masses, s0 apart.
        other.advanceTo(20_000_000_000L);
        double skew = 0.2e-3 / (0.010 / (2 * Math.PI));
        assertThat(slide.shaftAngle() + skew).isCloseTo(-other.shaftAngle(), within(1e-6));
        assertThat(slide.shaftAngle() - other.shaftAngle()).isCloseTo(20, within(1e-6));
    }

    @Test
    void everyCopyOfTheMachineHasItsOwnCouplings() throws Exception {
        Site site = SiteFile.load(simulatable(BEAM));
        try (SimulatedSite served = SimulatedSite.start(site, new ServingPlan(2, true), "127.0.0.1", 0)) {
            assertThat(served.simulated("SLIDE-2").coupled().orElseThrow().names())
                    .containsExactly("SLIDE-2", "OTHER-2");
            assertThat(served.simulated("SLIDE-1").coupled().orElseThrow().names())
                    .containsExactly("SLIDE-1", "OTHER-1");
        }
    }

    /** TABLE gets a simulation of its own, coupled with nothing. */
    private Path simulatable(String coupling) {
        return bench(coupling)
                .site(
                        "acceleration: 3000 rpm/s",
                        "acceleration: 3000 rpm/s\n    simulate:\n      motor: { ratedTorque: 2 Nm, inertia: 3 kgcm2, maxSpeed:"
                                + " 3000 rpm }\n      load: { inertia: 5 kgcm2 }")
                .write();
    }

    @Test
    void servedDrivesPullEachOther() throws Exception {
        Site site = SiteFile.load(simulatable(BEAM));
        try (SimulatedSite served = SimulatedSite.start(site, "127.0.0.1", 0)) {
            SimulatedDrive slide = served.simulated("SLIDE");
            SimulatedDrive other = served.simulated("OTHER");
            assertThat(served.simulated("TABLE").coupled()).isEmpty();
            slide.turnByHand(20);
            while (other.shaftAngle() < 5) { // it follows; the class has a time-out
                Thread.onSpinWait();
            }
            assertThat(slide.coupled()).isEqualTo(other.coupled());
        }
    }

    @Test
    void coupledAxesShareTheirClockInARehearsalAndOthersHaveTheirOwn() throws Exception {
        Site site = SiteFile.load(simulatable(BEAM));
        RehearsalBench bench = new RehearsalBench(site);
        SiteAxis table = site.axes().get(0);
        SiteAxis slide = site.axes().get(1);
        SiteAxis other = site.axes().get(2);
        assertThat(bench.time(slide)).isSameAs(bench.time(other)).isNotSameAs(bench.time(table));
        assertThat(bench.time(table)).isSameAs(bench.time(table));
        assertThat(bench.drive(slide).coupled()).isEqualTo(bench.drive(other).coupled());
        assertThat(bench.drive(slide)).isSameAs(bench.drive(slide));
        assertThat(bench.drive(table).coupled()).isEmpty();
    }

    @Test
    void couplingsThatHangTogetherAreOneGroup() {
        SiteCoupling ab = coupling("A", "B");
        SiteCoupling cd = coupling("C", "D");
        SiteCoupling bc = coupling("B", "C");
        SiteCoupling ef = coupling("E", "F");
        assertThat(CoupledAxes.groups(List.of(ab, cd, ef))).containsExactly(List.of(ab), List.of(cd), List.of(ef));
        assertThat(CoupledAxes.groups(List.of(ab, cd, ef, bc))).containsExactly(List.of(ef), List.of(ab, cd, bc));
        assertThat(CoupledAxes.axes(List.of(ab, cd, bc))).containsExactly("A", "B", "C", "D");
    }

    private static SiteCoupling coupling(String first, String second) {
        return new SiteCoupling(new GantryBeam(1, 0), first, second);
    }
}
