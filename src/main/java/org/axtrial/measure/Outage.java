package org.axtrial.measure;

import org.axtrial.quantity.Unit;

/** What an axis did while nobody could look at it. */
public final class Outage {

    private Outage() {}

    /**
     * How far an axis went from the last look before its link was lost to where it came to rest.
     *
     * <p>Uncertainty: the link was lost anywhere between that look and the next one, which at the speed of that moment is
     * a rectangular distribution, half-width v·T/2, about a value that is too large by as much; and one count at each end.
     *
     * @param from position at the last look, in the given unit
     * @param to position at rest
     * @param speed at the last look, the given unit per second
     * @param period seconds between looks, positive
     * @param count one count of the register in the given unit, positive
     */
    public static Measurement distance(double from, double to, double speed, double period, double count, Unit unit) {
        Draft draft = new Draft(
                        "distance after the loss of the link",
                        "Position at rest minus position at the last look before the loss, without sign.",
                        unit)
                .resolution(count);
        String how = "one step is " + Printed.brief(count, unit);
        return draft.add(Contribution.rectangular(
                        "instant of the loss",
                        "lost within one sample period at " + Printed.brief(Math.abs(speed), unit.perSecond()),
                        Math.abs(speed) * period / 2))
                .add(Contribution.quantisation("quantisation before", how, count))
                .add(Contribution.quantisation("quantisation at rest", how, count))
                .value(Math.abs(to - from));
    }

    /**
     * How long it took an axis to come to rest after its link was lost: a bound, because nobody looked. At most the time
     * until it was seen again if it stood then, at least that time if it still moved.
     *
     * @param lost last look before the loss, seconds
     * @param found first look afterwards, seconds, later
     * @param stood whether it stood at that look
     */
    public static Measurement time(double lost, double found, boolean stood) {
        return new Draft(
                        "time to rest after the loss of the link",
                        "From the last look before the loss to the first look afterwards: the axis was at rest by then,"
                                + " or still moved.",
                        Unit.SECOND)
                .source(Source.RUNNER)
                .value(found - lost, stood ? Measurement.Bound.AT_MOST : Measurement.Bound.AT_LEAST);
    }
}
