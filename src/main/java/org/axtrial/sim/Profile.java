package org.axtrial.sim;

/**
 * The drive's set-point generator: moves, ramps to a speed, ramps to rest; each may replace a running one and goes on
 * from its position and speed.
 *
 * <p>Without a jerk limit a profile is a few phases of constant acceleration: a move lasts S/v + v/a (trapezoid) or
 * 2·√(S/a) (triangle). With one it is up to seven phases of constant jerk: S/v + v/a + a/j where speed and acceleration
 * are reached, 4·∛(S/2j) where neither is. A jerk-limited order goes on from the acceleration of the running one as
 * well; an order without jerk limit starts its ramp at once. Phases are evaluated in closed form at every step, so that
 * a move ends on its target without any rounding left over.
 *
 * <p>Positions are register counts since the simulation started, times are seconds.
 */
final class Profile {

    private static final int MOST_PHASES = 7;
    private static final int HALVINGS = 100;
    private static final double SIXTH = 1 / 6.0;
    /** A stop that must end on a whole count brakes down to so many times softer. */
    private static final double SOFTEST = 0.25;
    /** Counts/s. */
    private static final double SLOWEST_CREEP = 100;

    private final double step;
    private final double[] from = new double[MOST_PHASES];
    private final double[] speedAt = new double[MOST_PHASES];
    private final double[] accelerationAt = new double[MOST_PHASES];
    private final double[] jerkIn = new double[MOST_PHASES];
    private final JerkRamp entry = new JerkRamp();
    private final JerkRamp exit = new JerkRamp();
    private final double[] begin = new double[MOST_PHASES];
    private int phases;
    private int phase;
    private double end;
    private double endPosition;
    private double endSpeed;
    private double target;
    private double jerk = Double.POSITIVE_INFINITY;
    private boolean endless;
    private boolean running;
    private boolean braking;
    private long elapsed;

    private double phaseBegin;
    private double phaseUntil;
    private double phaseFrom;
    private double phaseSpeed;
    private double phaseAcceleration;
    private double phaseJerk;

    private double position;
    private double speed;
    private double acceleration;

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

    /** Demand acceleration in counts/s². */
    double acceleration() {
        return acceleration;
    }

    /** Limits the jerk of the orders that follow, in counts/s³; infinite for ramps without such a limit. */
    void limitJerk(double most) {
        jerk = most;
    }

    /** Where the demand comes to rest; NaN while it does not. */
    double target() {
        return target;
    }

    /** Whether the demand still moves. */
    boolean running() {
        return running;
    }

    /** Whether the demand runs down a ramp to rest that began at once. */
    boolean braking() {
        return running && braking;
    }

    /** Whether the demand has come to the speed that it keeps, rest included. */
    boolean ramped() {
        return !running || (endless && phase == phases - 1);
    }

