package org.axtrial.sim;

import java.time.Duration;
import java.util.Set;
import org.axtrial.registers.SignalNames;

/** Windows and times by which the drive judges its position. */
final class WatchSettings implements Settings {

    private static final Set<String> NAMES = Set.of(
            SignalNames.FOLLOWING_ERROR_WINDOW,
            SignalNames.FOLLOWING_ERROR_TIME,
            SignalNames.POSITION_WINDOW,
            SignalNames.POSITION_WINDOW_TIME);

    /** A window of so many counts, the highest number of its register, is no supervision (CiA 402). */
    private static final double NO_WINDOW = 0xFFFF_FFFFL;

    private final ShaftScale scale;
    private final Servo servo;
    private double followingError;
    private double followingErrorSeconds;
    private double position;
    private double positionSeconds;

    WatchSettings(ShaftScale scale, Servo servo, SimulationSpec.Loops loops) {
        this.scale = scale;
        this.servo = servo;
        this.followingError = loops.followingErrorTrip();
        this.followingErrorSeconds = Servo.FOLLOWING_ERROR_SECONDS;
        this.position = loops.inPositionCounts();
        this.positionSeconds = loops.inPositionTime().toNanos() * 1e-9;
        apply();
    }

    @Override
    public boolean has(String name) {
        return NAMES.contains(name);
    }

    @Override
    public double start(String name) {
        return switch (name) {
            case SignalNames.FOLLOWING_ERROR_WINDOW -> followingError;
            case SignalNames.FOLLOWING_ERROR_TIME -> followingErrorSeconds / scale.factor(name);
            case SignalNames.POSITION_WINDOW -> position;
            case SignalNames.POSITION_WINDOW_TIME -> positionSeconds / scale.factor(name);
            default -> throw Settings.foreign(name);
        };
    }

    @Override
    public boolean accept(String name, double value) {
        double scaled = value * scale.factor(name);
        if (!(scaled >= 0)) {
            return false;
        }
        switch (name) {
            case SignalNames.FOLLOWING_ERROR_WINDOW -> followingError = scaled;
            case SignalNames.FOLLOWING_ERROR_TIME -> followingErrorSeconds = scaled;
            case SignalNames.POSITION_WINDOW -> position = scaled;
            case SignalNames.POSITION_WINDOW_TIME -> positionSeconds = scaled;
            default -> throw Settings.foreign(name);
        }
        apply();
        return true;
    }

    private void apply() {
        servo.watchPosition(position, time(positionSeconds));
        servo.watchFollowing(
                followingError >= NO_WINDOW ? Double.POSITIVE_INFINITY : followingError, time(followingErrorSeconds));
    }

    private static Duration time(double seconds) {
        return Duration.ofNanos(Math.round(seconds * 1e9));
    }
}
