package org.axtrial.sim;

import java.util.HashMap;
import java.util.Map;
import java.util.Set;
import org.axtrial.registers.SignalNames;

/**
 * What the drive does on quick stop, shutdown, disable operation, halt, fault and a lost connection (CiA 402 objects
 * 605Ah … 605Eh and 6007h). Codes that ask for a current or voltage limit, or for a maker's own reaction, are refused.
 */
final class OptionCodes implements Settings {

    static final int TORQUE_OFF = 0;
    static final int RAMP = 1;
    static final int QUICK_RAMP = 2;
    static final int RAMP_AND_STAY = 5;
    static final int QUICK_RAMP_AND_STAY = 6;

    static final int NO_ACTION = 0;
    static final int FAULT = 1;
    static final int DISABLE_VOLTAGE = 2;
    static final int QUICK_STOP = 3;

    private static final Map<String, Set<Integer>> KNOWN = Map.of(
            SignalNames.QUICK_STOP_OPTION,
            Set.of(TORQUE_OFF, RAMP, QUICK_RAMP, RAMP_AND_STAY, QUICK_RAMP_AND_STAY),
            SignalNames.SHUTDOWN_OPTION,
            Set.of(TORQUE_OFF, RAMP),
            SignalNames.DISABLE_OPTION,
            Set.of(TORQUE_OFF, RAMP),
            SignalNames.HALT_OPTION,
            Set.of(RAMP, QUICK_RAMP),
            SignalNames.FAULT_REACTION_OPTION,
            Set.of(TORQUE_OFF, RAMP, QUICK_RAMP),
            SignalNames.ABORT_CONNECTION_OPTION,
            Set.of(NO_ACTION, FAULT, DISABLE_VOLTAGE, QUICK_STOP));

    private final Map<String, Integer> codes = new HashMap<>(Map.of(
            SignalNames.QUICK_STOP_OPTION,
            QUICK_RAMP,
            SignalNames.SHUTDOWN_OPTION,
            TORQUE_OFF,
            SignalNames.DISABLE_OPTION,
            RAMP,
            SignalNames.HALT_OPTION,
            RAMP,
            SignalNames.FAULT_REACTION_OPTION,
            QUICK_RAMP,
            SignalNames.ABORT_CONNECTION_OPTION,
            FAULT));

    @Override
    public boolean has(String name) {
        return KNOWN.containsKey(name);
    }

    @Override
    public double start(String name) {
        return code(name);
    }

    @Override
    public boolean accept(String name, double value) {
        Set<Integer> known = KNOWN.get(name);
        if (known == null) {
            throw Settings.foreign(name);
        }
        if (value != Math.rint(value) || !known.contains((int) value)) {
            return false;
        }
        codes.put(name, (int) value);
        return true;
    }

    private int code(String name) {
        Integer code = codes.get(name);
        if (code == null) {
            throw Settings.foreign(name);
        }
        return code;
    }

    int quickStop() {
        return code(SignalNames.QUICK_STOP_OPTION);
    }

    int shutdown() {
        return code(SignalNames.SHUTDOWN_OPTION);
    }

    int disableOperation() {
        return code(SignalNames.DISABLE_OPTION);
    }

    int halt() {
        return code(SignalNames.HALT_OPTION);
    }

    int faultReaction() {
        return code(SignalNames.FAULT_REACTION_OPTION);
    }

    int abortConnection() {
        return code(SignalNames.ABORT_CONNECTION_OPTION);
    }
}
