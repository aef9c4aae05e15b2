package org.axtrial.measure;

import java.util.Arrays;
import java.util.Optional;
import org.axtrial.trace.LatchedPeak;
import org.axtrial.trace.Trace;

/** A peak that the drive has latched, which misses nothing between samples, held against the samples. */
final class Latched {

    private Latched() {}

    /**
     * The latched peak of a signal where the drive has one and samples to hold it against, else the sampled one.
     *
     * <p>Uncertainty: q/√12 of the step of the latch. A latch cannot show less than a sample of its time by more than a step,
     * and one that has stayed as it was when it was cleared has caught nothing: where the samples say otherwise it is not
     * what the drive description says, and decides nothing.
     *
     * @param trace of the whole motion
     * @param definition one sentence for the latched value
     * @param sampled largest size of the samples
     */
    static Measurement preferred(Trace trace, String signal, String definition, Measurement sampled) {
        Optional<LatchedPeak> found = trace.latched().stream()
                .filter(peak -> peak.of().name().equals(signal))
                .findFirst();
        if (found.isEmpty() || sampled.missing().isPresent()) {
            return sampled;
        }
        LatchedPeak peak = found.get();
        double step = peak.of().quantum();
        String beside = "largest sample " + Printed.brief(sampled.value(), sampled.unit());
        Draft draft = new Draft(sampled.name(), definition, peak.of().unit())
                .source(Source.LATCHED)
                .resolution(step)
                .add(Contribution.quantisation(
                        "step of the latch",
                        "one step is " + Printed.brief(step, peak.of().unit()) + "; " + beside,
                        step));
        sampled.marks().forEach(mark -> draft.mark(beside, mark.seconds()));
        return draft.value(peak.value()).withReservation(unfit(trace, peak, sampled));
    }

    private static Optional<String> unfit(Trace trace, LatchedPeak peak, Measurement sampled) {
        double step = Math.max(peak.of().quantum(), sampled.resolution()) * (1 + Samples.ROUNDING);
        String told =
                "the drive latched " + Printed.brief(peak.value(), peak.of().unit()) + " and the largest sample is "
                        + Printed.brief(sampled.value(), sampled.unit());
        if (sampled.value() - peak.value() > step) {
            return Optional.of(
                    told + ", which a latch cannot miss; look at the address, scale and unit of the latch in the"
                            + " drive description");
        }
        boolean grown = peak.value() > peak.cleared();
        if (!grown
                && peak.value()
                        > Math.max(sampled.value(), atRest(trace, peak.of().name())) + step) {
            return Optional.of(told + ", but the latch showed the same before the command, so it may be of an earlier"
                    + " motion; look at clearPeaks in the drive description");
        }
        return Optional.empty();
    }

    /**
     * The size up to which the signal was seen before the command, when the latch was cleared: its largest sample and once
     * more the spread of the few there are. The torque that holds a hanging load can be more than the motion takes.
     */
    private static double atRest(Trace trace, String signal) {
        double[] sizes = Arrays.stream(trace.between(Double.NEGATIVE_INFINITY, -Double.MIN_VALUE)
                        .values(signal))
                .map(Math::abs)
                .sorted()
                .toArray();
        return sizes.length == 0 ? 0 : 2 * sizes[sizes.length - 1] - sizes[0];
    }
}
