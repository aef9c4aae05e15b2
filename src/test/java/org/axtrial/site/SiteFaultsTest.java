package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisException;
import org.axtrial.axis.AxisUnreachableException;
import org.axtrial.axis.DriveTrippedException;
import org.axtrial.axis.MoveOptions;
import org.axtrial.axis.OutcomeUnprovenException;
import org.axtrial.link.DriveRefusedException;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.quantity.Quantity;
import org.axtrial.sim.WireFault;
import org.axtrial.sim.WireFault.Strikes;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Faults of the wire that a site file asks for. */
@Timeout(60)
class SiteFaultsTest {

    @TempDir
    Path folder;

    private SiteBench with(String fault) {
        return new SiteBench(folder)
                .site("load: { mass: 10 kg }", "load: { mass: 10 kg }\n      faults: [" + fault + "]");
    }

    private List<WireFault> read(String fault) throws SiteProblemsException {
        return with(fault).load().axes().get(1).faults();
    }

    @Test
    void aFaultSaysWhichRequestsItStrikes() throws SiteProblemsException {
        assertThat(read("{ kind: reply dropped, function: 16, after: 3, count: 2 }, { kind: exception, code: 6 }"))
                .containsExactly(
                        new WireFault.DropReply(new Strikes(16, 3, 2)),
                        new WireFault.ExceptionReply(new Strikes(0, 0, 1), 6));
    }

    @Test
    void lastingKindsLastUnlessTheyAreCounted() throws SiteProblemsException {
        assertThat(
                        read(
                                "{ kind: frozen values }, { kind: slow drive, by: 20 ms, count: 5 }, { kind: silence, after: 9 }"))
                .containsExactly(
                        new WireFault.FrozenValues(Strikes.FROM_NOW_ON),
                        new WireFault.SlowDrive(new Strikes(0, 0, 5), Duration.ofMillis(20)),
                        new WireFault.Silence(new Strikes(0, 9, WireFault.WITHOUT_END)));
    }

    @Test
    void everyKindOfTheSchemaIsMadeAndEveryFaultHasItsKind() throws SiteProblemsException {
        JsonNode kinds =
                new JsonMapper().readTree(SchemaCheck.text("site.schema.json")).at("/$defs/fault/properties/kind/enum");
        List<Class<?>> made = new ArrayList<>();
        for (JsonNode kind : kinds) {
            String extra = switch (kind.asString()) {
                case "reply delayed", "reply trickled", "slow drive" -> ", by: 1 ms";
                case "exception" -> ", code: 4";
                default -> "";
            };
            List<WireFault> faults = read("{ kind: " + kind.asString() + extra + " }");
            assertThat(faults).as(kind.asString()).hasSize(1);
            made.add(faults.get(0).getClass());
        }
        assertThat(made).doesNotHaveDuplicates().containsExactlyInAnyOrder(WireFault.class.getPermittedSubclasses());
    }

    @Test
    void allProblemsAreToldAtOnce() {
        assertThat(with("{ kind: reply lost }, { kind: exception }, { kind: reply cut, by: 3 ms, count: 0 }")
                        .problems())
                .containsExactly(
                        "site.yaml:22:24: axes[1].simulate.faults[0].kind: expected reply dropped or reply delayed or reply"
                                + " doubled or wrong transaction or wrong unit or wrong function or wrong length or reply"
                                + " trickled or reply cut or connection reset or connection half-open or connections taken"
                                + " or exception or frozen values or torn words or other drive or slow drive or silence,"
                                + " found \"reply lost\"; did you mean \"reply cut\"?",
                        "site.yaml:22:38: axes[1].simulate.faults[1].code: missing: the exception code, for example code: 6",
                        "site.yaml:22:78: axes[1].simulate.faults[2].by: a fault of the kind \"reply cut\" has no by; leave it"
                                + " out",
                        "site.yaml:22:95: axes[1].simulate.faults[2].count: expected 1 … 1000000000, found 0");
    }

    @ParameterizedTest
    @EnumSource(
            value = How.class,
            names = {"SIMULATED", "REHEARSAL"})
    void theRigPutsThemOnTheWire(How how) throws Exception {
        Site site = with("{ kind: reply dropped, function: 16, after: 1 }")
                .site(
                        "drive: drive.yaml\n    endpoint: { host: 192.0.2.1 }",
                        "drive: drive.yaml\n    endpoint: { host: 192.0.2.1 }\n    simulate: { motor: { ratedTorque: 2 Nm, inertia: 3 kgcm2, maxSpeed: 3000 rpm }, load: { inertia: 0.001 kgm2 } }")
                .load();
        try (Rig rig = Rig.open(site, how)) {
            Axis sound = rig.axes().get(0);
            sound.beginTrial();
            sound.enable();
            sound.moveBy(Quantity.parse("0.1 rev"), MoveOptions.DEFAULT);
            Axis struck = rig.axes().get(1);
            struck.beginTrial();
            struck.enable();
            assertThatThrownBy(() -> struck.moveBy(Quantity.parse("5 mm"), MoveOptions.DEFAULT))
                    .isInstanceOf(OutcomeUnprovenException.class)
                    .hasMessageContaining("sent once");
        }
    }

