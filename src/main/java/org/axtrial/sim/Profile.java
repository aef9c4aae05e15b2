package org.axtrial.sim;

/**
 * The drive's set-point generator: trapezoid and triangle moves, ramps to a speed, ramps to rest; each may replace a
 * running one and goes on from its position and speed.
 *
 * <p>A profile is a few phases of constant acceleration, evaluated in closed form at every step, so that a move lasts
 * S/v + v/a (trapezoid) or 2·√(S/a) (triangle) and ends on its target without any rounding left over.
 *
 * <p>Positions are register counts since the simulation started, times are seconds.
 */
final class Profile {

    private static final int MOST_PHASES = 4;

    private final double step;
    private final double[] from = new double[MOST_PHASES];
    private final double[] speedAt = new double[MOST_PHASES];
    private final double[] acceleration = new double[MOST_PHASES];
    private final double[] begin = new double[MOST_PHASES];
    private int phases;
    private int phase;
    private double end;
    private double endPosition;
    private double endSpeed;
    private double target;
    private boolean endless;
    private boolean running;
    private long elapsed;

    private double position;
    private double speed;

    /** A profile at rest at zero; {@code step} in s. */
    Profile(double step) {
        this.step = step;
    }

    double position() {
        return position;
    }

    /** Demand speed in counts/s. */
    double speed() {
        return speed;
    }

    /** Where the demand comes to rest; NaN while it does not. */
    double target() {
        return target;
    }

    /** Whether the demand still moves. */
    boolean running() {
        return running;
    }

    /** Whether the demand has come to the speed that it keeps, rest included. */
    boolean ramped() {
        return !running || (endless && phase == phases - 1);
    }

    /** Takes over a shaft at that position and speed without ordering anything. */
    void follow(double nowPosition, double nowSpeed) {
        position = nowPosition;
        speed = nowSpeed;
        target = nowPosition;
        running = false;
        endless = false;
    }

    /** Lets one step pass. */
    void step() {
        if (!running) {
            return;
        }
        elapsed++;
        double now = elapsed * step;
        // A rounding of the phase times must not cost a whole step.
        if (!endless && now >= end - 1e-6 * step) {
            position = target;
            speed = 0;
            running = false;
            return;
        }
        while (phase + 1 < phases && now >= begin[phase + 1]) {
            phase++;
        }
        double since = now - begin[phase];
        speed = speedAt[phase] + acceleration[phase] * since;
        position = from[phase] + (speedAt[phase] + 0.5 * acceleration[phase] * since) * since;
    }

    /**
     * Orders a move to a position, from wherever and however fast the demand is now.
     *
     * @param toPosition whole counts
     * @param topSpeed counts/s, positive
     * @param accelerate counts/s², positive
     * @param decelerate counts/s², positive
     */
    void move(double toPosition, double topSpeed, double accelerate, double decelerate) {
        double distance = toPosition - position;
        double braking = speed * Math.abs(speed) / (2 * decelerate);
        double way = distance - braking < 0 ? -1 : 1;
        start();
        if (speed * way < 0) {
            add(-speed * way / decelerate, way * decelerate);
        } else if (speed * way > topSpeed) {
            add((speed * way - topSpeed) / decelerate, -way * decelerate);
        }
        double left = (toPosition - endPosition) * way;
        double entry = Math.max(0, endSpeed * way);
        double peak = Math.sqrt(
                (2 * accelerate * decelerate * left + decelerate * entry * entry) / (accelerate + decelerate));
        double top = Math.max(entry, Math.min(topSpeed, peak));
        add((top - entry) / accelerate, way * accelerate);
        double cruise = left - (top * top - entry * entry) / (2 * accelerate) - top * top / (2 * decelerate);
        if (top > 0) {
            add(Math.max(0, cruise) / top, 0);
            add(top / decelerate, -way * decelerate);
        }
        target = toPosition;
        endless = false;
    }

    /** Orders a ramp to a speed in counts/s that is then kept; 0 is {@link #stop}. */
    void keepSpeed(double wanted, double accelerate, double decelerate) {
        if (wanted == 0) {
            stop(decelerate);
            return;
        }
        start();
        if (speed * wanted < 0) {
            add(Math.abs(speed) / decelerate, -Math.signum(speed) * decelerate);
        }
        double rate = Math.abs(wanted) < Math.abs(endSpeed) ? decelerate : accelerate;
        add(Math.abs(wanted - endSpeed) / rate, Math.signum(wanted - endSpeed) * rate);
        endSpeed = wanted;
        add(Double.POSITIVE_INFINITY, 0);
        target = Double.NaN;
        endless = true;
    }

    /**
     * Orders a ramp to rest. The rate is changed by as much as it takes to end on a whole count, because a position
     * loop on whole counts would hunt about anything else.
     */
    void stop(double decelerate) {
        double rest = Math.rint(position + speed * Math.abs(speed) / (2 * decelerate));
        double distance = rest - position;
        if (!(distance * speed > 0) || Math.abs(distance) < 1) {
            follow(Math.rint(position), 0);
            return;
        }
        double rate = speed * speed / (2 * Math.abs(distance));
        start();
        add(Math.abs(speed) / rate, -Math.signum(speed) * rate);
        target = rest;
        endless = false;
    }

    private void start() {
        phases = 0;
        phase = 0;
        end = 0;
        endPosition = position;
        endSpeed = speed;
        elapsed = 0;
        running = true;
    }

    private void add(double duration, double rate) {
        if (!(duration > 0)) {
            return;
        }
        begin[phases] = end;
        from[phases] = endPosition;
        speedAt[phases] = endSpeed;
        acceleration[phases] = rate;
        phases++;
        end += duration;
        if (duration < Double.POSITIVE_INFINITY) {
            endPosition += (endSpeed + 0.5 * rate * duration) * duration;
            endSpeed += rate * duration;
        }
    }
}
