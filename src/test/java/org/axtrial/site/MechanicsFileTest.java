package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import org.axtrial.plant.Cogging;
import org.axtrial.plant.Efficiency;
import org.axtrial.plant.EndStops;
import org.axtrial.plant.Friction;
import org.axtrial.plant.HoldingBrake;
import org.axtrial.plant.PlantDetails;
import org.axtrial.sim.SimulationSpec;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

/** The optional mechanics of {@code simulate:}, on a linear axis with a lead of 10 mm. */
class MechanicsFileTest {

    private static final double PER_MILLIMETRE = 2 * Math.PI / 10;

    @TempDir
    Path folder;

    private SimulationSpec simulation(String motor, String load, String more) throws SiteProblemsException {
        return bench(motor, load, more).load().axes().get(1).simulation().orElseThrow();
    }

    private SiteBench bench(String motor, String load, String more) {
        return new SiteBench(folder)
                .site("maxSpeed: 3000 rpm", "maxSpeed: 3000 rpm" + motor)
                .site("load: { mass: 10 kg }", "load: { mass: 10 kg" + load + " }" + more);
    }

    @Test
    void withoutAnyOfItTheTrainIsPlainAndRigid() throws SiteProblemsException {
        SimulationSpec spec = simulation("", "", "");

        assertThat(spec.details()).isEqualTo(PlantDetails.PLAIN);
        assertThat(spec.feedback().noise()).isZero();
        assertThat(spec.feedback().turns()).isEqualTo(4096);
    }

    @Test
    void whatIsToldOfTheMotorTheBrakeAndTheEncoderBecomesSi() throws SiteProblemsException {
        SimulationSpec spec = simulation(
                ", coulombFriction: 10 mNm, coggingTorque: 20 mNm, coggingPeriods: 36, thermalTime: 2 min",
                "",
                "\n      brake: { torque: 3 Nm, engageDelay: 20 ms }\n      feedback: { noise: 0.5 count, turns: 1 }");

        assertThat(spec.details().motorFriction()).isEqualTo(Friction.of(0, 0.01));
        assertThat(spec.details().cogging()).isEqualTo(new Cogging(0.02, 36));
        assertThat(spec.details().thermalTime()).hasSeconds(120);
        assertThat(spec.details().brake()).contains(new HoldingBrake(3, Duration.ofMillis(20), Duration.ZERO));
        assertThat(spec.feedback().noise()).isEqualTo(0.5);
        assertThat(spec.feedback().turns()).isEqualTo(1);
    }

    @Test
    void whatIsToldOfTheTrainIsReferredToTheMotorShaft() throws SiteProblemsException {
        PlantDetails details = simulation(
                        "",
                        ", stiffness: 430 Nm/rad, damping: 5 %, backlash: 20 um, efficiency: 90 %,"
                                + " backDrivingEfficiency: 80 %, breakawayFriction: 0.08 Nm, stribeckSpeed: 30 rpm",
                        "")
                .details();

        var coupling = details.coupling().orElseThrow();
        assertThat(coupling.stiffness()).isEqualTo(430);
        // d = 2·ζ·√(k·Jm·Jl/(Jm + Jl)), Jm 3e-4, Jl = 10 kg·(10 mm/2π)² = 2.53303e-5 kg·m² (screw formula).
        assertThat(coupling.damping()).isCloseTo(2 * 0.05 * Math.sqrt(430 * 2.33580e-5), within(1e-7));
        assertThat(coupling.backlash()).isCloseTo(0.020 * PER_MILLIMETRE, within(1e-12));
        assertThat(details.efficiency()).isEqualTo(new Efficiency(0.9, 0.8));
        assertThat(details.stribeck().orElseThrow().breakaway()).isEqualTo(0.08);
        assertThat(details.stribeck().orElseThrow().speed()).isCloseTo(Math.PI, within(1e-12));
    }

    @Test
    void endStopsAndCounterbalanceFollowTheDirectionOfTheCounts() throws SiteProblemsException {
        SiteBench bench = bench("", ", gravity: -98 N, counterbalance: 60 N, endStops: [\"-20 mm\", \"320 mm\"]", "")
                .site("lead: 10 mm", "lead: 10 mm, direction: negative")
                .site("name: SLIDE", "name: SLIDE\n    afterTrial: hold");
        PlantDetails details =
                bench.load().axes().get(1).simulation().orElseThrow().details();

        EndStops stops = details.endStops().orElseThrow();
        assertThat(stops.lower()).isCloseTo(-320 * PER_MILLIMETRE, within(1e-9));
        assertThat(stops.upper()).isCloseTo(20 * PER_MILLIMETRE, within(1e-9));
        // T = F·L/2π, 60 N and 10 mm (screw formula of public engineering pages).
        assertThat(details.counterbalance()).isCloseTo(-0.0954930, within(1e-7));
    }

    @Test
    void mistakesAreToldTogetherWithTheirPlaces() {
        List<String> problems = bench(
                        ", coggingPeriods: 0",
                        ", backlash: 20 um, damping: 5 %, coulombFriction: 0.1 Nm, breakawayFriction: 0.05 Nm,"
                                + " efficiency: 120 %, endStops: [\"5 mm\", \"320 mm\"]",
                        "\n      brake: { engageDelay: 20 ms }")
                .problems();

        assertThat(problems.stream().map(text -> text.split(": ", 3)[1]))
                .containsExactlyInAnyOrder(
                        "axes[1].simulate.motor.coggingPeriods",
                        "axes[1].simulate.load.backlash",
                        "axes[1].simulate.load.damping",
                        "axes[1].simulate.load.breakawayFriction",
                        "axes[1].simulate.load.efficiency",
                        "axes[1].simulate.load.endStops",
                        "axes[1].simulate.brake.torque");
    }

    @Test
    void aStiffnessThatIsRigidForEveryPurposeIsRefusedWithTheLargest() {
        // J·(2π·5000 Hz)² with J = 2.33580e-5 kg·m² is 23053 Nm/rad, arithmetic.
        assertThat(bench("", ", stiffness: 1e9 Nm/rad", "").problems())
                .singleElement()
                .asString()
                .contains("5000 Hz", "at most 23053 Nm/rad");
        assertThat(bench("", ", stiffness: 430 Nm/rad", "")
                        .site("mass: 10 kg", "mass: 0 kg")
                        .problems())
                .singleElement()
                .asString()
                .contains("simulate.load.stiffness", "mass");
    }
}
