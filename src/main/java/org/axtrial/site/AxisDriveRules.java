package org.axtrial.site;

import java.util.Optional;
import java.util.Set;
import org.axtrial.axis.AxisSetup;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.sim.SimulationSpec;

/** What an axis, its drive and its simulated motor must agree on. */
final class AxisDriveRules {

    private static final Set<String> MOTION = Set.of(
            SignalNames.SPEED,
            SignalNames.PROFILE_SPEED,
            SignalNames.PROFILE_ACCELERATION,
            SignalNames.PROFILE_DECELERATION,
            SignalNames.TARGET_SPEED,
            SignalNames.SPEED_COMMAND);

    /** So that one lost and one late sample in a row do not stop the axis (common practice, no source). */
    private static final int SAMPLES_PER_WATCHDOG = 3;

    private final YamlMap map;
    private final String name;
    private final boolean linear;

    AxisDriveRules(YamlMap map, String name, boolean linear) {
        this.map = map;
        this.name = name;
        this.linear = linear;
    }

    void check(
            Optional<AxisScale> scale,
            Optional<AxisSetup> setup,
            Optional<DriveDescription> drive,
            Optional<SimulationSpec> simulation) {
        drive.ifPresent(this::units);
        if (setup.isPresent()) {
            drive.ifPresent(description -> watchdog(setup.get(), description));
            simulation.ifPresent(spec -> motorSpeed(scale.orElseThrow(), setup.get(), spec));
        }
    }

    private void units(DriveDescription drive) {
        for (SignalSpec spec : drive.signals().values()) {
            if (!linear && MOTION.contains(spec.name()) && Sense.isLinear(spec.unit())) {
                map.problem(
                        "drive",
                        "the drive tells " + spec.name() + " in " + spec.unit().symbol() + ", but axis " + name
                                + " is rotary: give scale.lead if it travels, or correct the unit in the description");
                return;
            }
        }
    }

    private void watchdog(AxisSetup setup, DriveDescription drive) {
        drive.watchdog()
                .filter(dog -> dog.timeout().compareTo(setup.samplePeriod().multipliedBy(SAMPLES_PER_WATCHDOG)) < 0)
                .ifPresent(
                        dog -> map.problem(
                                "samplePeriod",
                                "expected at most a third of the watchdog of the drive, "
                                        + QuantityReader.print(dog.timeout().dividedBy(SAMPLES_PER_WATCHDOG)) + " of "
                                        + QuantityReader.print(dog.timeout()) + ", found \""
                                        + QuantityReader.print(setup.samplePeriod())
                                        + "\": sample more often, or set a longer watchdog in the drive and tell it in the description"));
    }

    private void motorSpeed(AxisScale scale, AxisSetup setup, SimulationSpec simulation) {
        Quantity speed = setup.envelope().speed();
        double shaft = Math.abs(scale.toDrive(speed.value(), speed.unit(), Unit.REVOLUTION_PER_MINUTE));
        if (shaft > simulation.motor().maxSpeed() * (1 + 1e-9)) {
            map.map("envelope")
                    .problem(
                            "speed",
                            "\"" + speed + "\" needs " + Math.round(shaft)
                                    + " rpm at the motor shaft, but simulate.motor.maxSpeed is "
                                    + Math.round(simulation.motor().maxSpeed()) + " rpm");
        }
    }
}
