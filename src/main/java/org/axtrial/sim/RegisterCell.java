package org.axtrial.sim;

import java.util.function.DoubleSupplier;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;

/** One declared value in the register image: what it holds, or where its present value comes from. */
abstract sealed class RegisterCell {

    private final SignalSpec spec;

    private RegisterCell(SignalSpec spec) {
        this.spec = spec;
    }

    SignalSpec spec() {
        return spec;
    }

    int first() {
        return spec.address();
    }

    /** The address after its last register. */
    int end() {
        return spec.address() + spec.registers();
    }

    /** Its words now, in the order of their addresses. */
    abstract int[] words();

    /** Keeps what was written, to be read back unchanged. */
    abstract void hold(int[] words);

    /** A value that stays what it was set to; a commanded one also makes the drive act when it is written. */
    static final class Held extends RegisterCell {

        private final boolean commanded;
        private int[] words;

        /**
         * A cell with a start value.
         *
         * @throws IllegalArgumentException if it does not fit
         */
        Held(SignalSpec spec, double start, boolean commanded) {
            super(spec);
            this.commanded = commanded;
            this.words = RegisterCodec.encode(spec, start);
        }

        boolean commanded() {
            return commanded;
        }

        @Override
        int[] words() {
            return words;
        }

        @Override
        void hold(int[] written) {
            words = written.clone();
        }
    }

    /** What a register does with a value that is wider than itself. */
    enum Beyond {
        /** It keeps the low bits, as a position counter does. */
        WRAPS,
        /** It shows its highest or lowest value. */
        SATURATES
    }

    /** A value that the drive computes when it is read. */
    static final class Live extends RegisterCell {

        private final DoubleSupplier value;
        private final Beyond beyond;

        Live(SignalSpec spec, DoubleSupplier value, Beyond beyond) {
            super(spec);
            this.value = value;
            this.beyond = beyond;
        }

        @Override
        int[] words() {
            SignalSpec spec = spec();
            double now = value.getAsDouble();
            if (spec.type().isFloat()) {
                return RegisterCodec.encode(spec, now);
            }
            // Beyond the range of long the conversion saturates, which no position reaches.
            long raw = (long) Math.rint((now - spec.offset()) / spec.scale());
            return RegisterCodec.encodeRaw(spec, fit(spec.type(), raw, beyond));
        }

        @Override
        void hold(int[] words) {
            throw new IllegalStateException(spec().name() + " is computed by the drive and cannot be held");
        }
    }

    /** The value nearest to the given one that the register can show. */
    static double nearest(SignalSpec spec, double value) {
        if (spec.type().isFloat()) {
            return value;
        }
        long raw = (long) Math.rint((value - spec.offset()) / spec.scale());
        return fit(spec.type(), raw, Beyond.SATURATES) * spec.scale() + spec.offset();
    }

    /** The raw number that a register of the type shows. */
    static long fit(ValueType type, long raw, Beyond beyond) {
        if (beyond == Beyond.WRAPS) {
            return switch (type) {
                case INT16 -> (short) raw;
                case UINT16 -> raw & 0xFFFFL;
                case INT32 -> (int) raw;
                case UINT32 -> raw & 0xFFFF_FFFFL;
                case INT64, FLOAT32, FLOAT64 -> raw;
            };
        }
        return switch (type) {
            case INT16 -> Math.max(Short.MIN_VALUE, Math.min(Short.MAX_VALUE, raw));
            case UINT16 -> Math.max(0, Math.min(0xFFFFL, raw));
            case INT32 -> Math.max(Integer.MIN_VALUE, Math.min(Integer.MAX_VALUE, raw));
            case UINT32 -> Math.max(0, Math.min(0xFFFF_FFFFL, raw));
            case INT64, FLOAT32, FLOAT64 -> raw;
        };
    }
}
