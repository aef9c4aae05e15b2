package org.axtrial.script;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.measure.Criterion;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Dimension;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** A criterion as a script holds it. */
final class CriterionObject extends WordObject {

    /** Makes the criterion for one axis, because counts and degrees meet only there. */
    @FunctionalInterface
    interface Maker {
        Criterion on(Conversion conversion);
    }

    private final String printed;
    private final Maker maker;
    private final Parts parts;

    /**
     * What the numbers of a criterion came from.
     *
     * @param given values as the script gave them
     * @param limits named limits among them that were handed over as such
     */
    record Parts(List<Quantity> given, List<LimitInForce> limits) {

        Parts {
            given = List.copyOf(given);
            limits = List.copyOf(limits);
        }

        Parts and(Parts more) {
            List<Quantity> allGiven = new ArrayList<>(given);
            allGiven.addAll(more.given);
            List<LimitInForce> allLimits = new ArrayList<>(limits);
            allLimits.addAll(more.limits);
            return new Parts(allGiven, allLimits);
        }
    }

    private CriterionObject(WordHost host, String printed, Parts parts, Maker maker) {
        super(host, "the criterion \"" + printed + "\"");
        this.printed = printed;
        this.parts = parts;
        this.maker = maker;
    }

    static CriterionObject of(WordHost host, Criterion criterion, Parts parts) {
        return new CriterionObject(host, criterion.printed(), parts, conversion -> criterion);
    }

    /** {@code nominal(…)}, which becomes a criterion by {@code plusMinus(…)}. */
    static CriterionObject nominal(WordHost host, Quantity nominal, Parts of) {
        CriterionObject open = new CriterionObject(host, "nominal " + nominal.printed(), of, conversion -> {
            throw new ScriptMistake("nominal " + nominal
                    + " has no tolerance; write nominal(…).plusMinus(0.5, \"deg\") or .plusMinus(0.5, \"%\")");
        });
        open.word("plusMinus", (values, place) -> {
            Arguments arguments = new Arguments("plusMinus", "plusMinus(0.5, \"deg\")", values).count(1, 2);
            Quantity tolerance = arguments.positive(arguments.quantity(0, "tolerance"), "the tolerance");
            Parts all = of.and(arguments.parts());
            String printed = nominal.printed() + " ± " + tolerance.printed();
            if (tolerance.unit() == Unit.PERCENT || tolerance.unit() == Unit.PER_MILLE) {
                if (nominal.value() == 0) {
                    throw new ScriptMistake("plusMinus: " + tolerance
                            + " of a nominal 0 is no tolerance; give it in a unit, such as plusMinus(0.1, \""
                            + nominal.unit().symbol() + "\")");
                }
                double share = tolerance.unit().convert(tolerance.value(), Unit.PERCENT) / 100;
                return of(host, new Criterion.Nominal(nominal, Math.abs(nominal.value()) * share, printed), all);
            }
            if (!sameKind(tolerance.unit(), nominal.unit())) {
                throw new ScriptMistake(
                        "plusMinus: the nominal is in " + nominal.unit().symbol()
                                + " and the tolerance in " + tolerance.unit().symbol() + ", a unit of "
                                + Arguments.kindOf(tolerance.unit()) + "; give both in units of "
                                + Arguments.kindOf(nominal.unit()));
            }
            return new CriterionObject(
                    host,
                    printed,
                    all,
                    conversion -> new Criterion.Nominal(
                            nominal, conversion.convert(tolerance.value(), tolerance.unit(), nominal.unit()), printed));
        });
        return open;
    }

    /** Whether an axis can carry one unit into the other, be it as count, angle or length. */
    static boolean sameKind(Unit first, Unit second) {
        Dimension.Motion motion = first.dimension().motion();
        return first.dimension() == second.dimension()
                || (motion != Dimension.Motion.NONE
                        && motion == second.dimension().motion());
    }

    /**
     * The criterion for one axis.
     *
     * @throws ScriptMistake if it is not complete
     * @throws IllegalArgumentException if the axis has no factor between its units
     */
    Criterion on(Conversion conversion) {
        return maker.on(conversion);
    }

    /** Values as the script gave them. */
    List<Quantity> given() {
        return parts.given();
    }

    /** Named limits that were handed over as such. */
    List<LimitInForce> limits() {
        return parts.limits();
    }

    @Override
    String printed() {
        return printed;
    }
}
