package org.axtrial.script;

import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;
import org.graalvm.polyglot.proxy.ProxyArray;
import org.jspecify.annotations.Nullable;

/**
 * A named limit as a script holds it: wherever a value and its unit may stand in brackets it may stand too, and
 * spread it gives both.
 */
final class LimitObject extends WordObject implements ProxyArray {

    private final LimitInForce limit;

    LimitObject(WordHost host, LimitInForce limit, Conversion conversion) {
        super(host, "the limit \"" + limit.name() + "\"");
        this.limit = limit;
        word("in", (values, place) -> {
            Arguments arguments = new Arguments("in", "t.limit(\"" + limit.name() + "\").in(\"mm\")", values);
            Unit unit = arguments.count(1, 1).unit(0, "unit");
            Quantity value = limit.value();
            if (!CriterionObject.sameKind(value.unit(), unit)) {
                throw new ScriptMistake("in: the limit \"" + limit.name() + "\" is " + value + ", a "
                        + Arguments.kindOf(value.unit()) + ", and " + unit.symbol() + " is a unit of "
                        + Arguments.kindOf(unit));
            }
            return conversion.convert(value.value(), value.unit(), unit);
        });
    }

    LimitInForce limit() {
        return limit;
    }

    Quantity quantity() {
        return limit.value();
    }

    @Override
    public Object get(long index) {
        if (index == 0) {
            return limit.value().value();
        }
        if (index == 1) {
            return limit.value().unit().symbol();
        }
        throw new ArrayIndexOutOfBoundsException("a limit has a value and a unit");
    }

    @Override
    public void set(long index, @Nullable Value value) {
        throw host().refuse("a script cannot change " + what() + "; the site file sets limits");
    }

    @Override
    public long getSize() {
        return 2;
    }

    @Override
    String printed() {
        return limit.value().printed();
    }

    @Override
    String asNumber() {
        return "take its number with .in(\"" + limit.value().unit().symbol() + "\")";
    }
}
