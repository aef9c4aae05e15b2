package org.axtrial.site;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.OptionalLong;
import java.util.function.Function;
import org.axtrial.quantity.NearMiss;
import org.axtrial.registers.CommandStyle;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.DriveDescription.ClearPeaks;
import org.axtrial.registers.DriveDescription.IdentityConstant;
import org.axtrial.registers.DriveDescription.KeepAlive;
import org.axtrial.registers.DriveDescription.SaveCommand;
import org.axtrial.registers.DriveDescription.Watchdog;
import org.axtrial.registers.Expectation;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;

/** Reads one drive description. */
final class DriveReader {

    private static final List<String> STATUS_BITS = List.of("ready", "enabled", "fault", "moving", "inPosition");

    /** How long a drive may take to save its parameters, where the description does not say; common practice, no source. */
    private static final Duration SAVE_TIME = Duration.ofSeconds(5);

    private static final List<String> COMMANDS = List.of("enable", "disable", "stop", "resetFault");

    private final YamlDocument document;
    private final YamlMap top;
    private final SignalReader signalReader;
    private final RegisterOverlap overlap = new RegisterOverlap();
    private final Map<String, String> owners = new LinkedHashMap<>();
    private final Map<String, SignalSpec> readable = new LinkedHashMap<>();
    private final Map<String, Expectation> expectations = new LinkedHashMap<>();

    private DriveReader(YamlDocument document) {
        this.document = document;
        top = document.top();
        signalReader = new SignalReader(top);
    }

    /** Empty if anything is wrong in any file so far; every problem of this one has then been told. */
    static Optional<DriveDescription> read(Path file, Problems problems) {
        return YamlSource.read(file, problems).flatMap(DriveReader::read);
    }

    static Optional<DriveDescription> read(YamlDocument document) {
        SchemaCheck.DRIVE.check(document);
        return new DriveReader(document).description();
    }

    static String spelling(CommandStyle style) {
        return style == CommandStyle.CIA402 ? "cia402" : "direct";
    }

    private Optional<DriveDescription> description() {
        Optional<String> type = top.text("type");
        Optional<CommandStyle> style =
                top.text("style").map(text -> text.equals("direct") ? CommandStyle.DIRECT : CommandStyle.CIA402);
        Map<String, SignalSpec> signals = signals();
        style.ifPresent(which -> SignalRules.required(top, which));
        Map<String, Integer> statusBits =
                style.map(which -> statusBits(which, signals)).orElse(Map.of());
        Map<String, Integer> commands =
                style.map(which -> commands(which, signals)).orElse(Map.of());
        List<IdentityConstant> identity = identity();
        List<SignalSpec> parameters = parameters();
        int maxRead = (int) top.integer("maxReadRegisters").orElse(125);
        int maxConnections = (int) top.integer("maxConnections").orElse(1);
        Optional<Watchdog> watchdog = watchdog();
        Map<Integer, String> deviceIdentification = deviceIdentification();
        Optional<SaveCommand> saveCommand = saveCommand();
        Optional<ClearPeaks> clearPeaks = new PeakLatchReader(top, this::named).read(signals, saveCommand);
        if (!document.isClean()) {
            return Optional.empty();
        }
        return Optional.of(new DriveDescription(
                type.orElseThrow(),
                style.orElseThrow(),
                signals,
                statusBits,
                commands,
                identity,
                parameters,
                maxRead,
                maxConnections,
                watchdog,
                expectations,
                deviceIdentification,
                saveCommand,
                clearPeaks));
    }

    private Map<Integer, String> deviceIdentification() {
        YamlMap map = top.map("deviceIdentification");
        Map<Integer, String> objects = new LinkedHashMap<>();
        for (int id = 0; id < DriveDescription.IDENTIFICATION_OBJECTS.size(); id++) {
            String key = DriveDescription.IDENTIFICATION_OBJECTS.get(id);
            Optional<String> text = map.text(key);
            if (text.isPresent() && !DriveDescription.isIdentification(text.get())) {
                map.problem(
                        key,
                        "expected up to " + DriveDescription.LONGEST_IDENTIFICATION
                                + " letters, digits and signs of ASCII, which is all the protocol carries, found \""
                                + text.get() + "\"");
            } else if (text.isPresent()) {
                objects.put(id, text.get());
            }
        }
        return objects;
    }

    private Map<String, SignalSpec> signals() {
        Map<String, SignalSpec> result = new LinkedHashMap<>();
        top.named("signals")
                .forEach((name, map) -> spec(map).ifPresent(spec -> {
                    SignalRules.check(map, spec);
                    result.put(name, spec);
                }));
        return result;
    }

