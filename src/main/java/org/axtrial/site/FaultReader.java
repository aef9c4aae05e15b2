package org.axtrial.site;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalInt;
import java.util.OptionalLong;
import org.axtrial.sim.WireFault;
import org.axtrial.sim.WireFault.Strikes;
import org.axtrial.site.FaultKind.Need;

/** Reads what shall go wrong on the wire of a simulated drive, for training and rehearsal. */
final class FaultReader {

    private final YamlMap simulate;
    private final QuantityReader quantities;

    FaultReader(YamlMap simulate, QuantityReader quantities) {
        this.simulate = simulate;
        this.quantities = quantities;
    }

    List<WireFault> read() {
        List<WireFault> faults = new ArrayList<>();
        for (YamlMap map : simulate.blocks("faults")) {
            fault(map).ifPresent(faults::add);
        }
        return faults;
    }

    private Optional<WireFault> fault(YamlMap map) {
        // A word that is no kind has been told by the schema.
        Optional<FaultKind> kind = map.text("kind").flatMap(FaultKind::of);
        int function = (int) map.integer("function").orElse(WireFault.ANY_FUNCTION);
        int after = (int) map.integer("after").orElse(0);
        OptionalLong count = map.integer("count");
        Optional<Duration> by = quantities.time(map, "by", FaultKind.SHORTEST, FaultKind.LONGEST);
        OptionalLong code = map.integer("code");
        long attempts = map.integer("attempts").orElse(1);
        if (kind.isEmpty()) {
            return Optional.empty();
        }
        only(map, "by", kind.get(), Need.TIME);
        only(map, "code", kind.get(), Need.CODE);
        only(map, "attempts", kind.get(), Need.ATTEMPTS);
        needed(map, "by", kind.get(), Need.TIME, "how much later, for example by: 200 ms");
        needed(map, "code", kind.get(), Need.CODE, "the exception code, for example code: 6");
        if (map.document().complainedWithin(map.path())) {
            return Optional.empty();
        }
        Strikes strikes =
                new Strikes(function, after, (int) count.orElse(kind.get().usualCount()));
        return Optional.of(kind.get()
                .make(
                        strikes,
                        by,
                        code.isPresent() ? OptionalInt.of((int) code.getAsLong()) : OptionalInt.empty(),
                        (int) attempts));
    }

    private static void only(YamlMap map, String key, FaultKind kind, Need need) {
        if (map.has(key) && kind.need() != need) {
            map.keyProblem(key, "a fault of the kind \"" + kind.word() + "\" has no " + key + "; leave it out");
        }
    }

    private static void needed(YamlMap map, String key, FaultKind kind, Need need, String what) {
        if (kind.need() == need && !map.has(key)) {
            map.missing(key, "missing: " + what);
        }
    }
}
