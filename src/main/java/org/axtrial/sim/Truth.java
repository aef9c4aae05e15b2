package org.axtrial.sim;

import org.axtrial.plant.BrakeState;
import org.axtrial.plant.Plant;

/**
 * What the mechanics of a simulated axis truly do, for tests and for the instructor of a training. Angles count from the
 * start of the simulation in the sense of the counts and are not wrapped.
 *
 * @param motorAngle rad
 * @param motorSpeed rad/s
 * @param loadAngle rad, referred to the motor shaft: the angle of the load times the gear ratio, or its travel over the
 *     lead times 2π
 * @param loadSpeed rad/s, referred to the motor shaft
 * @param motorTorque N·m
 * @param windingLoad thermal load of the winding; 1 is what rated torque leads to in the end
 * @param windingTripped whether the winding is too hot: set above 1.1, cleared below 1
 * @param brake state of the holding brake
 * @param brakeSlips whether the shaft turns although the brake holds
 */
public record Truth(
        double motorAngle,
        double motorSpeed,
        double loadAngle,
        double loadSpeed,
        double motorTorque,
        double windingLoad,
        boolean windingTripped,
        BrakeState brake,
        boolean brakeSlips) {

    static Truth of(Servo servo) {
        Plant plant = servo.plant();
        return new Truth(
                plant.motorAngle(),
                plant.motorSpeed(),
                plant.loadAngle(),
                plant.loadSpeed(),
                servo.torque(),
                plant.windingLoad(),
                plant.windingTripped(),
                plant.brakeState(),
                plant.brakeSlips());
    }
}
