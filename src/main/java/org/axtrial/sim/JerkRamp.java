package org.axtrial.sim;

/**
 * The shortest change from one speed and acceleration to a speed that is then kept, within a limit of acceleration and
 * jerk: acceleration goes to a peak, stays there if it is the limit, and goes back to zero.
 *
 * <p>With the peak p, the jerk j and the change counted in its own direction, v₁ − v₀ = (p² − a₀²)/2j + p²/2j, from
 * which p follows; where p would be above the limit a phase at the limit makes up for it. Source: integration of a
 * constant jerk; from rest to v it lasts v/a + a/j, the known time of the S-curve.
 *
 * <p>Units as the caller's, in seconds. Solving allocates nothing.
 */
final class JerkRamp {

    private double startSpeed;
    private double startAcceleration;
    private double peak;
    private double firstJerk;
    private double lastJerk;
    private double first;
    private double middle;
    private double last;

    /**
     * Solves for a change of speed.
     *
     * @param speed where it starts
     * @param acceleration with which it starts
     * @param wanted speed at its end, where the acceleration is zero
     * @param limit of the acceleration, positive; a start above it is brought down to it
     * @param jerk positive
     */
    void solve(double speed, double acceleration, double wanted, double limit, double jerk) {
        startSpeed = speed;
        startAcceleration = acceleration;
        double way = wanted < speedAtZeroAcceleration(speed, acceleration, jerk) ? -1 : 1;
        double start = way * acceleration;
        double change = way * (wanted - speed);
        double free = Math.sqrt(Math.max(0, jerk * change + start * start / 2));
        double top = Math.max(free, start);
        middle = 0;
        if (top > limit) {
            top = limit;
            double gained = Math.abs(top - start) / jerk * (start + top) / 2 + top * top / (2 * jerk);
            middle = Math.max(0, (change - gained) / top);
        }
        peak = way * top;
        first = Math.abs(top - start) / jerk;
        firstJerk = start > top ? -way * jerk : way * jerk;
        last = top / jerk;
        lastJerk = -way * jerk;
    }

    /** The speed that is left when the acceleration is brought to zero at once. */
    static double speedAtZeroAcceleration(double speed, double acceleration, double jerk) {
        return speed + acceleration * Math.abs(acceleration) / (2 * jerk);
    }

    /** The way travelled meanwhile. */
    double distance() {
        double way = (startSpeed + (startAcceleration / 2 + firstJerk * first / 6) * first) * first;
        double speed = startSpeed + (startAcceleration + firstJerk * first / 2) * first;
        way += (speed + peak * middle / 2) * middle;
        speed += peak * middle;
        return way + (speed + (peak / 2 + lastJerk * last / 6) * last) * last;
    }

    /** Acceleration between the two changes. */
    double peak() {
        return peak;
    }

    double firstJerk() {
        return firstJerk;
    }

    double lastJerk() {
        return lastJerk;
    }

    /** Duration of the change from the first acceleration to the peak. */
    double first() {
        return first;
    }

    /** Duration at the peak. */
    double middle() {
        return middle;
    }

    /** Duration of the change from the peak to zero. */
    double last() {
        return last;
    }
}
