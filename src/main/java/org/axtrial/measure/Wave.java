package org.axtrial.measure;

import java.util.List;
import java.util.Optional;
import org.axtrial.trace.Gap;
import org.axtrial.trace.Trace;

/**
 * A ripple that is a wave: no noise, so that a mean over many of its oscillations does not hang on it, and that of a few only
 * by what is left of an unfinished one.
 *
 * @param amplitude half of peak to peak, in the unit of the signal
 * @param frequency Hz
 * @param time length of the window, seconds; it holds two oscillations or more
 * @param gaps between the samples of the window
 * @param left scatter of what the wave leaves of the signal, its mean that of the signal
 */
record Wave(double amplitude, double frequency, double time, List<Gap> gaps, Scatter left) {

    /** Noise whose samples are related to each other has some power at every low frequency, but not this part of all at one. */
    private static final double MOST_OF_ALL = 0.8;

    /** The wave in a window if it is clear there, of eight samples or more, and not so many that to look for it takes long. */
    static Optional<Wave> in(Trace window, String signal) {
        int n = window.size();
        if (n < RippleFrequency.FEWEST || n > RippleFrequency.MOST) {
            return Optional.empty();
        }
        double time = window.time(n - 1) - window.time(0);
        double mean = Scatter.of(window.values(signal)).mean();
        Sine sine = new Sine(window.times(), window.values(signal));
        if (time <= 0 || sine.variance() == 0) {
            return Optional.empty();
        }
        double frequency = sine.strongest(1 / time, (n - 1) / (2 * time));
        Sine.Fit fit = sine.at(frequency);
        Scatter left = Scatter.of(sine.left(frequency, fit));
        boolean clear =
                fit.isClear(frequency * time, left.deviation(), n) && fit.power() >= MOST_OF_ALL * sine.variance();
        return clear
                ? Optional.of(new Wave(
                        fit.amplitude(),
                        frequency,
                        time,
                        window.gaps(),
                        new Scatter(mean, left.deviation(), n, left.autocorrelation(), left.seenIn())))
                : Optional.empty();
    }

    /**
     * What an unfinished oscillation leaves in the mean, A·(cos φ₁ − cos φ₂)/(2πf·T) of a window that begins at a phase φ₁ and
     * ends at φ₂, of which nothing is known; and what no sample shows of the wave in a gap that is g longer than usual, no more than
     * A·sin(πf·g)/(πf·T), at a phase of which nothing is known. T is the time without gaps, which is what the samples are the mean of.
     */
    void addToMean(Draft draft) {
        double withoutGaps = time - gaps.stream().mapToDouble(Gap::length).sum();
        double period = withoutGaps / Math.max(1, left.n() - 1 - gaps.size());
        double shown = withoutGaps + gaps.size() * period;
        addUnfinished(draft, amplitude / (2 * Math.PI * frequency * shown));
        double squares = 0;
        for (Gap gap : gaps) {
            double missed = amplitude
                    * StrictMath.sin(Math.PI * frequency * (gap.length() - period))
                    / (Math.PI * frequency * shown);
            squares += missed * missed / 2;
        }
        draft.add(new Contribution(
                "wave in gaps",
                Contribution.Evaluation.B,
                gaps.size() + (gaps.size() == 1 ? " gap" : " gaps") + " without samples",
                Math.sqrt(squares),
                Double.POSITIVE_INFINITY));
    }

    /**
     * The same of an unfinished oscillation in the mean square, A²/2·(sin 2φ₁ − sin 2φ₂)/(4πf·T), by way of a root mean square.
     *
     * @param percent factor from the unit of the signal to that of the draft
     */
    void addToRootMeanSquare(Draft draft, double rms, double percent) {
        addUnfinished(draft, percent * amplitude * amplitude / (16 * Math.PI * frequency * time * rms));
    }

    /** Half-width of what steps of the reading make of the root mean square: those of a wave over several are noise, q²/12 of mean square. */
    double steps(double quantum, double rms) {
        return amplitude > 2 * quantum ? quantum * quantum / (24 * rms) : quantum / 2;
    }

    private void addUnfinished(Draft draft, double most) {
        String how = Printed.brief(frequency * time) + " oscillations in the window";
        draft.add(Contribution.uShaped("oscillation that has begun before", how, most))
                .add(Contribution.uShaped("oscillation that is not finished", how, most));
    }
}
