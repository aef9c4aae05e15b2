package org.axtrial.axis;

import java.util.ArrayList;
import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Supplier;
import org.axtrial.drive.Drive;
import org.axtrial.drive.DriveException;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/**
 * The parameters that the running trial has changed and what they were before, so that the drive is left as it was
 * found. Used by the thread that works the axis.
 */
final class TestValues {

    private final String axis;
    private final Drive drive;
    private final Supplier<AxisListener> listener;
    private final Map<String, ParameterChange> changed = new LinkedHashMap<>();

    TestValues(String axis, Drive drive, Supplier<AxisListener> listener) {
        this.axis = axis;
        this.drive = drive;
        this.listener = listener;
    }

    /**
     * Writes a parameter. What it was is remembered and told before anything is written, because the write may act even
     * where it fails.
     *
     * @param keep whether it stays after the trial
     * @throws IllegalArgumentException if the unit does not suit, or the drive may not be written so; nothing was sent
     */
    ParameterChange set(String name, Quantity wanted, boolean keep) throws DriveException {
        double written = drive.nearest(name, converted(name, wanted));
        double shown = drive.read(name);
        ParameterChange before = changed.get(name);
        double found = before == null ? shown : before.found();
        ParameterChange change = new ParameterChange(axis, name, drive.unit(name), found, written, keep);
        if (shown == written && before == null) {
            // It stands so already: nothing to write and nothing to put back.
            return change;
        }
        listener.get().parameterChanging(change);
        if (keep) {
            changed.remove(name);
        } else {
            changed.put(name, change);
        }
        drive.write(name, written);
        return change;
    }

    private double converted(String name, Quantity wanted) {
        Unit unit = drive.unit(name);
        if (unit.dimension() != wanted.unit().dimension()) {
            throw new IllegalArgumentException(
                    "parameter " + name + " is in " + unit.symbol() + " and cannot be set in "
                            + wanted.unit().symbol() + "; parameters belong to the drive and take its unit");
        }
        return wanted.in(unit);
    }

    /** Puts everything back, the last change first; tells what happened to each. */
    void putBack() {
        List<ParameterChange> latestFirst = new ArrayList<>(changed.values());
        Collections.reverse(latestFirst);
        for (ParameterChange change : latestFirst) {
            Optional<String> trouble = putBack(change);
            if (trouble.isEmpty()) {
                changed.remove(change.name());
            }
            listener.get().parameterPutBack(change, trouble);
        }
    }

    private Optional<String> putBack(ParameterChange change) {
        try {
            drive.reconnect();
            // The write that changed it may never have acted, and no write goes out that is not needed.
            if (drive.read(change.name()) != change.found()) {
                drive.write(change.name(), change.found());
            }
            return Optional.empty();
        } catch (DriveException | IllegalArgumentException e) {
            return Optional.of(String.valueOf(e.getMessage()));
        }
    }

    /** What still differs from how it was found, though it should not. */
    List<ParameterChange> left() {
        return List.copyOf(changed.values());
    }
}
