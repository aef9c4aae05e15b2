package org.axtrial.sim;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.axtrial.registers.SignalNames;

/**
 * What a drive keeps when it has no supply: settings and parameters as they were when they were saved last, at first as
 * the drive was made. Commands are never kept.
 */
final class SavedSettings {

    private static final Set<String> COMMANDS = Set.of(
            SignalNames.CONTROL,
            SignalNames.MODE,
            SignalNames.TARGET_POSITION,
            SignalNames.TARGET_SPEED,
            SignalNames.TARGET_TORQUE,
            SignalNames.COMMAND,
            SignalNames.RELATIVE_MOVE,
            SignalNames.ABSOLUTE_MOVE,
            SignalNames.SPEED_COMMAND);

    private final Map<RegisterCell.Held, int[]> first = new HashMap<>();
    private final Map<RegisterCell.Held, int[]> kept = new HashMap<>();

    /** Keeps what the registers hold while the firmware still stands as it was made. */
    SavedSettings(RegisterImage image) {
        for (RegisterCell.Held cell : image.held()) {
            first.put(cell, cell.words().clone());
            kept.put(cell, cell.words().clone());
        }
    }

    /** Keeps what the registers hold now. */
    void save(RegisterImage image) {
        for (RegisterCell.Held cell : image.held()) {
            if (!COMMANDS.contains(cell.spec().name())) {
                kept.put(cell, cell.words().clone());
            }
        }
    }

    /** Lets the registers hold what was kept; gives those of which firmware as it is made has to be told. */
    List<RegisterCell.Held> restore(RegisterImage image) {
        List<RegisterCell.Held> changed = new ArrayList<>();
        for (RegisterCell.Held cell : image.held()) {
            int[] words = kept.get(cell);
            if (words != null) {
                cell.hold(words);
                if (!Arrays.equals(words, first.get(cell))) {
                    changed.add(cell);
                }
            }
        }
        return changed;
    }
}