    private List<SignalSpec> parameters() {
        List<SignalSpec> result = new ArrayList<>();
        top.named("parameters").values().forEach(map -> spec(map).ifPresent(result::add));
        return result;
    }

    private List<IdentityConstant> identity() {
        List<IdentityConstant> result = new ArrayList<>();
        for (YamlMap map : top.named("identity").values()) {
            OptionalDouble expected = map.number("expected");
            Optional<SignalSpec> spec = take(map, signalReader::readConstant);
            if (spec.isPresent()
                    && expected.isPresent()
                    && canShow(map, "expected", spec.get(), expected.getAsDouble())) {
                result.add(new IdentityConstant(spec.get(), expected.getAsDouble()));
            }
        }
        return result;
    }

    private static boolean canShow(YamlMap map, String key, SignalSpec spec, double expected) {
        double raw = (expected - spec.offset()) / spec.scale();
        ValueType type = spec.type();
        if (type.isFloat()) {
            return true;
        }
        boolean shows = raw >= lowest(type) && raw <= highest(type) && Math.abs(raw - Math.rint(raw)) < 1e-6;
        if (!shows) {
            map.problem(
                    key,
                    type.spelling() + " can never show " + print(expected)
                            + (raw == expected ? "" : "; it needs the raw value " + print(raw)));
        }
        return shows;
    }

    private static String print(double value) {
        return value == Math.rint(value) && Math.abs(value) < 1e15
                ? Long.toString((long) value)
                : Double.toString(value);
    }

    private static double lowest(ValueType type) {
        return switch (type) {
            case UINT16, UINT32 -> 0;
            case INT16 -> Short.MIN_VALUE;
            case INT32 -> Integer.MIN_VALUE;
            default -> Long.MIN_VALUE;
        };
    }

    private static double highest(ValueType type) {
        return switch (type) {
            case UINT16 -> 0xFFFF;
            case UINT32 -> 0xFFFF_FFFFL;
            case INT16 -> Short.MAX_VALUE;
            case INT32 -> Integer.MAX_VALUE;
            default -> Long.MAX_VALUE;
        };
    }

    private Optional<SignalSpec> spec(YamlMap map) {
        Optional<SignalSpec> spec = take(map, signalReader::read);
        OptionalDouble constant = map.number("constant");
        List<Double> plausible = map.numbers("plausible");
        if (spec.isEmpty()) {
            return spec;
        }
        if (constant.isPresent() && canShow(map, "constant", spec.get(), constant.getAsDouble())) {
            expectations.put(map.name(), Expectation.of(constant.getAsDouble()));
        }
        if (plausible.size() == 2) {
            if (constant.isPresent()) {
                map.keyProblem("plausible", "a constant needs no plausible range; leave one of the two out");
            } else if (!(plausible.get(0) < plausible.get(1))) {
                map.problem(
                        "plausible",
                        "expected [lowest, highest], found " + print(plausible.get(0)) + ", "
                                + print(plausible.get(1)));
            } else {
                expectations.put(map.name(), Expectation.between(plausible.get(0), plausible.get(1)));
            }
        }
        return spec;
    }

    /** Reads a value and holds it against all read before: each name once, each register laid out once. */
    private Optional<SignalSpec> take(YamlMap map, Function<YamlMap, Optional<SignalSpec>> reader) {
        String owner = owners.putIfAbsent(map.name(), map.path());
        if (owner != null) {
            document.keyProblem(map.path(), "the name is taken by " + owner + "; scripts read values by name");
        }
        Optional<SignalSpec> spec = reader.apply(map);
        spec.ifPresent(found -> {
            overlap.add(map, found);
            readable.putIfAbsent(map.name(), found);
        });
        return spec;
    }

    private Map<String, Integer> statusBits(CommandStyle style, Map<String, SignalSpec> signals) {
        Map<String, Integer> bits = numbers(style, "statusBits", STATUS_BITS, "the bits of status");
        SignalSpec status = signals.get(SignalNames.STATUS);
        if (status != null) {
            int width = 16 * status.registers();
            bits.forEach((name, bit) -> {
                if (bit >= width) {
                    top.map("statusBits")
                            .problem(
                                    name,
                                    "expected a bit of status, which is "
                                            + status.type().spelling() + ": 0 … " + (width - 1) + ", found " + bit);
                }
            });
        }
        return bits;
    }

    private Map<String, Integer> commands(CommandStyle style, Map<String, SignalSpec> signals) {
        Map<String, Integer> values = numbers(style, "commands", COMMANDS, "the values of command");
        SignalSpec command = signals.get(SignalNames.COMMAND);
        if (command != null) {
            values.forEach((name, value) -> {
                if (value < lowest(command.type()) || value > highest(command.type())) {
                    top.map("commands")
                            .problem(name, "command is " + command.type().spelling() + " and cannot carry " + value);
                }
            });
        }
        return values;
    }

