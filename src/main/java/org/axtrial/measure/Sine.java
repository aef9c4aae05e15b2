package org.axtrial.measure;

/** Values less their mean, ready to be held against sines. */
final class Sine {

    /** Trial frequencies for each independent one, so that a peak is not missed between two. */
    private static final int OVERSAMPLING = 4;

    /** Power of noise alone exceeds so many times its variance in one of 100 000 trial frequencies. */
    private static final double CLEAR = 24;

    private static final int REFINEMENTS = 40;

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

    /**
     * The sine of a frequency that fits best.
     *
     * @param power its mean square at the samples
     * @param ofSine part in phase with the first sample
     * @param ofCosine part a quarter of an oscillation ahead of it
     * @param told whether the samples lie all over the sine, so that its amplitude is known
     */
    record Fit(double power, double ofSine, double ofCosine, boolean told) {

        /** Half of peak to peak. */
        double amplitude() {
            return StrictMath.hypot(ofSine, ofCosine);
        }

        /**
         * Whether it is no accident, and two oscillations or more.
         *
         * @param oscillations in the window
         * @param left standard deviation of what it leaves of n values
         */
        boolean isClear(double oscillations, double left, int n) {
            return told && oscillations >= 2 && n * power > CLEAR * left * left;
        }
    }

    /** Frequency of most power between two, of which the lowest is that of one oscillation in the window. */
    double strongest(double lowest, double highest) {
        double step = lowest / OVERSAMPLING;
        double best = lowest;
        double most = -1;
        for (int i = 0; lowest + i * step <= highest; i++) {
            double power = power(lowest + i * step);
            if (power > most) {
                most = power;
                best = lowest + i * step;
            }
        }
        double left = Math.max(lowest, best - step);
        double right = Math.min(highest, best + step);
        for (int i = 0; i < REFINEMENTS; i++) {
            double third = (right - left) / 3;
            if (power(left + third) < power(right - third)) {
                left += third;
            } else {
                right -= third;
            }
        }
        return (left + right) / 2;
    }

    double power(double frequency) {
        return at(frequency).power();
    }

    /** What a sine leaves of the values. */
    double[] left(double frequency, Fit fit) {
        double[] left = new double[values.length];
        for (int i = 0; i < left.length; i++) {
            double phase = 2 * Math.PI * frequency * (times[i] - times[0]);
            left[i] = values[i] - fit.ofSine() * StrictMath.sin(phase) - fit.ofCosine() * StrictMath.cos(phase);
        }
        return left;
    }

    Fit at(double frequency) {
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
        double power = (ys * ys * cc - 2 * ys * yc * sc + yc * yc * ss) / determinant / times.length;
        double ofSine = (ys * cc - yc * sc) / determinant;
        double ofCosine = (yc * ss - ys * sc) / determinant;
        // Evenly spread samples have ss·cc = n²/4 and sc = 0.
        boolean told = determinant > times.length * (double) times.length / 8;
        return new Fit(power, ofSine, ofCosine, told);
    }
}
