package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import org.axtrial.axis.Axis;
import org.axtrial.axis.AxisChannels;
import org.axtrial.axis.Motion;
import org.axtrial.axis.MoveOptions;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

@Timeout(60)
class RigTest {

    private static final Path DEMO = Path.of("test-scripts/demo/site.yaml");

    @ParameterizedTest
    @EnumSource(
            value = How.class,
            names = {"SIMULATED", "REHEARSAL"})
    void movesEveryAxisOfTheDemoByARevolution(How how) throws Exception {
        try (Rig rig = Rig.open(SiteFile.load(DEMO), how)) {
            for (Axis axis : rig.axes()) {
                axis.beginTrial();
                axis.enable();

                Motion motion = axis.moveBy(Quantity.parse("1 rev"), MoveOptions.DEFAULT);

                Trace trace = motion.trace();
                double travelled = trace.value(AxisChannels.POSITION, trace.size() - 1) - motion.startPosition();
                double revolution = axis.setup()
                        .scale()
                        .convert(1, Unit.REVOLUTION, axis.setup().unit());
                assertThat(travelled).as(axis.setup().name()).isEqualTo(revolution, within(revolution * 1e-3));
                assertThat(axis.endTrial().standstill()).isTrue();
            }
        }
    }

    @Test
    void repeatsARehearsalToTheBit() throws Exception {
        List<double[]> first = rehearse();
        List<double[]> second = rehearse();

        for (int i = 0; i < first.size(); i++) {
            assertThat(Arrays.equals(first.get(i), second.get(i)))
                    .as("column " + i)
                    .isTrue();
        }
    }

    private static List<double[]> rehearse() throws Exception {
        try (Rig rig = Rig.open(SiteFile.load(DEMO), How.REHEARSAL)) {
            Axis axis = rig.axes().get(2);
            axis.beginTrial();
            axis.enable();
            Trace trace =
                    axis.moveBy(Quantity.parse("5 mm"), MoveOptions.DEFAULT).trace();
            return List.of(
                    trace.times(),
                    trace.values(AxisChannels.POSITION),
                    trace.values(AxisChannels.SPEED),
                    trace.values(AxisChannels.TORQUE));
        }
    }
}