    @Test
    void theSimulateCommandServesThem() throws Exception {
        Site site = with("{ kind: exception, code: 6, function: 3, after: 1 }")
                .site(
                        "drive: drive.yaml\n    endpoint: { host: 192.0.2.1 }",
                        "drive: drive.yaml\n    endpoint: { host: 192.0.2.1 }\n    simulate: { motor: { ratedTorque: 2 Nm, inertia: 3 kgcm2, maxSpeed: 3000 rpm }, load: { inertia: 0.001 kgm2 } }")
                .load();
        try (SimulatedSite served = SimulatedSite.start(site, "127.0.0.1", 0)) {
            SimulatedSite.Served slide = served.served().get(1);
            try (ModbusTcpLink link = ModbusTcpLink.open(
                    "127.0.0.1", slide.port(), slide.unit(), Duration.ofSeconds(5), SystemTime.INSTANCE)) {
                link.read(3, 0, 1);
                assertThatThrownBy(() -> link.read(3, 0, 1))
                        .isInstanceOfSatisfying(
                                DriveRefusedException.class,
                                refused -> assertThat(refused.code()).isEqualTo(6));
                link.read(3, 0, 1);
            }
        }
    }

    @Test
    void anotherDriveAtTheAddressGetsNothingMore() throws Exception {
        try (FaultBench bench = new FaultBench(folder, FaultBench.Wire.IN_PROCESS).ready()) {
            bench.fault(new WireFault.OtherDrive(new Strikes(3, 0, 1)));
            assertThatThrownBy(() -> bench.axis.position()).isInstanceOf(AxisException.class);
            long stops = bench.frames(6, FaultBench.COMMAND);
            assertThatThrownBy(() -> bench.axis.beginTrial())
                    .isInstanceOf(AxisException.class)
                    .hasMessageContainingAll("another drive answers", "model", "not even a stop");
            assertThat(bench.axis.safeStop("test").standstill()).isFalse();
            assertThat(bench.frames(6, FaultBench.COMMAND)).isEqualTo(stops);
        }
    }

    @Test
    void frozenValuesEndAMotionAndProveNoStandstill() throws Exception {
        try (FaultBench bench = new FaultBench(folder, FaultBench.Wire.IN_PROCESS).ready()) {
            bench.fault(new WireFault.FrozenValues(new Strikes(3, 20, WireFault.WITHOUT_END)));
            assertThatThrownBy(() -> bench.axis.moveBy(Quantity.parse("3 rev"), MoveOptions.DEFAULT))
                    .isInstanceOf(AxisUnreachableException.class)
                    .hasMessageContainingAll("stood at", "stale");
            assertThat(bench.stops.get(0).ordered()).isTrue();
            assertThat(bench.stops.get(0).standstill()).isFalse();
            assertThat(bench.stops.get(0).detail()).contains("stale values", "emergency stop");
            assertThat(bench.simulated.shaftSpeed())
                    .as("the stop was carried out all the same")
                    .isZero();
        }
    }

    @Test
    void frozenValuesAtTheEndOfAHoldAreNoStandstill() throws Exception {
        try (FaultBench bench = new FaultBench(folder, FaultBench.Wire.IN_PROCESS).ready()) {
            bench.onSample = () -> {
                if (bench.sightings.size() == 60) {
                    bench.fault(new WireFault.FrozenValues(new Strikes(3, 0, WireFault.WITHOUT_END)));
                }
            };
            assertThatThrownBy(() -> bench.axis.holdSpeed(
                            Quantity.parse("120 rpm"), Duration.ofMillis(400), MoveOptions.DEFAULT))
                    .isInstanceOf(AxisUnreachableException.class)
                    .hasMessageContaining("stale");
        }
    }

    @Test
    void tornWordsEndAMotionAtTheFirstTornSample() throws Exception {
        try (FaultBench bench = new FaultBench(folder, FaultBench.Wire.IN_PROCESS).ready()) {
            bench.fault(new WireFault.TornWords(Strikes.FROM_NOW_ON));
            assertThatThrownBy(() -> bench.axis.moveBy(Quantity.parse("3 rev"), MoveOptions.DEFAULT))
                    .isInstanceOf(AxisUnreachableException.class)
                    .hasMessageContainingAll("jumped", "two words of its position");
            assertThat(bench.sightings.stream().filter(FaultBench.Sighting::isWrong))
                    .as("the torn sample itself is the last")
                    .hasSizeLessThanOrEqualTo(1);
        }
    }

    @Test
    void aFaultThatTheDriveAnswersIsToldWithItsCode() throws Exception {
        try (FaultBench bench = new FaultBench(folder, FaultBench.Wire.IN_PROCESS).ready()) {
            bench.fault(new WireFault.ExceptionReply(new Strikes(16, 1, 1), 4));
            assertThatThrownBy(() -> bench.axis.moveBy(Quantity.parse("1 rev"), MoveOptions.DEFAULT))
                    .isInstanceOf(DriveTrippedException.class)
                    .hasMessageContaining("exception 04");
        }
    }
}