    /** Takes over a shaft at that position and speed without ordering anything. */
    void follow(double nowPosition, double nowSpeed) {
        position = nowPosition;
        speed = nowSpeed;
        acceleration = 0;
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
            acceleration = 0;
            running = false;
            return;
        }
        while (now >= phaseUntil) {
            // Before the first step none is at hand.
            if (phaseUntil != Double.NEGATIVE_INFINITY) {
                phase++;
            }
            takePhase();
        }
        double since = now - phaseBegin;
        double j = phaseJerk;
        acceleration = phaseAcceleration + j * since;
        speed = phaseSpeed + (phaseAcceleration + 0.5 * j * since) * since;
        position = phaseFrom + (phaseSpeed + (0.5 * phaseAcceleration + j * since * SIXTH) * since) * since;
    }

    /** Keeps the phase at hand, because every step works with it. */
    private void takePhase() {
        phaseBegin = begin[phase];
        phaseUntil = phase + 1 < phases ? begin[phase + 1] : Double.POSITIVE_INFINITY;
        phaseFrom = from[phase];
        phaseSpeed = speedAt[phase];
        phaseAcceleration = accelerationAt[phase];
        phaseJerk = jerkIn[phase];
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
        if (jerk < Double.POSITIVE_INFINITY) {
            moveSmoothly(toPosition, topSpeed, accelerate, decelerate);
        } else {
            moveByTrapezoid(toPosition, topSpeed, accelerate, decelerate);
        }
    }

    private void moveByTrapezoid(double toPosition, double topSpeed, double accelerate, double decelerate) {
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
        double first = Math.max(0, endSpeed * way);
        double peak = Math.sqrt(
                (2 * accelerate * decelerate * left + decelerate * first * first) / (accelerate + decelerate));
        double top = Math.max(first, Math.min(topSpeed, peak));
        add((top - first) / accelerate, way * accelerate);
        double cruise = left - (top * top - first * first) / (2 * accelerate) - top * top / (2 * decelerate);
        if (top > 0) {
            add(Math.max(0, cruise) / top, 0);
            add(top / decelerate, -way * decelerate);
        }
        target = toPosition;
        endless = false;
    }

    /**
     * A ramp to a top speed, a way at that speed and a ramp to rest. The way grows with the top speed, which is
     * therefore found by halving where the distance is too short for the one asked for.
     */
    private void moveSmoothly(double toPosition, double topSpeed, double accelerate, double decelerate) {
        double distance = toPosition - position;
        exit.solve(speed, acceleration, 0, decelerate, jerk);
        double way = distance < exit.distance() ? -1 : 1;
        double low = 0;
        double high = topSpeed;
        double top = topSpeed;
        double left = distance * way - wayWithTop(top, way, accelerate, decelerate);
        if (left < 0) {
            for (int i = 0; i < HALVINGS; i++) {
                top = 0.5 * (low + high);
                if (wayWithTop(top, way, accelerate, decelerate) > distance * way) {
                    high = top;
                } else {
                    low = top;
                }
            }
            top = low;
            left = Math.max(0, distance * way - wayWithTop(top, way, accelerate, decelerate));
        }
        start();
        add(entry);
        if (top > 0) {
            add(left / top, 0);
            add(exit);
        }
        target = toPosition;
        endless = false;
    }

    /** Solves both ramps of a move in the given direction; the way that they take, counted in it. */
    private double wayWithTop(double top, double way, double accelerate, double decelerate) {
        entry.solve(speed, acceleration, way * top, rateTo(way * top, accelerate, decelerate), jerk);
        exit.solve(way * top, 0, 0, decelerate, jerk);
        return way * (entry.distance() + exit.distance());
    }

    /** The limit for a change of speed; one that turns round keeps the lower of both. */
    private double rateTo(double wanted, double accelerate, double decelerate) {
        if (speed * wanted < 0) {
            return Math.min(accelerate, decelerate);
        }
        double left = JerkRamp.speedAtZeroAcceleration(speed, acceleration, jerk);
        return Math.abs(wanted) < Math.abs(left) ? decelerate : accelerate;
    }

    /** Orders a ramp to a speed in counts/s that is then kept; 0 is {@link #stop}. */
    void keepSpeed(double wanted, double accelerate, double decelerate) {
        if (wanted == 0) {
            stop(decelerate);
            return;
        }
        if (jerk < Double.POSITIVE_INFINITY) {
            entry.solve(speed, acceleration, wanted, rateTo(wanted, accelerate, decelerate), jerk);
            start();
            add(entry);
        } else {
            rampTo(wanted, accelerate, decelerate);
        }
        endSpeed = wanted;
        add(Double.POSITIVE_INFINITY, 0);
        target = Double.NaN;
        endless = true;
    }

    private void rampTo(double wanted, double accelerate, double decelerate) {
        start();
        if (speed * wanted < 0) {
            add(Math.abs(speed) / decelerate, -Math.signum(speed) * decelerate);
        }
        double rate = Math.abs(wanted) < Math.abs(endSpeed) ? decelerate : accelerate;
        add(Math.abs(wanted - endSpeed) / rate, Math.signum(wanted - endSpeed) * rate);
    }

    /**
     * Orders a ramp to rest. The rate, and the jerk with it, is changed by as much as it takes to end on a whole count,
     * because a position loop on whole counts would hunt about anything else.
     */
    void stop(double decelerate) {
        if (jerk < Double.POSITIVE_INFINITY && (speed != 0 || acceleration != 0)) {
            stopSmoothly(decelerate);
        } else {
            stopAtOnce(decelerate);
        }
    }

    private void stopSmoothly(double decelerate) {
        double soonest = position + stopping(decelerate, 1);
        double softest = position + stopping(decelerate, SOFTEST);
        boolean further = softest > soonest;
        double rest = further ? Math.ceil(soonest) : Math.floor(soonest);
        if (further ? softest < rest : softest > rest) {
            // No softer stop ends on a whole count, as when the brake is almost off already: creep to the next one.
            double left = JerkRamp.speedAtZeroAcceleration(speed, acceleration, jerk);
            double creep = Math.max(SLOWEST_CREEP, Math.max(Math.abs(speed), Math.abs(left)));
            moveSmoothly(Math.rint(soonest), creep, decelerate, decelerate);
            return;
        }
        double soft = SOFTEST;
        double hard = 1;
        for (int i = 0; i < HALVINGS; i++) {
            double share = 0.5 * (soft + hard);
            double end = position + stopping(decelerate, share);
            if (further ? end > rest : end < rest) {
                soft = share;
            } else {
                hard = share;
            }
        }
        start();
        add(exit);
        target = rest;
        endless = false;
    }

    /** Solves a stop with a share of the rate and the jerk; the way that it takes. */
    private double stopping(double decelerate, double share) {
        exit.solve(speed, acceleration, 0, share * decelerate, share * jerk);
        return exit.distance();
    }

    /** Orders a ramp to rest that begins at once, whatever the jerk limit: a quick stop is to take little way. */
    void stopAtOnce(double decelerate) {
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
        braking = true;
    }

    private void start() {
        phases = 0;
        phase = 0;
        phaseUntil = Double.NEGATIVE_INFINITY;
        end = 0;
        endPosition = position;
        endSpeed = speed;
        elapsed = 0;
        running = true;
        braking = false;
    }

    private void add(JerkRamp ramp) {
        add(ramp.first(), ramp.peak() - ramp.firstJerk() * ramp.first(), ramp.firstJerk());
        add(ramp.middle(), ramp.peak(), 0);
        add(ramp.last(), ramp.peak(), ramp.lastJerk());
    }

    private void add(double duration, double rate) {
        add(duration, rate, 0);
    }

    private void add(double duration, double rate, double change) {
        if (!(duration > 0)) {
            return;
        }
        begin[phases] = end;
        from[phases] = endPosition;
        speedAt[phases] = endSpeed;
        accelerationAt[phases] = rate;
        jerkIn[phases] = change;
        phases++;
        end += duration;
        if (duration < Double.POSITIVE_INFINITY) {
            endPosition += (endSpeed + (0.5 * rate + change * duration / 6) * duration) * duration;
            endSpeed += (rate + 0.5 * change * duration) * duration;
        }
    }
}
