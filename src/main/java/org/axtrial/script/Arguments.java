package org.axtrial.script;

import java.math.BigDecimal;
import java.math.RoundingMode;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.NearMiss;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;

/** The arguments of one call of a word, read strictly: nothing is guessed and nothing is converted silently. */
final class Arguments {

    private static final int LONGEST_QUOTE = 60;

    private final String word;
    private final String usage;
    private final List<Value> values;
    private final List<Quantity> given = new ArrayList<>();
    private final List<LimitInForce> limits = new ArrayList<>();

    /**
     * @param word the word that was called
     * @param usage how it is written
     */
    Arguments(String word, String usage, List<Value> values) {
        this.word = word;
        this.usage = usage;
        this.values = values;
    }

    /** Refuses too few or too many arguments. */
    Arguments count(int least, int most) {
        if (values.size() < least || values.size() > most) {
            String needed = least == most ? "" + least : least + " to " + most;
            throw new ScriptMistake(word + " takes " + needed + (most == 1 ? " argument" : " arguments") + " but got "
                    + values.size() + "; write " + usage);
        }
        return this;
    }

    Value value(int index) {
        return values.get(index);
    }

    /** A finite number. */
    double number(int index, String name) {
        return number(values.get(index), name);
    }

    private double number(Value value, String name) {
        if (!value.isNumber() || !value.fitsInDouble()) {
            throw new ScriptMistake(
                    word + ": the " + name + " must be a number but is " + shown(value) + "; write " + usage);
        }
        double number = value.asDouble();
        if (!Double.isFinite(number)) {
            throw new ScriptMistake(
                    word + ": the " + name + " is " + shown(value) + "; check the computation that it comes from");
        }
        return number;
    }

    /** A text that is not blank. */
    String text(int index, String name) {
        return text(values.get(index), name);
    }

    private String text(Value value, String name) {
        if (!value.isString()) {
            throw new ScriptMistake(
                    word + ": the " + name + " must be a text in quotes but is " + shown(value) + "; write " + usage);
        }
        String text = value.asString();
        if (text.isBlank()) {
            throw new ScriptMistake(word + ": the " + name + " is empty; write " + usage);
        }
        return text;
    }

    /** A unit by its spelling. */
    Unit unit(int index, String name) {
        return unit(values.get(index), name);
    }

    private Unit unit(Value value, String name) {
        if (!value.isString()) {
            throw new ScriptMistake(word + ": the " + name + " needs a unit in quotes, such as \"mm\", but got "
                    + shown(value) + "; write " + usage);
        }
        String spelling = value.asString();
        return Unit.of(spelling)
                .orElseThrow(() -> new ScriptMistake(word + ": unknown unit \"" + spelling + "\"; "
                        + NearMiss.hintOrAll(
                                spelling,
                                Arrays.stream(Unit.values()).map(Unit::symbol).toList())));
    }

    /** Two arguments, a number and a unit, or one named limit that carries both. */
    Quantity quantity(int index, String name) {
        Optional<LimitInForce> limit = limit(values.get(index));
        if (limit.isPresent()) {
            if (values.size() > index + 1) {
                throw new ScriptMistake(word + ": the " + name + " is " + shown(values.get(index))
                        + ", which has a unit already; leave out " + shown(values.get(index + 1)));
            }
            return taken(limit.get());
        }
        double number = number(index, name);
        if (values.size() <= index + 1) {
            throw new ScriptMistake(
                    word + ": the " + name + " " + shown(values.get(index)) + " has no unit; write " + usage);
        }
        Quantity quantity = new Quantity(number, unit(index + 1, name));
        given.add(quantity);
        return quantity;
    }

