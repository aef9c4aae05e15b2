package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.List;
import java.util.stream.IntStream;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.sim.WireFault;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** How often and where the axes of the demonstration are served. */
@Timeout(60)
class ServingPlanTest {

    private static final String LOCAL = "127.0.0.1";

    private Site site;

    @BeforeEach
    void load() throws SiteProblemsException {
        site = SiteFile.load(Path.of("test-scripts/demo/site.yaml"));
    }

    @Test
    void onceIsAsTheSiteSays() throws RigException {
        try (SimulatedSite served = SimulatedSite.start(site, LOCAL, 0)) {
            assertThat(served.served())
                    .extracting(SimulatedSite.Served::axis)
                    .containsExactly("TURNTABLE", "INFEED", "LIFT");
            assertThat(served.served()).extracting(SimulatedSite.Served::unit).containsOnly(255);
            assertThat(served.served()).extracting(SimulatedSite.Served::port).doesNotHaveDuplicates();
        }
    }

    @Test
    void copiesHaveNumbersPortsAndSerialNumbersOfTheirOwn() throws RigException {
        try (SimulatedSite served = SimulatedSite.start(site, new ServingPlan(3, false), LOCAL, 0)) {
            assertThat(served.axes())
                    .extracting(ServedAxis::name)
                    .containsExactly(
                            "TURNTABLE-1",
                            "INFEED-1",
                            "LIFT-1",
                            "TURNTABLE-2",
                            "INFEED-2",
                            "LIFT-2",
                            "TURNTABLE-3",
                            "INFEED-3",
                            "LIFT-3");
            assertThat(served.axes()).extracting(ServedAxis::port).doesNotHaveDuplicates();
            assertThat(served.axes())
                    .extracting(axis -> axis.drive().value("serialNumber"))
                    .doesNotHaveDuplicates();
        }
    }

    @Test
    void onePortNumbersTheUnitsInOrder() throws RigException {
        try (SimulatedSite served = SimulatedSite.start(site, new ServingPlan(2, true), LOCAL, 0)) {
            assertThat(served.axes())
                    .extracting(ServedAxis::unit)
                    .containsExactlyElementsOf(
                            IntStream.rangeClosed(1, 6).boxed().toList());
            assertThat(served.axes())
                    .extracting(ServedAxis::port)
                    .containsOnly(served.axes().get(0).port());
        }
    }

    @Test
    void whatCannotBeServedIsToldBeforeAnythingIs() {
        // 83 × 3 = 249 drives; stations have the addresses 1 … 247. MODBUS over Serial Line V1.02, 2.2.
        assertThatThrownBy(() -> SimulatedSite.start(site, new ServingPlan(83, true), LOCAL, 0))
                .hasMessageContainingAll("1 … 247", "249 drives");
        assertThatThrownBy(() -> SimulatedSite.start(site, new ServingPlan(2, false), LOCAL, 65_531))
                .hasMessageContainingAll("6 ports from 65531", "65535");
        assertThatThrownBy(() -> new ServingPlan(0, false)).hasMessageContaining("got 0");
    }

    @Test
    void anAxisTellsAndTurnsInItsOwnUnitsAndSense() throws RigException {
        try (SimulatedSite served = SimulatedSite.start(site, LOCAL, 0)) {
            ServedAxis table = served.axes().get(0);
            ServedAxis lift = served.axes().get(2);
            table.turnByHand(Quantity.parse("30 deg"));
            lift.turnByHand(Quantity.parse("-5 mm"));
            assertThat(table.position().unit()).isEqualTo(Unit.DEGREE);
            // One register count is 360°/(5·65536) = 0.0011°, and 0.001 mm/3 for the lift.
            assertThat(table.position().value()).isCloseTo(30, within(0.0012));
            assertThat(lift.position().value()).isCloseTo(-5, within(0.0004));
            // Five motor turns for one of the table, and growing counts turn it backwards.
            assertThat(table.drive().shaftAngle()).isCloseTo(-Math.toRadians(5 * 30), within(1e-6));
            // Three motor turns for 10 mm.
            assertThat(lift.drive().shaftAngle()).isCloseTo(-1.5 * 2 * Math.PI, within(1e-6));
            assertThatThrownBy(() -> table.turnByHand(Quantity.parse("5 mm"))).hasMessageContaining("rotary");
            assertThat(table.speed()).isEqualTo(new Quantity(-0.0, Unit.DEGREE_PER_SECOND));
        }
    }

    @Test
    void everyKindOfFaultFindsItsWord() {
        assertThat(FaultKind.words()).doesNotHaveDuplicates().hasSize(WireFault.class.getPermittedSubclasses().length);
        for (FaultKind kind : FaultKind.values()) {
            WireFault fault = kind.make(
                    WireFault.Strikes.FROM_NOW_ON,
                    java.util.Optional.of(java.time.Duration.ofMillis(1)),
                    java.util.OptionalInt.of(4),
                    1);
            assertThat(FaultKind.of(fault)).isEqualTo(kind);
            assertThat(FaultKind.of(kind.word())).contains(kind);
        }
        assertThat(List.of(FaultKind.values())).hasSize(18);
    }
}
