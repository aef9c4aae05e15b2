package org.axtrial.sim;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Stretches in which nothing can change are passed over without stepping; that must not change a bit of anything. */
class TimeCutTest {

    private static final double TURN = InventedDrives.COUNTS;

    private record Order(int afterMilliseconds, String signal, double value) {}

    /** Every mode, limits, halt, options and faults, each long enough to come to rest in. */
    private static final List<Order> ORDERS = List.of(
            new Order(20, "mode", 6),
            new Order(0, "homingMethod", 7),
            new Order(0, "control", 0x06),
            new Order(10, "control", 0x07),
            new Order(10, "control", 0x0F),
            new Order(500, "control", 0x1F),
            new Order(9000, "control", 0x0F),
            new Order(0, "mode", 1),
            new Order(1000, "targetPosition", 2 * TURN),
            new Order(0, "control", 0x1F),
            new Order(300, "control", 0x11F),
            new Order(2000, "control", 0x0F),
            new Order(3000, "profileType", 3),
            new Order(0, "softwareLimitMin", -TURN),
            new Order(0, "softwareLimitMax", 3 * TURN),
            new Order(0, "targetPosition", 7 * TURN),
            new Order(0, "control", 0x3F),
            new Order(5000, "mode", 3),
            new Order(100, "targetSpeed", -300),
            new Order(5000, "targetSpeed", 0),
            new Order(2000, "softwareLimitMax", -TURN),
            new Order(0, "targetSpeed", 300),
            new Order(5000, "mode", 4),
            new Order(1000, "torqueSlope", 100),
            new Order(0, "targetTorque", -40),
            new Order(4000, "targetTorque", 0),
            new Order(4000, "quickStopOption", 6),
            new Order(0, "control", 0x02),
            new Order(3000, "control", 0x0F),
            new Order(500, "control", 0x07),
            new Order(2000, "control", 0x06),
            new Order(3000, "control", 0x00));

    private static Bench bench() {
        return new Bench(InventedDrives.wholeCia402(), InventedDrives.axis().with(InventedDrives.switches()));
    }

    private static List<Long> observe(Bench bench, long slice) {
        List<Long> seen = new ArrayList<>();
        for (Order order : ORDERS) {
            long until = bench.drive.nanos() + order.afterMilliseconds * 1_000_000L;
            while (bench.drive.nanos() < until) {
                bench.drive.advanceTo(Math.min(until, bench.drive.nanos() + slice));
            }
            seen.add(Double.doubleToRawLongBits(bench.drive.shaftAngle()));
            seen.add(Double.doubleToRawLongBits(bench.drive.shaftSpeed()));
            seen.add(Double.doubleToRawLongBits(bench.drive.torque()));
            seen.add((long) bench.status());
            seen.add((long) bench.read("position"));
            assertThat(bench.write(order.signal, order.value))
                    .as(order.toString())
                    .isEqualTo(Bench.OK);
        }
        return seen;
    }

    @ParameterizedTest
    @ValueSource(longs = {125_000, 3_700_000, 60_000_000_000L})
    void howTimeIsCutChangesNothing(long slice) {
        assertThat(observe(bench(), slice)).isEqualTo(observe(bench(), 1_000_000));
    }

    @Test
    void steppingAtRestChangesNothing() {
        Bench stepped = bench();
        stepped.drive.stepAtRest();
        assertThat(observe(stepped, 1_000_000_000)).isEqualTo(observe(bench(), 1_000_000_000));
    }
}
