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
    private static final int MOST = 1024;

    private static final int FEWEST = 8;

    /** Trial frequencies for each independent one, so that a peak is not missed between two. */
    private static final int OVERSAMPLING = 4;

    private static final int REFINEMENTS = 40;

    /**
     * Looks for the oscillation.
     *
     * <p>Uncertainty of the frequency: ± 1/(2T), rectangular, T the window; of the amplitude: residual standard deviation
     * times √(2/n), and quantisation q/√12.
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
        double best = strongest(sine, 1 / time, bound, 1 / (OVERSAMPLING * time));
        double explained = sine.power(best);
        double residual = Math.sqrt(Math.max(0, sine.variance() - explained) * n / Math.max(1, n - 3));
        frequency
                .add(Contribution.rectangular(
                        "length of the window", "one oscillation in " + Printed.brief(time) + " s", 1 / (2 * time)))
                .resolution(1 / time);
        amplitude
                .step("quantisation", channel)
                .add(new Contribution(
                        "what the sine leaves",
                        Contribution.Evaluation.A,
                        "s = " + Printed.brief(residual, channel.unit()) + " of " + n + " samples",
                        residual * Math.sqrt(2.0 / n),
                        Math.max(1, n - 3)));
        return new RippleFrequency(frequency.value(best), amplitude.value(Math.sqrt(2 * explained)), bound);
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

    private static double strongest(Sine sine, double lowest, double highest, double step) {
        double best = lowest;
        double most = -1;
        for (int i = 0; lowest + i * step <= highest; i++) {
            double power = sine.power(lowest + i * step);
            if (power > most) {
                most = power;
                best = lowest + i * step;
            }
        }
        double left = Math.max(lowest, best - step);
        double right = Math.min(highest, best + step);
        for (int i = 0; i < REFINEMENTS; i++) {
            double third = (right - left) / 3;
            if (sine.power(left + third) < sine.power(right - third)) {
                left += third;
            } else {
                right -= third;
            }
        }
        return (left + right) / 2;
    }

    /** Values less their mean, ready to be held against sines. */
    private static final class Sine {

        private final double[] times;
        private final double[] values;
        private final double variance;

        Sine(double[] times, double[] values) {
            this.times = times;
            this.values = values;
            double mean = Scatter.of(values).mean();
            double squares = 0;
            for (int i = 0; i < values.length; i++) {
                values[i] -= mean;
                squares += values[i] * values[i];
            }
            variance = squares / values.length;
        }

        double variance() {
            return variance;
        }

        /** Mean square of the sine of that frequency that fits best. */
        double power(double frequency) {
            double ss = 0;
            double cc = 0;
            double sc = 0;
            double ys = 0;
            double yc = 0;
            for (int i = 0; i < times.length; i++) {
                double phase = 2 * Math.PI * frequency * (times[i] - times[0]);
                double s = StrictMath.sin(phase);
                double c = StrictMath.cos(phase);
                ss += s * s;
                cc += c * c;
                sc += s * c;
                ys += values[i] * s;
                yc += values[i] * c;
            }
            // Never 0: the first sample has s = 0 and c = 1, so that ss·cc exceeds sc² by ss at least (Cauchy and
            // Schwarz), and ss is 0 only if all samples are of one instant.
            double determinant = ss * cc - sc * sc;
            return (ys * ys * cc - 2 * ys * yc * sc + yc * yc * ss) / determinant / times.length;
        }
    }
}
