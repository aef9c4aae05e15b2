package org.axtrial.measure;

import java.util.ArrayList;
import java.util.List;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;

/**
 * The strongest oscillation of a speed that should be constant, by least squares of a sine at each frequency (Lomb 1976,
 * from memory), which needs no even samples.
 *
 * @param frequency Hz, between one oscillation in the window and the bound
 * @param amplitude half of peak to peak, in the unit of the channel
 * @param bound highest frequency that the samples can tell, half the mean sample rate, Hz
 */
public record RippleFrequency(Measurement frequency, Measurement amplitude, double bound) {

    /** Samples used at most: a longer window adds little and the work grows with the square. */
    static final int MOST = 1024;

    static final int FEWEST = 8;

    /**
     * Looks for the oscillation.
     *
     * <p>Uncertainty of the frequency: √6·s/(π·A·T·√n) of a clear sine, T the window, s the residual standard deviation, A the
     * amplitude, else ± 1/(2T), rectangular; of the amplitude: s times √(2/n), and quantisation as {@link Dither} leaves it. Near half
     * the sample rate all samples may lie beside the peaks of the sine; there the amplitude is only told to be at least its
     * root mean square at the samples.
     *
     * @param trace the samples
     * @param speed name of the speed channel
     * @param from begin of the window, seconds
     * @param to end of the window, seconds, after {@code from}
     * @return both values missing with fewer than eight samples; of a signal that does not vary the frequency is missing and
     *     the amplitude 0
     * @throws IllegalArgumentException if the trace has no such channel or the window is empty
     */
    public static RippleFrequency of(Trace trace, String speed, double from, double to) {
        Channel channel = trace.channel(speed);
        Samples.requireWindow(from, to);
        Trace all = trace.between(from, to);
        Trace window = all.size() <= MOST ? all : all.between(from, all.time(MOST - 1));
        Draft frequency = new Draft(
                        "ripple frequency",
                        "Frequency of the sine that explains most of the sampled speed in the window, below half the sample"
                                + " rate; a faster ripple shows as a slower one.",
                        Unit.HERTZ)
                .from(window);
        Draft amplitude = new Draft(
                        "ripple amplitude",
                        "Amplitude, half of peak to peak, of the sine that explains most of the sampled speed in the window.",
                        channel.unit())
                .from(window)
                .resolution(channel.quantum());
        int n = window.size();
        double time = n < FEWEST ? 0 : window.time(n - 1) - window.time(0);
        if (time <= 0) {
            return missing(
                    frequency,
                    amplitude,
                    0,
                    "the window holds " + n + " of the " + FEWEST
                            + " samples needed; hold the speed longer or sample faster");
        }
        double bound = (n - 1) / (2 * time);
        Sine sine = new Sine(window.times(), window.values(speed));
        if (sine.variance() == 0) {
            return new RippleFrequency(
                    frequency.missing("the sampled speed does not vary"),
                    amplitude.step("quantisation", channel).value(0),
                    bound);
        }
        double best = sine.strongest(1 / time, bound);
        Sine.Fit fit = sine.at(best);
        double residual = Math.sqrt(Math.max(0, sine.variance() - fit.power()) * n / Math.max(1, n - 3));
        Scatter left = new Scatter(0, residual, n, 0, n);
        frequency.resolution(1 / time).add(ofFrequency(best, fit, left, time));
        amplitude
                .add(Contribution.rectangular(
                        "quantisation",
                        "one step is " + Printed.brief(channel.quantum(), channel.unit()),
                        Dither.halfWidth(left, channel.quantum())))
                .add(new Contribution(
                        "what the sine leaves",
                        Contribution.Evaluation.A,
                        "s = " + Printed.brief(residual, channel.unit()) + " of " + n + " samples",
                        residual * Math.sqrt(2.0 / n),
                        Math.max(1, n - 3)));
        return new RippleFrequency(
                frequency.value(best),
                fit.told()
                        ? amplitude.value(fit.amplitude())
                        : amplitude.value(Math.sqrt(fit.power()), Measurement.Bound.AT_LEAST),
                bound);
    }

    /**
     * A clear sine of two oscillations or more is known to √6·s/(π·A·T·√n), s what it leaves, A its amplitude (least variance of an
     * unbiased estimate; Rife and Boorstyn 1974, from memory); another one to half an oscillation in the window.
     */
    private static Contribution ofFrequency(double frequency, Sine.Fit fit, Scatter left, double time) {
        int n = left.n();
        boolean clear = fit.isClear(frequency * time, left.deviation(), n);
        return clear
                ? new Contribution(
                        "what the sine leaves",
                        Contribution.Evaluation.A,
                        "residuals of " + n + " samples over " + Printed.brief(time) + " s",
                        Math.sqrt(6.0 / n) * left.deviation() / (Math.PI * fit.amplitude() * time),
                        Math.max(1, n - 4))
                : Contribution.rectangular(
                        "length of the window", "one oscillation in " + Printed.brief(time) + " s", 1 / (2 * time));
    }

    /**
     * True frequencies that would show the same: f, and m·f_s ± f for the sample rate f_s, which is twice the bound.
     *
     * @param highest up to which to list them, Hz
     */
    public List<Double> aliases(double highest) {
        List<Double> result = new ArrayList<>();
        double rate = 2 * bound;
        for (int m = 0; m * rate - frequency.value() <= highest && rate > 0; m++) {
            for (double f : new double[] {m * rate - frequency.value(), m * rate + frequency.value()}) {
                if (f > 0 && f <= highest) {
                    result.add(f);
                }
            }
        }
        return result;
    }

    private static RippleFrequency missing(Draft frequency, Draft amplitude, double bound, String why) {
        return new RippleFrequency(frequency.missing(why), amplitude.missing(why), bound);
    }
}
