package org.axtrial.script;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.axis.AxisChannels;
import org.axtrial.measure.Contribution;
import org.axtrial.measure.Mark;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/** The speed that the drive itself reports, as against the one computed from displacement over time. */
final class ReportedSpeed {

    private ReportedSpeed() {}

    /**
     * Mean of the reported speed between two instants, in the unit of the channel. Uncertainty: scatter of the mean
     * (type A, s/√n, JCGM 100:2008, 4.2.3) and the quantum of the register as a rectangular distribution (4.3.7).
     *
     * @param from beginning of the steady part, seconds on the trace's axis
     * @param to its end
     */
    static Measurement of(Trace trace, double from, double to) {
        Channel channel = trace.channel(AxisChannels.SPEED);
        Trace steady = trace.between(from, to);
        double[] values = steady.values(AxisChannels.SPEED);
        int n = values.length;
        double mean = 0;
        for (double value : values) {
            mean += value / n;
        }
        double squares = 0;
        for (double value : values) {
            squares += (value - mean) * (value - mean);
        }
        Optional<String> missing =
                n < 2 ? Optional.of("only " + n + " samples fall into the steady part") : Optional.empty();
        List<Contribution> budget = n < 2
                ? List.of()
                : List.of(
                        new Contribution(
                                "scatter of the reported speed",
                                Contribution.Evaluation.A,
                                "s/√n of " + n + " samples",
                                Math.sqrt(squares / (n - 1) / n),
                                n - 1),
                        Contribution.rectangular(
                                "quantum of the speed register",
                                "half of " + Printed.number(channel.quantum()) + " "
                                        + channel.unit().symbol(),
                                channel.quantum() / 2));
        return new Measurement(
                "reported speed",
                "mean of the speed that the drive reports, from the end of the ramp to the order to stop",
                mean,
                channel.unit(),
                Measurement.Bound.EXACT,
                Source.DRIVE,
                steady.meanPeriod(),
                channel.quantum(),
                budget,
                List.of(new Mark("steady from", from), new Mark("steady to", to)),
                missing);
    }

    /** A measurement that could not be made, with the reason. */
    static Measurement missing(String name, String definition, org.axtrial.quantity.Unit unit, String why) {
        return new Measurement(
                name,
                definition,
                0,
                unit,
                Measurement.Bound.EXACT,
                Source.DRIVE,
                OptionalDouble.empty(),
                0,
                List.of(),
                List.of(),
                Optional.of(why));
    }
}