    /** The lower of two limits: a number in the unit of the upper one, or a named limit of its kind. */
    Quantity lowerOf(int index, Quantity upper) {
        Optional<LimitInForce> limit = limit(values.get(index));
        if (limit.isEmpty()) {
            Quantity quantity = new Quantity(number(index, "lower limit"), upper.unit());
            given.add(quantity);
            return quantity;
        }
        Quantity lower = taken(limit.get());
        if (lower.unit().dimension() != upper.unit().dimension()) {
            throw new ScriptMistake(word + ": the lower limit is " + lower + " and the upper one " + upper
                    + "; give both in units of one kind");
        }
        return new Quantity(lower.in(upper.unit()), upper.unit());
    }

    private Quantity taken(LimitInForce limit) {
        given.add(limit.value());
        limits.add(limit);
        return limit.value();
    }

    private static Optional<LimitInForce> limit(Value value) {
        return value.isProxyObject() && value.asProxyObject() instanceof LimitObject object
                ? Optional.of(object.limit())
                : Optional.empty();
    }

    /** What the quantities that were read so far came from. */
    CriterionObject.Parts parts() {
        return new CriterionObject.Parts(given, limits);
    }

    /** A pair in brackets such as {@code [300, "rpm"]}. */
    Quantity pair(Value value, String name) {
        if (!value.hasArrayElements() || value.getArraySize() != 2) {
            throw new ScriptMistake(word + ": " + name
                    + " must be a value and a unit in brackets, such as [300, \"rpm\"], but is " + shown(value));
        }
        return new Quantity(number(value.getArrayElement(0), name), unit(value.getArrayElement(1), name));
    }

    /** The options in braces; an empty set of options if the argument is left out. */
    Options options(int index, String... known) {
        return index >= values.size()
                ? new Options(this, word, List.of(known), null)
                : options(values.get(index), "options", known);
    }

    /** Options in braces that stand elsewhere than as an argument. */
    Options options(Value value, String name, String... known) {
        if (!isObject(value)) {
            throw new ScriptMistake(
                    word + ": the " + name + " must be in braces but are " + shown(value) + "; write " + usage);
        }
        return new Options(this, word, List.of(known), value);
    }

    /** An object in braces, its members in the order of the script. */
    Map<String, Value> members(int index, String name) {
        Value value = values.get(index);
        if (!isObject(value)) {
            throw new ScriptMistake(
                    word + ": the " + name + " must be in braces but are " + shown(value) + "; write " + usage);
        }
        Map<String, Value> members = new LinkedHashMap<>();
        value.getMemberKeys().forEach(key -> members.put(key, value.getMember(key)));
        return members;
    }

    private static boolean isObject(Value value) {
        return !value.isNull()
                && value.hasMembers()
                && !value.hasArrayElements()
                && !value.canExecute()
                && !value.isProxyObject()
                && !value.isString();
    }

    /** An object in braces whose values are texts, finite numbers and truth values, in the order of the script. */
    Map<String, Object> plainMembers(int index, String name) {
        return plainMembers(values.get(index), name);
    }

    /** One such object, or a list of them. */
    List<Map<String, Object>> plainObjects(Value value, String name) {
        if (!value.hasArrayElements()) {
            return List.of(plainMembers(value, name));
        }
        List<Map<String, Object>> objects = new ArrayList<>();
        for (long i = 0; i < value.getArraySize(); i++) {
            objects.add(plainMembers(value.getArrayElement(i), name));
        }
        return objects;
    }

    private Map<String, Object> plainMembers(Value value, String name) {
        if (!isObject(value)) {
            throw new ScriptMistake(
                    word + ": the " + name + " must be in braces but is " + shown(value) + "; write " + usage);
        }
        Map<String, Object> members = new LinkedHashMap<>();
        for (String key : value.getMemberKeys()) {
            Value member = value.getMember(key);
            if (member.isString()) {
                members.put(key, member.asString());
            } else if (member.isBoolean()) {
                members.put(key, member.asBoolean());
            } else if (member.fitsInLong()) {
                members.put(key, member.asLong());
            } else {
                members.put(key, number(member, key));
            }
        }
        return members;
    }

