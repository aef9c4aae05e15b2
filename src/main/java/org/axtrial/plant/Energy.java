package org.axtrial.plant;

/**
 * Where the energy of a plant went since its start, in J.
 *
 * @param motorWork work of the motor torque on the shaft
 * @param outside energy that came in from outside: turning by hand, a push on the load, a load taken or let go, a parameter
 *     changed
 * @param kinetic of motor and load
 * @param potential of gravity, counterbalance and cogging, from the start
 * @param elastic in train and end stops
 * @param dissipated in friction, brake, gearbox, coupling damping and end stops
 */
public record Energy(
        double motorWork, double outside, double kinetic, double potential, double elastic, double dissipated) {

    /** What came in less what is there or was dissipated; 0 but for the error of integration. */
    public double imbalance() {
        return motorWork + outside - kinetic - potential - elastic - dissipated;
    }
}
