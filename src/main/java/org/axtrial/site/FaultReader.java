package org.axtrial.site;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.BiFunction;
import java.util.function.Function;
import org.axtrial.sim.WireFault;
import org.axtrial.sim.WireFault.Strikes;

/** Reads what shall go wrong on the wire of a simulated drive, for training and rehearsal. */
final class FaultReader {

    private static final Duration LONGEST = Duration.ofHours(1);

    /** Kinds that need nothing but the requests they strike. */
    private static final Map<String, Function<Strikes, WireFault>> PLAIN = Map.ofEntries(
            Map.entry("reply dropped", WireFault.DropReply::new),
            Map.entry("reply doubled", WireFault.DoubleReply::new),
            Map.entry("wrong transaction", WireFault.WrongTransaction::new),
            Map.entry("wrong unit", WireFault.WrongUnit::new),
            Map.entry("wrong function", WireFault.WrongFunction::new),
            Map.entry("wrong length", WireFault.WrongLength::new),
            Map.entry("reply cut", WireFault.CutReply::new),
            Map.entry("connection reset", WireFault.ResetConnection::new),
            Map.entry("connection half-open", WireFault.HalfOpen::new),
            Map.entry("frozen values", WireFault.FrozenValues::new),
            Map.entry("torn words", WireFault.TornWords::new),
            Map.entry("other drive", WireFault.OtherDrive::new),
            Map.entry("silence", WireFault.Silence::new));

    /** Kinds that need a time. */
    private static final Map<String, BiFunction<Strikes, Duration, WireFault>> TIMED = Map.of(
            "reply delayed", WireFault.DelayReply::new,
            "reply trickled", WireFault.TrickleReply::new,
            "slow drive", WireFault.SlowDrive::new);

    private static final String EXCEPTION = "exception";
    private static final String TAKEN = "connections taken";

    /** Kinds that last until the end unless a count is given: one such request shows nothing. */
    private static final Set<String> LASTING = Set.of("frozen values", "torn words", "slow drive", "silence");

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
        Optional<String> kind = map.text("kind");
        int function = (int) map.integer("function").orElse(WireFault.ANY_FUNCTION);
        int after = (int) map.integer("after").orElse(0);
        OptionalLong count = map.integer("count");
        Optional<Duration> by = quantities.time(map, "by", Duration.ofNanos(1_000), LONGEST);
        OptionalLong code = map.integer("code");
        long attempts = map.integer("attempts").orElse(1);
        if (kind.isEmpty()) {
            return Optional.empty();
        }
        only(map, "by", kind.get(), TIMED.containsKey(kind.get()));
        only(map, "code", kind.get(), kind.get().equals(EXCEPTION));
        only(map, "attempts", kind.get(), kind.get().equals(TAKEN));
        needed(map, "by", TIMED.containsKey(kind.get()), "how much later, for example by: 200 ms");
        needed(map, "code", kind.get().equals(EXCEPTION), "the exception code, for example code: 6");
        if (map.document().complainedWithin(map.path())) {
            return Optional.empty();
        }
        Strikes strikes = new Strikes(
                function, after, (int) count.orElse(LASTING.contains(kind.get()) ? WireFault.WITHOUT_END : 1));
        return made(kind.get(), strikes, by, code, (int) attempts);
    }

    private static Optional<WireFault> made(
            String kind, Strikes strikes, Optional<Duration> by, OptionalLong code, int attempts) {
        if (kind.equals(TAKEN)) {
            return Optional.of(new WireFault.ConnectionsTaken(strikes, attempts));
        }
        if (kind.equals(EXCEPTION)) {
            return code.isPresent()
                    ? Optional.of(new WireFault.ExceptionReply(strikes, (int) code.getAsLong()))
                    : Optional.empty();
        }
        BiFunction<Strikes, Duration, WireFault> timed = TIMED.get(kind);
        if (timed != null) {
            return by.map(time -> timed.apply(strikes, time));
        }
        return Optional.ofNullable(PLAIN.get(kind)).map(plain -> plain.apply(strikes));
    }

    private static void only(YamlMap map, String key, String kind, boolean allowed) {
        if (map.has(key) && !allowed) {
            map.keyProblem(key, "a fault of the kind \"" + kind + "\" has no " + key + "; leave it out");
        }
    }

    private static void needed(YamlMap map, String key, boolean isNeeded, String what) {
        if (isNeeded && !map.has(key)) {
            map.missing(key, "missing: " + what);
        }
    }
}
