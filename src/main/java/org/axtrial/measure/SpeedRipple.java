package org.axtrial.measure;

import java.util.Arrays;
import java.util.Optional;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.hipparchus.stat.descriptive.moment.Mean;
import org.hipparchus.stat.descriptive.moment.StandardDeviation;

/** How much the reported speed varies while it should be constant. Ripple faster than half the sample rate is missed. */
public final class SpeedRipple {

    private static final int FEWEST = 3;

    private SpeedRipple() {}

    /**
     * Peak-to-peak ripple, 100 · (max − min) / |mean|.
     *
     * <p>Uncertainty: quantisation of both extremes, triangular with half-width q; what each extreme may hide between samples, as
     * of a peak.
     *
     * @param trace the samples
     * @param speed name of the speed channel
     * @param from begin of the window, seconds
     * @param to end of the window, seconds, after {@code from}
     * @return percent; missing with fewer than three samples, or when the mean speed is zero within one step
     * @throws IllegalArgumentException if the trace has no such channel or the window is empty
     */
    public static Measurement of(Trace trace, String speed, double from, double to) {
        Draft draft = new Draft(
                "speed ripple",
                "Largest minus smallest sampled speed in the window, in percent of the mean speed (peak to peak).",
                Unit.PERCENT);
        return measure(trace, speed, from, to, draft, (window, values, mean, quantum) -> {
            double[] mirrored = Arrays.stream(values).map(v -> -v).toArray();
            int most = Samples.largest(values);
            int least = Samples.largest(mirrored);
            double steps = quantum * mean / 100 / Math.sqrt(12);
            Samples.Hidden above =
                    Samples.hiddenAbove(window, values, values, most).without(steps);
            Samples.Hidden below =
                    Samples.hiddenAbove(window, mirrored, mirrored, least).without(steps);
            draft.add(Contribution.triangular("quantisation of both extremes", step(quantum), quantum))
                    .hiddenPeak("largest speed between samples", above.times(100 / mean), 100 * above.above() / mean)
                    .hiddenPeak("smallest speed between samples", below.times(100 / mean), 100 * below.above() / mean);
            return 100 * (values[most] - values[least]) / mean;
        });
    }

    /**
     * RMS ripple, 100 · √(Σ(v − mean)²/n) / |mean|.
     *
     * <p>Uncertainty: quantisation q/√12, what ν degrees of freedom make of a standard deviation ({@link DeviationSpread}), or of a
     * {@link Wave} its noise and its unfinished oscillation, and what the signal may do in gaps.
     *
     * @return percent; missing as {@link #of}
     */
    public static Measurement rms(Trace trace, String speed, double from, double to) {
        Draft draft = new Draft(
                "speed ripple RMS",
                "Root mean square deviation of the sampled speed from its mean in the window, in percent of the mean.",
                Unit.PERCENT);
        return measure(trace, speed, from, to, draft, (window, values, mean, quantum) -> {
            double ripple = 100 * new StandardDeviation(false).evaluate(values) / mean;
            Optional<Wave> wave = Wave.in(window, speed);
            double steps = wave.map(w -> w.steps(quantum * mean / 100, ripple * mean / 100) * 100 / mean)
                    .orElse(quantum / 2);
            draft.add(Contribution.rectangular("quantisation", step(quantum), steps));
            spread(draft, wave, Scatter.of(values), ripple, 100 / mean).add(Samples.gaps(window, values, 100 / mean));
            return ripple;
        });
    }

    /**
     * What n samples make of a root mean square: of noise that of a standard deviation; of a wave of amplitude A with noise s beside it,
     * √(A²/2 + s²), that of its amplitude, s·√(2/n), of s, s/√(2ν), and of an unfinished oscillation.
     */
    private static Draft spread(Draft draft, Optional<Wave> wave, Scatter all, double ripple, double percent) {
        if (wave.isEmpty()) {
            double freedom = all.degreesOfFreedom();
            return draft.add(new Contribution(
                    "spread of the deviation",
                    Contribution.Evaluation.A,
                    all.n() + " samples",
                    ripple * DeviationSpread.relative(freedom),
                    freedom));
        }
        Scatter left = wave.get().left();
        double rms = ripple / percent;
        double ofAmplitude = wave.get().amplitude() * left.deviation() * Math.sqrt(2.0 / left.n()) / (2 * rms);
        double ofNoise = left.deviation() * left.deviation() / rms / Math.sqrt(2 * left.degreesOfFreedom());
        wave.get().addToRootMeanSquare(draft, rms, percent);
        return draft.add(new Contribution(
                "what the wave leaves",
                Contribution.Evaluation.A,
                left.n() + " samples about their wave",
                percent * Math.hypot(ofAmplitude, ofNoise),
                left.degreesOfFreedom()));
    }

    @FunctionalInterface
    private interface Ripple {
        /** Gets the window, the speeds, the size of their mean, and the speed quantum in percent of it. */
        double of(Trace window, double[] values, double mean, double quantumPercent);
    }

    private static Measurement measure(Trace trace, String speed, double from, double to, Draft draft, Ripple ripple) {
        Channel channel = trace.channel(speed);
        Samples.requireWindow(from, to);
        Trace window = trace.between(from, to);
        draft.from(window);
        if (window.size() < FEWEST) {
            return draft.missing("the window holds " + window.size() + " of the " + FEWEST
                    + " samples needed; hold the speed longer or sample faster");
        }
        double[] values = window.values(speed);
        double mean = Math.abs(new Mean().evaluate(values));
        if (mean <= channel.quantum()) {
            return draft.missing("the mean speed is zero within one step, so that ripple has nothing to be a percentage"
                    + " of; hold a speed");
        }
        double quantum = 100 * channel.quantum() / mean;
        double value = ripple.of(window, values, mean, quantum);
        return draft.resolution(quantum)
                .mark("ripple from", window.time(0))
                .mark("ripple to", window.time(window.size() - 1))
                .value(value);
    }

    private static String step(double quantumPercent) {
        return "one step of the speed signal is " + Printed.brief(quantumPercent) + " % of the mean";
    }
}
