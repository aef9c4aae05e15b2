package org.axtrial.plant;

/**
 * Efficiency of gearbox or screw. A load torque T, referred without loss, asks T/η of a motor that drives it and gives
 * T·η' to a motor that it drives. Source: screw torque F·L/(2π·η) and back-driving torque F·L·η/(2π), public
 * engineering pages.
 *
 * @param driving η, more than 0, at most 1
 * @param backDriving η', 0 (self-locking) … 1
 */
public record Efficiency(double driving, double backDriving) {

    /** Without loss. */
    public static final Efficiency IDEAL = new Efficiency(1, 1);

    public Efficiency {
        if (!(driving > 0 && driving <= 1)) {
            throw new IllegalArgumentException("efficiency must be more than 0 and at most 1, got " + driving);
        }
        if (!(backDriving >= 0 && backDriving <= 1)) {
            throw new IllegalArgumentException("back-driving efficiency must be 0 … 1, got " + backDriving);
        }
    }
}
