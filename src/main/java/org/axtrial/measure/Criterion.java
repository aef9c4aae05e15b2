package org.axtrial.measure;

import java.util.OptionalDouble;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** What a measured value is held against. Limits belong to the accepted side. */
public sealed interface Criterion {

    /** Unit of the limits and of the printed result. */
    Unit unit();

    /** Lower limit in {@link #unit}. */
    OptionalDouble lower();

    /** Upper limit in {@link #unit}. */
    OptionalDouble upper();

    /** As it stands in the report, for example {@code 1 rev ± 0.5°}. */
    String printed();

    /**
     * A nominal value and a symmetric tolerance.
     *
     * @param nominal the expected value
     * @param plusMinus the tolerance, positive, in the unit of {@code nominal}
     * @param printed as it stands in the report
     */
    record Nominal(Quantity nominal, double plusMinus, String printed) implements Criterion {

        public Nominal {
            if (!(plusMinus > 0) || Double.isInfinite(plusMinus)) {
                throw new IllegalArgumentException("a tolerance must be positive and finite, got " + plusMinus);
            }
        }

        @Override
        public Unit unit() {
            return nominal.unit();
        }

        @Override
        public OptionalDouble lower() {
            return OptionalDouble.of(nominal.value() - plusMinus);
        }

        @Override
        public OptionalDouble upper() {
            return OptionalDouble.of(nominal.value() + plusMinus);
        }
    }

    record AtMost(Quantity limit) implements Criterion {

        @Override
        public Unit unit() {
            return limit.unit();
        }

        @Override
        public OptionalDouble lower() {
            return OptionalDouble.empty();
        }

        @Override
        public OptionalDouble upper() {
            return OptionalDouble.of(limit.value());
        }

        @Override
        public String printed() {
            return "at most " + limit.printed();
        }
    }

    record AtLeast(Quantity limit) implements Criterion {

        @Override
        public Unit unit() {
            return limit.unit();
        }

        @Override
        public OptionalDouble lower() {
            return OptionalDouble.of(limit.value());
        }

        @Override
        public OptionalDouble upper() {
            return OptionalDouble.empty();
        }

        @Override
        public String printed() {
            return "at least " + limit.printed();
        }
    }

    /**
     * Two limits without a nominal value.
     *
     * @param low lower limit
     * @param high upper limit, above {@code low}, in the same unit
     */
    record Between(Quantity low, Quantity high) implements Criterion {

        public Between {
            if (low.unit() != high.unit() || !(low.value() < high.value())) {
                throw new IllegalArgumentException("limits must have one unit and grow, got " + low + " and " + high);
            }
        }

        @Override
        public Unit unit() {
            return low.unit();
        }

        @Override
        public OptionalDouble lower() {
            return OptionalDouble.of(low.value());
        }

        @Override
        public OptionalDouble upper() {
            return OptionalDouble.of(high.value());
        }

        @Override
        public String printed() {
            return "between " + low.printed() + " and " + high.printed();
        }
    }
}
