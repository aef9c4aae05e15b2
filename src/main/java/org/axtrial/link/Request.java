package org.axtrial.link;

import com.ghgande.j2mod.modbus.msg.ReadInputRegistersRequest;
import com.ghgande.j2mod.modbus.msg.ReadMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteMultipleRegistersRequest;
import com.ghgande.j2mod.modbus.msg.WriteSingleRegisterRequest;
import com.ghgande.j2mod.modbus.procimg.Register;
import com.ghgande.j2mod.modbus.procimg.SimpleRegister;
import java.util.Arrays;

/** What a link sends; ranges are those of the MODBUS Application Protocol V1.1b3, 6.3, 6.4, 6.6, 6.12, 6.21. */
sealed interface Request {

    int function();

    int address();

    int count();

    /** Whether the drive acts on it, so that it must never go out twice. */
    boolean writes();

    /** Function code and data. */
    byte[] pdu();

    /** Which registers, as people look for them: addresses and one-based references. */
    default String registers() {
        int last = address() + count() - 1;
        // Five digits reach as far as address 9998; beyond, the six-digit form of the same convention is in use.
        int base = (function() == 4 ? 3 : 4) * (last < 9_999 ? 10_000 : 100_000) + 1;
        return count() == 1
                ? "register " + address() + " (reference " + (base + address()) + ")"
                : "registers " + address() + "…" + last + " (references " + (base + address()) + "…" + (base + last)
                        + ")";
    }

    /** Function code 03 or 04. */
    record Read(int function, int address, int count) implements Request {

        public Read {
            if (function != 3 && function != 4) {
                throw new IllegalArgumentException("registers are read by function 3 or 4, got " + function);
            }
            checkRange(address, count, 125);
        }

        @Override
        public boolean writes() {
            return false;
        }

        @Override
        public byte[] pdu() {
            return Pdu.of(
                    function == 3
                            ? new ReadMultipleRegistersRequest(address, count)
                            : new ReadInputRegistersRequest(address, count));
        }
    }

    /** Function code 06. */
    record WriteSingle(int address, int word) implements Request {

        public WriteSingle {
            checkRange(address, 1, 1);
            checkWord(address, word);
        }

        @Override
        public int function() {
            return 6;
        }

        @Override
        public int count() {
            return 1;
        }

        @Override
        public boolean writes() {
            return true;
        }

        @Override
        public byte[] pdu() {
            return Pdu.of(new WriteSingleRegisterRequest(address, new SimpleRegister(word)));
        }
    }

    /** Function code 16. */
    final class WriteBlock implements Request {

        private final int address;
        private final int[] words;

        WriteBlock(int address, int[] words) {
            checkRange(address, words.length, 123);
            for (int i = 0; i < words.length; i++) {
                checkWord(address + i, words[i]);
            }
            this.address = address;
            this.words = words.clone();
        }

        @Override
        public int function() {
            return 16;
        }

        @Override
        public int address() {
            return address;
        }

        @Override
        public int count() {
            return words.length;
        }

        @Override
        public boolean writes() {
            return true;
        }

        @Override
        public byte[] pdu() {
            Register[] registers =
                    Arrays.stream(words).mapToObj(SimpleRegister::new).toArray(Register[]::new);
            return Pdu.of(new WriteMultipleRegistersRequest(address, registers));
        }
    }

    /**
     * Function code 43 with MEI type 14, read device identification. Source: MODBUS Application Protocol V1.1b3, 6.21.
     *
     * @param access 1 basic, 2 regular or 3 extended objects by stream, 4 one object
     * @param object the first object, or the one
     */
    record Identify(int access, int object) implements Request {

        static final int FUNCTION = 0x2B;
        static final int MEI_TYPE = 0x0E;

        public Identify {
            if (access < 1 || access > 4 || object < 0 || object > 0xFF) {
                throw new IllegalArgumentException(
                        "access is 1 … 4 and an object 0 … 255, got " + access + " and " + object);
            }
        }

        @Override
        public int function() {
            return FUNCTION;
        }

        @Override
        public int address() {
            return 0;
        }

        @Override
        public int count() {
            return 1;
        }

        @Override
        public boolean writes() {
            return false;
        }

        @Override
        public byte[] pdu() {
            return new byte[] {FUNCTION, MEI_TYPE, (byte) access, (byte) object};
        }

        @Override
        public String registers() {
            return "its device identification";
        }
    }

    private static void checkRange(int address, int count, int most) {
        if (count < 1 || count > most) {
            throw new IllegalArgumentException("one request takes 1 … " + most + " registers, got " + count);
        }
        if (address < 0 || address + count > 65_536) {
            throw new IllegalArgumentException(
                    "addresses are 0 … 65535, got " + address + " … " + (address + (long) count - 1));
        }
    }

    private static void checkWord(int address, int word) {
        // The protocol library would send 70000 as 4464 without a word.
        if (word < 0 || word > 0xFFFF) {
            throw new IllegalArgumentException("register " + address + ": a word is 0 … 65535, got " + word);
        }
    }
}
