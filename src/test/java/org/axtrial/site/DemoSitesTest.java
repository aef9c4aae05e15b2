package org.axtrial.site;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import org.axtrial.axis.AxisSetup.AfterTrial;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.WordOrder;
import org.axtrial.sim.SimulationSpec.LinearLoad;
import org.axtrial.sim.SimulationSpec.RotaryLoad;
import org.junit.jupiter.api.Test;

class DemoSitesTest {

    private static final Path DEMO = Path.of("test-scripts/demo/site.yaml");
    private static final Path FAULTS = Path.of("test-scripts/demo-faults/site.yaml");

    @Test
    void theDemoLoadsWithItsThreeAxes() throws SiteProblemsException {
        Site site = SiteFile.load(DEMO);

        assertThat(site.axes()).extracting(SiteAxis::name).containsExactly("TURNTABLE", "INFEED", "LIFT");
        assertThat(site.job().keySet())
                .containsExactly("id", "title", "customer", "contractor", "site", "contract", "specification", "plan");
        assertThat(site.driveFiles())
                .containsExactly(
                        Path.of("test-scripts/drives/type-d.yaml"), Path.of("test-scripts/drives/type-c.yaml"));
        assertThat(site.axes()).allSatisfy(axis -> assertThat(axis.simulation()).isPresent());
    }

    @Test
    void theTurntableIsRotaryDirectAndLowWordFirst() throws SiteProblemsException {
        SiteAxis axis = SiteFile.load(DEMO).axes().get(0);

        assertThat(axis.drive().style()).isEqualTo(CommandStyle.DIRECT);
        assertThat(axis.drive().signal("position").wordOrder()).isEqualTo(WordOrder.LOW_FIRST);
        assertThat(axis.drive().signal("position").table()).isEqualTo(RegisterTable.INPUT);
        assertThat(axis.drive().signal("position").address()).isZero();
        assertThat(axis.drive().signal("relativeMove").address()).isEqualTo(6);
        assertThat(axis.setup().scale().countsPerLoadRevolution()).isEqualTo(5 * 65536.0);
        assertThat(axis.setup().scale().direction()).isEqualTo(-1);
        assertThat(axis.simulation().orElseThrow().load()).isEqualTo(new RotaryLoad(0.05, 5, 0, 0.0005, 0.05));
        assertThat(axis.endpoint().unit()).isEqualTo(255);
    }

    @Test
    void oneRegisterCountOfTheInfeedIsAMicrometre() throws SiteProblemsException {
        SiteAxis axis = SiteFile.load(DEMO).axes().get(1);

        // Source: arithmetic, 131072 x 625 / 8192 = 10000 counts on a 10 mm lead
        assertThat(axis.setup()
                        .scale()
                        .convert(Quantity.of(1, Unit.COUNT), Unit.MICROMETRE)
                        .value())
                .isEqualTo(1.0);
    }

    @Test
    void theLiftIsHeldAfterATrialAndStandsWithoutTorque() throws SiteProblemsException {
        SiteAxis axis = SiteFile.load(DEMO).axes().get(2);

        assertThat(axis.setup().afterTrial()).isEqualTo(AfterTrial.HOLD);
        LinearLoad load = (LinearLoad) axis.simulation().orElseThrow().load();
        assertThat(load.gravityTorque()).isNegative();
        assertThat(Math.abs(load.gravityTorque())).isLessThan(load.coulomb());
    }

    @Test
    void theSimulatedGearOfTheLabellerIsNotThatOfTheSite() throws SiteProblemsException {
        Site site = SiteFile.load(FAULTS);
        SiteAxis labeller = site.axes().get(0);

        double site65536 = labeller.setup().scale().countsPerMotorRevolution();
        double simulated = labeller.simulation().orElseThrow().feedback().countsPerMotorRevolution();
        assertThat(simulated / site65536).isEqualTo(0.9);
        assertThat(labeller.drive().signal("speed").unit()).isEqualTo(Unit.REVOLUTION_PER_MINUTE);
        assertThat(site.axes().get(1).setup().samplePeriod()).hasMillis(50);
    }
}