    /** Refuses a quantity that is of another kind, or that the axis cannot convert. */
    Quantity motion(Quantity quantity, Dimension.Motion motion, String name, Conversion conversion, Unit axisUnit) {
        if (quantity.unit().dimension().motion() != motion) {
            throw new ScriptMistake(word + ": the " + name + " needs a unit of " + kindOf(motion) + " such as "
                    + examples(motion) + ", but \"" + quantity.unit().symbol() + "\" is a unit of "
                    + kindOf(quantity.unit()));
        }
        Unit target = switch (motion) {
            case POSITION -> axisUnit;
            case SPEED -> Unit.COUNT_PER_SECOND;
            case ACCELERATION -> Unit.COUNT_PER_SECOND_SQUARED;
            case NONE -> throw new IllegalArgumentException("not a motion: " + name);
        };
        try {
            conversion.convert(quantity.value(), quantity.unit(), target);
        } catch (IllegalArgumentException e) {
            throw new ScriptMistake(word + ": " + name + ": " + e.getMessage());
        }
        return quantity;
    }

    /** Turns a time quantity into a duration, rounded to the nanosecond. */
    Duration duration(Quantity quantity, String name) {
        if (quantity.unit().dimension() != Dimension.TIME) {
            throw new ScriptMistake(word + ": " + name + " needs a unit of time such as s or ms, but \""
                    + quantity.unit().symbol() + "\" is a unit of " + kindOf(quantity.unit()));
        }
        if (quantity.value() <= 0 || quantity.in(Unit.SECOND) > 7 * 86_400) {
            throw new ScriptMistake(word + ": " + name + " must be more than 0 and at most a week, got " + quantity);
        }
        return Duration.ofNanos(BigDecimal.valueOf(quantity.in(Unit.MICROSECOND))
                .movePointRight(3)
                .setScale(0, RoundingMode.HALF_EVEN)
                .longValueExact());
    }

    Quantity positive(Quantity quantity, String name) {
        if (quantity.value() <= 0) {
            throw new ScriptMistake(word + ": " + name + " must be more than 0, got " + quantity);
        }
        return quantity;
    }

    private static String kindOf(Dimension.Motion motion) {
        return switch (motion) {
            case POSITION -> "distance";
            case SPEED -> "speed";
            case ACCELERATION -> "acceleration";
            case NONE -> "no motion";
        };
    }

    /** The kind of a unit in the words of the trade. */
    static String kindOf(Unit unit) {
        return switch (unit.dimension()) {
            case ANGLE, LENGTH, COUNT -> "distance";
            case ANGULAR_SPEED, LINEAR_SPEED, COUNT_RATE -> "speed";
            case ANGULAR_ACCELERATION, LINEAR_ACCELERATION, COUNT_ACCELERATION -> "acceleration";
            case TIME -> "time";
            case TORQUE -> "torque";
            case RATIO -> "ratio";
            case TEMPERATURE -> "temperature";
            case NUMBER -> "plain number";
            default -> unit.dimension().name().toLowerCase(Locale.ROOT).replace('_', ' ');
        };
    }

    private static String examples(Dimension.Motion motion) {
        Set<String> units = new LinkedHashSet<>();
        for (Unit unit : Unit.values()) {
            if (unit.dimension().motion() == motion) {
                units.add(unit.symbol());
            }
        }
        return units.stream().collect(Collectors.joining(", "));
    }

    /** A value as a script writer would recognise it. */
    static String shown(Value value) {
        if (value.isNull() || value.isNumber() || value.isBoolean()) {
            return value.toString();
        }
        if (value.isString()) {
            return quoted(value.asString());
        }
        if (value.isProxyObject() && value.asProxyObject() instanceof WordObject object) {
            return object.what();
        }
        if (value.canExecute()) {
            return "a function (are the parentheses \"()\" missing?)";
        }
        if (value.hasArrayElements()) {
            return "a list of " + value.getArraySize();
        }
        return "an object";
    }

    private static String quoted(String text) {
        return '"' + (text.length() > LONGEST_QUOTE ? text.substring(0, LONGEST_QUOTE) + "…" : text) + '"';
    }
}
