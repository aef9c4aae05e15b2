package org.axtrial.axis;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.DrivePeak;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.LatchedPeak;
import org.axtrial.trace.Trace;

/**
 * What the drive catches of one motion between the samples: cleared just before its command, read after its last sample. A
 * drive that latches nothing is sent nothing.
 */
final class PeakLatch {

    private final AxisSetup setup;
    private final Drive drive;
    private final Map<DrivePeak.Of, Double> cleared = new EnumMap<>(DrivePeak.Of.class);

    private PeakLatch(AxisSetup setup, Drive drive) {
        this.setup = setup;
        this.drive = drive;
    }

    /**
     * Clears the latches. They are read at once, because only a latch that has grown since then, or agrees with the samples,
     * is known to have been cleared.
     */
    static PeakLatch cleared(AxisSetup setup, Drive drive) throws DriveException {
        PeakLatch latch = new PeakLatch(setup, drive);
        drive.clearPeaks();
        for (DrivePeak peak : drive.peaks()) {
            latch.cleared.put(peak.of(), peak.size());
        }
        return latch;
    }

    /** The samples of the motion with what the drive has latched since. */
    Trace addTo(Trace trace) throws DriveException {
        List<LatchedPeak> peaks = new ArrayList<>();
        for (DrivePeak peak : drive.peaks()) {
            peaks.add(latched(peak, cleared.getOrDefault(peak.of(), 0.0)));
        }
        return trace.withLatched(peaks);
    }

    private LatchedPeak latched(DrivePeak peak, double before) {
        return switch (peak.of()) {
            case FOLLOWING_ERROR -> {
                double count = Math.abs(setup.scale().convert(1, peak.unit(), setup.unit()));
                yield latched(AxisChannels.FOLLOWING_ERROR, setup.unit(), count, peak, before);
            }
            case TORQUE ->
                latched(AxisChannels.TORQUE, Unit.PERCENT, peak.unit().convert(1, Unit.PERCENT), peak, before);
        };
    }

    private static LatchedPeak latched(String channel, Unit unit, double factor, DrivePeak peak, double before) {
        return new LatchedPeak(
                new Channel(channel, unit, peak.quantum() * factor), before * factor, peak.size() * factor);
    }
}
