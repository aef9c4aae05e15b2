package org.axtrial.measure;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.quantity.Unit;

/**
 * The uncertainty budget of a measurement as it stands in print, one row for each contribution, largest share first.
 *
 * @param rows one for each contribution
 * @param combined combined standard uncertainty u_c
 * @param freedom effective degrees of freedom, cut to a whole number
 * @param coverage coverage factor k
 * @param expanded expanded uncertainty U
 */
public record BudgetTable(List<Row> rows, String combined, String freedom, String coverage, String expanded) {

    /**
     * One contribution.
     *
     * @param name what is uncertain
     * @param how what it was made from
     * @param type A or B
     * @param distribution its name
     * @param spread half-width or standard deviation
     * @param divisor what makes a standard deviation of it
     * @param standard standard uncertainty u_i
     * @param freedom degrees of freedom ν_i
     * @param share part of the combined variance
     */
    public record Row(
            String name,
            String how,
            String type,
            String distribution,
            String spread,
            String divisor,
            String standard,
            String freedom,
            String share) {

        List<String> cells() {
            return List.of(name, type, distribution, spread, divisor, standard, freedom, share);
        }
    }

    private static final List<String> HEADS =
            List.of("contribution", "type", "distribution", "a or s", "divisor", "u", "ν", "share");

    /** Two digits, as the GUM advises for an uncertainty (JCGM 100:2008, 7.2.6). */
    private static final MathContext UNCERTAINTY = new MathContext(2, RoundingMode.HALF_UP);

    private static final MathContext DIVISOR = new MathContext(4, RoundingMode.HALF_UP);

    public BudgetTable {
        rows = List.copyOf(rows);
    }

    /** The budget of a measurement, in its unit. */
    public static BudgetTable of(Measurement measurement) {
        UncertaintyBudget budget = measurement.budget();
        Unit unit = measurement.unit();
        List<Row> rows = budget.contributions().stream()
                .sorted((a, b) -> Double.compare(b.standardUncertainty(), a.standardUncertainty()))
                .map(c -> row(c, budget, unit))
                .toList();
        return new BudgetTable(
                rows,
                number(budget.combined(), unit),
                freedom(budget.effectiveDegreesOfFreedom()),
                Printed.coverageFactor(budget.coverageFactor()),
                number(budget.expanded(), unit));
    }

    private static Row row(Contribution c, UncertaintyBudget budget, Unit unit) {
        return new Row(
                c.name(),
                c.how(),
                c.evaluation().name(),
                c.distribution().printed(),
                number(c.spread(), unit),
                new BigDecimal(c.divisor()).round(DIVISOR).stripTrailingZeros().toPlainString(),
                number(c.standardUncertainty(), unit),
                freedom(c.degreesOfFreedom()),
                share(budget.share(c)));
    }

    private static String number(double value, Unit unit) {
        if (value == 0) {
            return unit.printed("0");
        }
        BigDecimal rounded = new BigDecimal(value).round(UNCERTAINTY);
        int missing = UNCERTAINTY.getPrecision() - rounded.precision();
        return unit.printed(rounded.setScale(rounded.scale() + missing).toPlainString());
    }

    private static String freedom(double degrees) {
        return Double.isInfinite(degrees) ? "∞" : Long.toString((long) Math.floor(degrees));
    }

    private static String share(double share) {
        double percent = 100 * share;
        return percent > 0 && percent < 0.5 ? "< 1 %" : Math.round(percent) + " %";
    }

    /** The table as lines of text with aligned columns, closed by the combined and the expanded uncertainty. */
    public String text() {
        List<List<String>> lines = new ArrayList<>();
        lines.add(HEADS);
        rows.forEach(row -> lines.add(row.cells()));
        return TextTable.aligned(lines) + "u_c = " + combined + ", ν_eff = " + freedom + ", k = " + coverage + ", U = "
                + expanded + "\n";
    }
}
