package org.axtrial.sim;

import java.util.List;

/**
 * What the firmware of a drive works with. Servo, inputs, position and index mark outlive a loss of supply, the settings do not.
 *
 * @param settings motion
 * @param homing homing
 * @param limits limit switches and software limits
 * @param options reactions
 * @param groups all groups of settings
 * @param index index mark of the encoder
 * @param longestSearch counts that a homing may travel
 */
record DriveParts(
        Servo servo,
        DigitalInputs inputs,
        PositionRegister position,
        MoveSettings settings,
        HomingSettings homing,
        TravelLimits limits,
        OptionCodes options,
        List<Settings> groups,
        IndexMark index,
        double longestSearch) {

    DriveParts {
        groups = List.copyOf(groups);
    }

    /** Parts with settings as a drive has them that was never told any. */
    static DriveParts fresh(
            SimulationSpec spec,
            ShaftScale scale,
            Servo servo,
            DigitalInputs inputs,
            PositionRegister position,
            IndexMark index) {
        double turn = spec.feedback().countsPerMotorRevolution();
        SimulationSpec.Reference reference = spec.reference();
        double jerk = reference.jerk().isPresent() ? reference.jerk().getAsDouble() * turn : Double.POSITIVE_INFINITY;
        MoveSettings settings = new MoveSettings(scale, servo, jerk);
        HomingSettings homing = new HomingSettings(scale, settings.mostSpeed());
        TravelLimits limits = new TravelLimits(inputs, servo, position, homing);
        OptionCodes options = new OptionCodes();
        WatchSettings watch = new WatchSettings(scale, servo, spec.loops());
        return new DriveParts(
                servo,
                inputs,
                position,
                settings,
                homing,
                limits,
                options,
                List.of(settings, homing, limits, options, watch),
                index,
                reference.longestSearch() * turn);
    }
}
