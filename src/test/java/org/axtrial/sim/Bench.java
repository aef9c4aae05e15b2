package org.axtrial.sim;

import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;

/** A drive on the bench: signals by name over its request path, and time that passes on demand. */
final class Bench {

    static final int OK = 0;

    final SimulatedDrive drive;
    private final DriveDescription description;

    Bench(DriveDescription description, SimulationSpec spec) {
        this.drive = new SimulatedDrive("bench", description, spec);
        this.description = description;
    }

    void pass(double milliseconds) {
        drive.advanceTo(drive.nanos() + Math.round(milliseconds * 1e6));
    }

    double read(String name) {
        SignalSpec signal = description.value(name).orElseThrow();
        byte[] request = new byte[5];
        request[0] = (byte) (signal.table() == RegisterTable.INPUT ? 4 : 3);
        RegisterServer.put(request, 1, signal.address());
        RegisterServer.put(request, 3, signal.registers());
        byte[] response = drive.answer(request);
        int[] words = new int[signal.registers()];
        for (int i = 0; i < words.length; i++) {
            words[i] = RegisterServer.word(response, 2 + 2 * i);
        }
        return RegisterCodec.decode(signal, words);
    }

    /** Writes a signal; gives the exception code, 0 when there is none. */
    int write(String name, double value) {
        SignalSpec signal = description.value(name).orElseThrow();
        int[] words = RegisterCodec.encode(signal, value);
        byte[] request = new byte[6 + 2 * words.length];
        request[0] = 16;
        RegisterServer.put(request, 1, signal.address());
        RegisterServer.put(request, 3, words.length);
        request[5] = (byte) (2 * words.length);
        for (int i = 0; i < words.length; i++) {
            RegisterServer.put(request, 6 + 2 * i, words[i]);
        }
        byte[] response = drive.answer(request);
        return response[0] == 16 ? OK : response[1];
    }

    /** The digital inputs a moment after the start. */
    double afterAStep() {
        pass(5);
        return read("digitalInputs");
    }

    int status() {
        return (int) read("status");
    }

    /** The state by the masks of CiA 402: 004F for states without bit 5, 006F for the others. */
    String cia402State() {
        int word = status();
        return switch (word & 0x4F) {
            case 0x00 -> "not ready";
            case 0x40 -> "disabled";
            case 0x0F -> "reaction";
            case 0x08 -> "fault";
            default ->
                switch (word & 0x6F) {
                    case 0x21 -> "ready";
                    case 0x23 -> "switched on";
                    case 0x27 -> "enabled";
                    case 0x07 -> "quick stop";
                    default -> "unknown";
                };
        };
    }

    /** Enables a direct drive from its start. */
    Bench enabledDirect() {
        pass(20);
        write("command", 1);
        pass(20);
        return this;
    }

    /** Enables a CiA 402 drive from its start in the given mode. */
    Bench enabledCia402(int mode) {
        pass(20);
        write("mode", mode);
        for (int control : new int[] {0x06, 0x07, 0x0F}) {
            write("control", control);
            pass(10);
        }
        return this;
    }
}
