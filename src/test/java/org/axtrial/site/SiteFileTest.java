package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.HashSet;
import java.util.List;
import org.axtrial.axis.AxisSetup;
import org.axtrial.axis.AxisSetup.AfterTrial;
import org.axtrial.measure.DecisionRule;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.ByteOrder;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.WordOrder;
import org.axtrial.sim.SimulationSpec;
import org.axtrial.sim.SimulationSpec.LinearLoad;
import org.axtrial.sim.SimulationSpec.RotaryLoad;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class SiteFileTest {

    @TempDir
    Path folder;

    @Test
    void documentedDefaultsHoldWhereTheFileIsSilent() throws SiteProblemsException {
        Site site = new SiteBench(folder).load();
        SiteAxis axis = site.axes().get(1);
        AxisSetup setup = axis.setup();

        assertThat(site.parallel()).isFalse();
        assertThat(site.operator()).isEmpty();
        assertThat(site.decisionRule()).isEqualTo(DecisionRule.SIMPLE);
        assertThat(site.scripts()).isEmpty();
        assertThat(axis.endpoint()).isEqualTo(new Endpoint("192.0.2.2", 502, 255, Duration.ofMillis(500)));
        assertThat(setup.unit()).isEqualTo(Unit.MILLIMETRE);
        assertThat(setup.speed()).isEqualTo(Quantity.of(10, Unit.MILLIMETRE_PER_SECOND));
        assertThat(setup.acceleration()).isEqualTo(Quantity.of(500, Unit.MILLIMETRE_PER_SECOND_SQUARED));
        assertThat(setup.samplePeriod()).hasMillis(10);
        assertThat(setup.standstillWindow()).isEqualTo(Quantity.of(66, Unit.COUNT));
        assertThat(setup.standstillTime()).hasMillis(100);
        assertThat(setup.stopTime()).hasSeconds(3);
        assertThat(setup.afterTrial()).isEqualTo(AfterTrial.DISABLE);
        assertThat(setup.envelope().torque()).isEmpty();
        assertThat(setup.envelope().time()).hasSeconds(60);
        assertThat(site.axes().get(0).setup().unit()).isEqualTo(Unit.REVOLUTION);
        assertThat(site.axes().get(0).simulation()).isEmpty();
    }

    @Test
    void slowAxisGetsAStopTimeThatItsRampNeeds() throws SiteProblemsException {
        Site site = new SiteBench(folder)
                .site("acceleration: 1000 mm/s2", "acceleration: 40 mm/s2")
                .load();

        // Source: arithmetic, 100 mm/s over half of 40 mm/s2 is 5 s; 100 ms standstill and 1 s in hand
        assertThat(site.axes().get(1).setup().stopTime()).hasMillis(6_100);
    }

    @Test
    void simulationQuantitiesBecomeSi() throws SiteProblemsException {
        SimulationSpec spec =
                new SiteBench(folder).load().axes().get(1).simulation().orElseThrow();

        assertThat(spec.motor().inertia()).isCloseTo(3e-4, within(1e-12)); // 1 kg·cm2 = 1e-4 kg·m2
        assertThat(spec.motor().maxTorque()).isEqualTo(300);
        assertThat(spec.load()).isEqualTo(new LinearLoad(10, 0.01, 0, 0, 0));
        assertThat(spec.feedback().countsPerMotorRevolution()).isEqualTo(65536);
        assertThat(spec.loops().followingErrorTrip()).isEqualTo(2 * 65536.0);
        assertThat(spec.seed()).isEqualTo(2);
    }

    @Test
    void leadBehindAGearboxIsTravelOfAMotorTurn() throws SiteProblemsException {
        Site site = new SiteBench(folder)
                .site("lead: 10 mm", "lead: 10 mm, gearbox: { motorTurns: 4, loadTurns: 1 }")
                .load();

        LinearLoad load =
                (LinearLoad) site.axes().get(1).simulation().orElseThrow().load();
        assertThat(load.lead()).isEqualTo(0.0025);
    }

    @Test
    void gravityIsToldInTheSenseOfTheAxisAndSimulatedInTheSenseOfTheCounts() throws SiteProblemsException {
        Site site = new SiteBench(folder)
                .site("lead: 10 mm", "lead: 10 mm, direction: negative")
                .site("mass: 10 kg", "mass: 10 kg, gravity: -98 N")
                .site("name: SLIDE", "name: SLIDE\n    afterTrial: hold")
                .load();

        SiteAxis axis = site.axes().get(1);
        assertThat(((LinearLoad) axis.simulation().orElseThrow().load()).gravityForce())
                .isEqualTo(98);
        assertThat(axis.setup().scale().direction()).isEqualTo(-1);
    }

    private Site withSimulation(String scale, String more) throws SiteProblemsException {
        return new SiteBench(folder)
                .site("lead: 10 mm", scale)
                .site("load: { mass: 10 kg }", "load: { mass: 10 kg }\n      " + more)
                .load();
    }

    private static final String REFERENCE =
            "reference: { negativeLimit: -5 mm, positiveLimit: 290 mm, homeFrom: 10 mm, homeTo: 20 mm,"
                    + " hysteresis: 0.1 mm, indexMark: 3 mm, absolute: true, longestSearch: 600 mm, jerk: 5000 mm/s3 }";

    @Test
    void switchesAreToldAtTheLoadAndSimulatedInMotorRevolutions() throws SiteProblemsException {
        SimulationSpec.Reference reference = withSimulation(
                        "lead: 10 mm, gearbox: { motorTurns: 2, loadTurns: 1 }", REFERENCE)
                .axes()
                .get(1)
                .simulation()
                .orElseThrow()
                .reference();

        // 5 mm for one motor revolution.
        assertThat(reference.negativeLimit()).hasValueSatisfying(range -> {
            assertThat(range.from()).isEqualTo(Double.NEGATIVE_INFINITY);
            assertThat(range.to()).isCloseTo(-1, within(1e-12));
            assertThat(range.hysteresis()).isCloseTo(0.02, within(1e-12));
        });
        assertThat(reference.positiveLimit()).hasValueSatisfying(range -> {
            assertThat(range.from()).isCloseTo(58, within(1e-12));
            assertThat(range.to()).isEqualTo(Double.POSITIVE_INFINITY);
        });
        assertThat(reference.home()).hasValueSatisfying(range -> {
            assertThat(range.from()).isCloseTo(2, within(1e-12));
            assertThat(range.to()).isCloseTo(4, within(1e-12));
        });
        assertThat(reference.indexOffset()).isCloseTo(0.6, within(1e-12));
        assertThat(reference.absolute()).isTrue();
        assertThat(reference.longestSearch()).isCloseTo(120, within(1e-9));
        assertThat(reference.jerk().orElseThrow()).isCloseTo(1000, within(1e-9));
    }

    @Test
    void onAnAxisThatCountsBackwardsThePositiveLimitIsTheNegativeOneOfTheDrive() throws SiteProblemsException {
        SimulationSpec.Reference reference = withSimulation("lead: 10 mm, direction: negative", REFERENCE)
                .axes()
                .get(1)
                .simulation()
                .orElseThrow()
                .reference();

        assertThat(reference.negativeLimit().orElseThrow().to()).isCloseTo(-29, within(1e-12));
        assertThat(reference.positiveLimit().orElseThrow().from()).isCloseTo(0.5, within(1e-12));
        assertThat(reference.home().orElseThrow().from()).isCloseTo(-2, within(1e-12));
        assertThat(reference.home().orElseThrow().to()).isCloseTo(-1, within(1e-12));
        assertThat(reference.indexOffset()).isCloseTo(-0.3, within(1e-12));
    }

    @Test
    void aHomeSwitchWithOneEndIsActiveToTheEndOfTheTravel() throws SiteProblemsException {
        SimulationSpec.Reference reference = withSimulation("lead: 10 mm", "reference: { homeFrom: 10 mm }")
                .axes()
                .get(1)
                .simulation()
                .orElseThrow()
                .reference();

        assertThat(reference.home()).contains(SimulationSpec.SwitchRange.above(1, 0));
        assertThat(reference.negativeLimit()).isEmpty();
        assertThat(reference.longestSearch()).isEqualTo(SimulationSpec.Reference.LONGEST_SEARCH);
    }

    @Test
    void withoutAReferenceThereIsNoSwitch() throws SiteProblemsException {
        assertThat(new SiteBench(folder)
                        .load()
                        .axes()
                        .get(1)
                        .simulation()
                        .orElseThrow()
                        .reference())
                .isEqualTo(SimulationSpec.Reference.NONE);
    }

    @Test
    void theIntegralGainIsTheGainOverTheIntegralTime() throws SiteProblemsException {
        SimulationSpec.Loops loops = withSimulation(
                        "lead: 10 mm",
                        "loops: { speedGain: 0.3 Nms/rad, speedIntegralTime: 6 ms, accelerationFeedForward: 80 % }")
                .axes()
                .get(1)
                .simulation()
                .orElseThrow()
                .loops();

        // Ki = Kp/Tn.
        assertThat(loops.speedGains()).hasValueSatisfying(gains -> {
            assertThat(gains.proportional()).isEqualTo(0.3);
            assertThat(gains.integral()).isCloseTo(50, within(1e-9));
        });
        assertThat(loops.accelerationFeedForward()).isEqualTo(0.8);
    }

    @Test
    void rotaryLoadTakesTheGearboxOfTheScale() throws SiteProblemsException {
        String scale = """
                scale: { countsPerRevolution: 65536, gearbox: { motorTurns: 5, loadTurns: 2 } }
                    simulate:
                      motor: { ratedTorque: 2 Nm, inertia: 3 kgcm2, maxSpeed: 3000 rpm }
                      load: { inertia: 0.1 kgm2 }""";
        Site site = new SiteBench(folder)
                .site("scale: { countsPerRevolution: 65536 }", scale)
                .load();

        assertThat(site.axes().get(0).simulation().orElseThrow().load()).isEqualTo(new RotaryLoad(0.1, 2.5, 0, 0, 0));
    }

    @Test
    void jobAndMachineKeepTheOrderOfTheFile() throws SiteProblemsException {
        Site site = new SiteBench(folder)
                .site(
                        "job: { id: J-1, title: Test }",
                        "job: { plan: P, title: T, customer: C, id: I }\nmachine: { serial: \"7\", name: N }")
                .load();

        assertThat(site.job().keySet()).containsExactly("plan", "title", "customer", "id");
        assertThat(site.machine().keySet()).containsExactly("serial", "name");
    }

    @Test
    void signalsBitsAndCommandsKeepTheOrderOfTheFile() throws SiteProblemsException {
        Site site = new SiteBench(folder)
                .drive("ready: 0, enabled: 1", "enabled: 1, ready: 0")
                .load();

        assertThat(site.axes().get(0).drive().signals().keySet())
                .startsWith("position", "speed", "torque", "status", "faultCode", "command");
        assertThat(site.axes().get(0).drive().commands().keySet())
                .containsExactly("enable", "disable", "stop", "resetFault");
    }

    @Test
    void scriptsBesideTheFileAreTheDefaultInOrderOfName() throws IOException, SiteProblemsException {
        for (String name : List.of("b.js", "a.js", "words.d.ts")) {
            Files.writeString(folder.resolve(name), "");
        }

        assertThat(new SiteBench(folder).load().scripts())
                .containsExactly(folder.resolve("a.js"), folder.resolve("b.js"));
    }

    @Test
    void namedScriptsKeepTheirOrder() throws IOException, SiteProblemsException {
        for (String name : List.of("b.js", "a.js", "c.js")) {
            Files.writeString(folder.resolve(name), "");
        }

        assertThat(new SiteBench(folder)
                        .site("axes:", "scripts: [c.js, a.js]\naxes:")
                        .load()
                        .scripts())
                .containsExactly(folder.resolve("c.js"), folder.resolve("a.js"));
    }

    // Source: common reference-number convention, 4xxxx holding and 3xxxx input, first register is 1
    @Test
    void referencesCountFromOneAndNameTheTable() throws SiteProblemsException {
        SignalSpec holding = parameter("reference: 40108");
        SignalSpec longForm = parameter("reference: 400108");
        SignalSpec input = parameter("reference: 30001");

        assertThat(holding.address()).isEqualTo(107);
        assertThat(holding.table()).isEqualTo(RegisterTable.HOLDING);
        assertThat(parameter("reference: 465536").address()).isEqualTo(65535);
        assertThat(longForm.address()).isEqualTo(107);
        assertThat(input.table()).isEqualTo(RegisterTable.INPUT);
        assertThat(input.address()).isZero();
    }

    @Test
    void signalOverridesTheOrdersOfTheFile() throws SiteProblemsException {
        SignalSpec spec = parameter("reference: 40108, wordOrder: low-first, byteOrder: low-first");

        assertThat(spec.wordOrder()).isEqualTo(WordOrder.LOW_FIRST);
        assertThat(spec.byteOrder()).isEqualTo(ByteOrder.LOW_FIRST);
    }

    @Test
    void watchdogNamesItsParameter() throws SiteProblemsException {
        Site site = new SiteBench(folder)
                .drive("type: Invented", "type: Invented\nwatchdog: { timeout: 1 s, signal: watchdogTime }")
                .load();

        var watchdog = site.axes().get(0).drive().watchdog().orElseThrow();
        assertThat(watchdog.timeout()).hasSeconds(1);
        assertThat(watchdog.signal().orElseThrow().address()).isEqualTo(110);
    }

    @Test
    void theDecisionRuleIsRead() throws SiteProblemsException {
        assertThat(rule("decisionRule: guard band")).isEqualTo(new DecisionRule.GuardBand(1));
        assertThat(rule("decisionRule: guard band\nguardBandFactor: 0.8225"))
                .isEqualTo(new DecisionRule.GuardBand(0.8225));
        assertThat(rule("decisionRule: non-binary\nguardBandFactor: 2")).isEqualTo(new DecisionRule.NonBinary(2));
    }

    private DecisionRule rule(String lines) throws SiteProblemsException {
        return SiteFile.load(
                        new SiteBench(folder).site("axes:", lines + "\naxes:").write())
                .decisionRule();
    }

    @Test
    void twoViewsOfOneRegisterWithOneLayoutAreFine() throws SiteProblemsException {
        assertThat(parameter("address: 5").address()).isEqualTo(5);
    }

    @Test
    void manyMistakesInOneFileAreAllTold() {
        SiteBench bench = new SiteBench(folder)
                .site("id: J-1, title: Test", "id: 7, titel: Test, colour: red")
                .site("axes:", "parallel: maybe\ndecisionRule: hard\noperator: \"\"\nmachine: { serial: 1 }\naxes:")
                .site("name: TABLE", "name: 1st")
                .site("drive: drive.yaml", "drive: other.yaml")
                .site("host: 192.0.2.1 }", "host: 192.0.2.1, port: 0, unit: 256 }")
                .site("countsPerRevolution: 65536 }", "countsPerRevolution: 0, direction: up }\n    samplePeriod: 5 s")
                .site("\"-2 rev\", \"2 rev\"", "\"-2 rev\", \"2 litres\"")
                .site("speed: 600 rpm", "speed: 600 mm/s")
                .site("acceleration: 3000 rpm/s", "accelleration: 3000 rpm/s")
                .site("lead: 10 mm", "lead: -10 mm")
                .site("speed: 100 mm/s", "speed: 100")
                .site("acceleration: 1000 mm/s2", "acceleration: 1000 mm/s\n      time: 2 h\n      torque: 80 Nm")
                .site("ratedTorque: 2 Nm", "ratedTorque: 0 Nm")
                .site("maxSpeed: 3000 rpm", "maxSpeed: 3000 mm/s")
                .site("mass: 10 kg", "mass: 10 kgs")
                .drive("style: direct", "style: direkt")
                .drive("position: { address: 0", "position: { address: 0, reference: 40001");

        List<String> problems = bench.problems();

        assertThat(problems).hasSizeGreaterThanOrEqualTo(20);
        assertThat(new HashSet<>(problems)).hasSameSizeAs(problems);
        assertThat(problems.stream().map(text -> text.split(": ", 3)[1]))
                .containsExactly(
                        "job.id",
                        "job.titel",
                        "job.colour",
                        "parallel",
                        "decisionRule",
                        "operator",
                        "machine.serial",
                        "axes[0].name",
                        "axes[0].drive",
                        "axes[0].endpoint.port",
                        "axes[0].endpoint.unit",
                        "axes[0].scale.countsPerRevolution",
                        "axes[0].scale.direction",
                        "axes[0].samplePeriod",
                        "axes[0].envelope.travel[1]",
                        "axes[0].envelope.speed",
                        "axes[0].envelope.accelleration",
                        "axes[1].scale.lead",
                        "axes[1].envelope.speed",
                        "axes[1].envelope.acceleration",
                        "axes[1].envelope.time",
                        "axes[1].envelope.torque",
                        "axes[1].simulate.motor.ratedTorque",
                        "axes[1].simulate.motor.maxSpeed",
                        "axes[1].simulate.load.mass",
                        "style",
                        "signals.position.reference");
    }

    private SignalSpec parameter(String place) throws SiteProblemsException {
        return new SiteBench(folder)
                .drive("watchdogTime: { address: 110", "watchdogTime: { " + place)
                .load()
                .axes()
                .get(0)
                .drive()
                .parameters()
                .get(0);
    }
}
