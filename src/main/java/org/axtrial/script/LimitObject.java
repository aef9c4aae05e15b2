package org.axtrial.script;

import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.Value;
import org.graalvm.polyglot.proxy.ProxyArray;
import org.jspecify.annotations.Nullable;

/**
 * A named limit as a script holds it: wherever a value and its unit may stand in brackets it may stand too, and spread it
 * gives both.
 */
final class LimitObject extends WordObject implements ProxyArray {

    private final Quantity limit;

    LimitObject(WordHost host, String name, Quantity limit, Conversion conversion) {
        super(host, "the limit \"" + name + "\"");
        this.limit = limit;
        word("in", (values, place) -> {
            Unit unit = new Arguments("in", "t.limit(\"" + name + "\").in(\"mm\")", values)
                    .count(1, 1)
                    .unit(0, "unit");
            if (!CriterionObject.sameKind(limit.unit(), unit)) {
                throw new ScriptMistake("in: the limit \"" + name + "\" is " + limit + ", and " + unit.symbol()
                        + " is a unit of " + Arguments.kindOf(unit));
            }
            return conversion.convert(limit.value(), limit.unit(), unit);
        });
    }

    Quantity limit() {
        return limit;
    }

    @Override
    public Object get(long index) {
        if (index == 0) {
            return limit.value();
        }
        if (index == 1) {
            return limit.unit().symbol();
        }
        throw new ArrayIndexOutOfBoundsException("a limit has a value and a unit");
    }

    @Override
    public void set(long index, @Nullable Value value) {
        throw host().refuse("a script cannot change " + what());
    }

    @Override
    public long getSize() {
        return 2;
    }

    @Override
    String printed() {
        return limit.printed();
    }

    @Override
    String asNumber() {
        return "take its number with .in(\"" + limit.unit().symbol() + "\")";
    }
}
