package org.axtrial.script;

import java.util.LinkedHashMap;
import java.util.Map;
import org.axtrial.measure.Criterion;
import org.axtrial.quantity.Quantity;
import org.graalvm.polyglot.proxy.ProxyExecutable;

/** The words that make criteria; they may be used anywhere in a script. */
final class CriterionWords {

    private CriterionWords() {}

    static Map<String, ProxyExecutable> of(WordHost host) {
        Map<String, ProxyExecutable> words = new LinkedHashMap<>();
        words.put("nominal", host.word((values, place) -> {
            Arguments arguments = new Arguments("nominal", "nominal(1, \"rev\").plusMinus(0.5, \"deg\")", values);
            Quantity nominal = arguments.count(1, 2).quantity(0, "nominal value");
            return CriterionObject.nominal(host, nominal, arguments.parts());
        }));
        words.put("atMost", host.word((values, place) -> {
            Arguments arguments = new Arguments("atMost", "atMost(80, \"ms\")", values).count(1, 2);
            Criterion criterion = new Criterion.AtMost(arguments.quantity(0, "limit"));
            return CriterionObject.of(host, criterion, arguments.parts());
        }));
        words.put("atLeast", host.word((values, place) -> {
            Arguments arguments = new Arguments("atLeast", "atLeast(10, \"mm\")", values).count(1, 2);
            Criterion criterion = new Criterion.AtLeast(arguments.quantity(0, "limit"));
            return CriterionObject.of(host, criterion, arguments.parts());
        }));
        words.put("between", host.word((values, place) -> {
            Arguments arguments = new Arguments("between", "between(10, 12, \"mm\")", values).count(2, 3);
            Quantity high = arguments.quantity(1, "upper limit");
            Quantity low = arguments.lowerOf(0, high);
            if (low.value() >= high.value()) {
                throw new ScriptMistake("between: the lower limit " + low + " must be below the upper limit " + high);
            }
            return CriterionObject.of(host, new Criterion.Between(low, high), arguments.parts());
        }));
        return words;
    }
}