    /** Numbers by meaning: needed by the direct style, each different; out of place for {@code cia402}. */
    private Map<String, Integer> numbers(CommandStyle style, String key, List<String> names, String what) {
        YamlMap map = top.map(key);
        if (style == CommandStyle.CIA402) {
            if (top.has(key)) {
                top.keyProblem(key, "style cia402 takes " + what + " from the standard; leave this out");
            }
            return Map.of();
        }
        if (!top.has(key)) {
            top.missing(key, "missing: style direct needs " + what + ": " + String.join(", ", names));
        }
        Map<String, Integer> result = new LinkedHashMap<>();
        Map<Long, String> users = new LinkedHashMap<>();
        for (String name : names) {
            OptionalLong value = map.integer(name);
            if (value.isEmpty()) {
                continue;
            }
            String user = users.putIfAbsent(value.getAsLong(), name);
            if (user != null) {
                map.problem(name, value.getAsLong() + " already means " + user);
            }
            result.put(name, (int) value.getAsLong());
        }
        return result;
    }

    private Optional<Watchdog> watchdog() {
        YamlMap map = top.map("watchdog");
        Optional<Duration> timeout =
                new QuantityReader("", true).time(map, "timeout", Duration.ofMillis(1), Duration.ofHours(1));
        Optional<SignalSpec> signal = named(map, "signal");
        Optional<KeepAlive> keepAlive = keepAlive(map.map("keepAlive"));
        return timeout.map(time -> new Watchdog(time, signal, keepAlive));
    }

    private Optional<SaveCommand> saveCommand() {
        YamlMap map = top.map("saveCommand");
        Optional<SignalSpec> signal = named(map, "signal");
        OptionalLong value = map.integer("value");
        OptionalLong done = map.integer("done");
        Optional<Duration> within = map.has("within")
                ? new QuantityReader("", true).time(map, "within", Duration.ofMillis(1), Duration.ofMinutes(5))
                : Optional.of(SAVE_TIME);
        if (signal.isEmpty() || value.isEmpty() || within.isEmpty()) {
            return Optional.empty();
        }
        writtenAsWholeNumber(map, signal.get());
        mustCarry(map, "value", signal.get(), value.getAsLong());
        done.ifPresent(read -> mustCarry(map, "done", signal.get(), read));
        return Optional.of(new SaveCommand(signal.get(), value.getAsLong(), done, within.get()));
    }

    static void mustCarry(YamlMap map, String key, SignalSpec spec, long value) {
        if (!carries(spec, value)) {
            map.problem(key, cannotCarry(spec, value));
        }
    }

    private static boolean carries(SignalSpec spec, long value) {
        return value >= lowest(spec.type()) && value <= highest(spec.type());
    }

    private static String cannotCarry(SignalSpec spec, long value) {
        return spec.name() + " is " + spec.type().spelling() + " and cannot carry " + value;
    }

    static void writtenAsWholeNumber(YamlMap map, SignalSpec spec) {
        if (!spec.writable()) {
            map.problem("signal", "the tool must write " + spec.name() + "; expected access: write there");
        }
        if (spec.type().isFloat() || spec.scale() != 1 || spec.offset() != 0) {
            map.problem(
                    "signal",
                    "expected an integer with scale 1 and offset 0, because " + spec.name()
                            + " is written as whole numbers");
        }
    }

    private Optional<KeepAlive> keepAlive(YamlMap map) {
        Optional<SignalSpec> signal = named(map, "signal");
        Map<String, Long> values = map.integers("values");
        if (signal.isEmpty()) {
            return Optional.empty();
        }
        SignalSpec spec = signal.get();
        writtenAsWholeNumber(map, spec);
        values.forEach((path, value) -> {
            if (!carries(spec, value)) {
                document.problem(path, cannotCarry(spec, value));
            }
        });
        return values.isEmpty() ? Optional.empty() : Optional.of(new KeepAlive(spec, List.copyOf(values.values())));
    }

    /** The signal or parameter that a key names. */
    private Optional<SignalSpec> named(YamlMap map, String key) {
        Optional<String> name = map.text(key);
        Optional<SignalSpec> signal = name.map(readable::get);
        if (name.isPresent() && signal.isEmpty() && !owners.containsKey(name.get())) {
            map.problem(
                    key,
                    "there is no signal or parameter \"" + name.get() + "\""
                            + NearMiss.hint(name.get(), owners.keySet()));
        }
        return signal;
    }
}
