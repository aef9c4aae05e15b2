package org.axtrial.script;

import java.util.LinkedHashMap;
import java.util.Map;
import org.axtrial.measure.Criterion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.graalvm.polyglot.proxy.ProxyExecutable;

/** The words that make criteria; they may be used anywhere in a script. */
final class CriterionWords {

    private CriterionWords() {}

    static Map<String, ProxyExecutable> of(WordHost host) {
        Map<String, ProxyExecutable> words = new LinkedHashMap<>();
        words.put("nominal", host.word((values, place) -> {
            Arguments arguments = new Arguments("nominal", "nominal(1, \"rev\").plusMinus(0.5, \"deg\")", values);
            return CriterionObject.nominal(host, arguments.count(1, 2).quantity(0, "nominal value"));
        }));
        words.put("atMost", host.word((values, place) -> {
            Arguments arguments = new Arguments("atMost", "atMost(80, \"ms\")", values).count(1, 2);
            return CriterionObject.of(host, new Criterion.AtMost(arguments.quantity(0, "limit")));
        }));
        words.put("atLeast", host.word((values, place) -> {
            Arguments arguments = new Arguments("atLeast", "atLeast(10, \"mm\")", values).count(1, 2);
            return CriterionObject.of(host, new Criterion.AtLeast(arguments.quantity(0, "limit")));
        }));
        words.put("between", host.word((values, place) -> {
            Arguments arguments = new Arguments("between", "between(10, 12, \"mm\")", values).count(2, 3);
            Quantity high = arguments.quantity(1, "upper limit");
            Unit unit = high.unit();
            double low = arguments.value(0).isProxyObject()
                    ? arguments.quantity(0, "lower limit").in(unit)
                    : arguments.number(0, "lower limit");
            if (low >= high.value()) {
                throw new ScriptMistake("between: the lower limit " + new Quantity(low, unit)
                        + " must be below the upper limit " + high);
            }
            return CriterionObject.of(host, new Criterion.Between(new Quantity(low, unit), high));
        }));
        return words;
    }
}
