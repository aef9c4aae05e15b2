package org.axtrial.site;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.registers.SignalSpec;

/** Finds two values that claim the same register but lay it out differently: one of them must be wrong. */
final class RegisterOverlap {

    private record Claim(YamlMap map, SignalSpec spec) {}

    private final List<Claim> claims = new ArrayList<>();

    /** Tells a clash with any value added before; the same layout twice is two views of one register and fine. */
    void add(YamlMap map, SignalSpec spec) {
        for (Claim earlier : claims) {
            if (overlap(earlier.spec, spec) && !sameLayout(earlier.spec, spec)) {
                map.document()
                        .keyProblem(
                                map.path(),
                                print(spec) + " shares a register with " + earlier.map.path() + ", "
                                        + print(earlier.spec)
                                        + ", which lays it out differently; one of them is wrong");
                break;
            }
        }
        claims.add(new Claim(map, spec));
    }

    private static boolean overlap(SignalSpec one, SignalSpec other) {
        return one.table() == other.table()
                && one.address() < other.address() + other.registers()
                && other.address() < one.address() + one.registers();
    }

    private static boolean sameLayout(SignalSpec one, SignalSpec other) {
        return one.address() == other.address()
                && one.type() == other.type()
                && (one.wordOrder() == other.wordOrder() || one.registers() == 1)
                && one.byteOrder() == other.byteOrder();
    }

    private static String print(SignalSpec spec) {
        return spec.type().spelling() + " at " + spec.place();
    }
}
