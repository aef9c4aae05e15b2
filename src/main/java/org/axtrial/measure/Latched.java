package org.axtrial.measure;

import java.util.Optional;
import org.axtrial.trace.LatchedPeak;
import org.axtrial.trace.Trace;

/** A peak that the drive has latched, which misses nothing between samples, held against the samples. */
final class Latched {

    private Latched() {}

    /**
     * The latched peak of a signal where the drive has one, else the sampled one.
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
        if (found.isEmpty()) {
            return sampled;
        }
        LatchedPeak peak = found.get();
        double step = peak.of().quantum();
        Draft draft = new Draft(sampled.name(), definition, peak.of().unit())
                .source(Source.LATCHED)
                .resolution(step)
                .add(Contribution.quantisation(
                        "step of the latch",
                        "one step is " + Printed.brief(step, peak.of().unit()) + "; " + beside(sampled),
                        step));
        if (sampled.missing().isEmpty()) {
            sampled.marks()
                    .forEach(mark -> draft.mark(
                            "largest sample " + Printed.brief(sampled.value(), sampled.unit()), mark.seconds()));
        }
        return draft.value(peak.value()).withReservation(unfit(peak, sampled));
    }

    private static String beside(Measurement sampled) {
        return sampled.missing().isPresent()
                ? "no sample was taken after the command"
                : "the largest sample is " + Printed.brief(sampled.value(), sampled.unit());
    }

    private static Optional<String> unfit(LatchedPeak peak, Measurement sampled) {
        if (sampled.missing().isPresent()) {
            return Optional.empty();
        }
        double step = Math.max(peak.of().quantum(), sampled.resolution()) * (1 + Samples.ROUNDING);
        String told =
                "the drive latched " + Printed.brief(peak.value(), peak.of().unit()) + " and the largest sample is "
                        + Printed.brief(sampled.value(), sampled.unit());
        if (sampled.value() - peak.value() > step) {
            return Optional.of(
                    told + ", which a latch cannot miss; look at the address, scale and unit of the latch in the"
                            + " drive description");
        }
        if (peak.value() == peak.cleared() && peak.value() - sampled.value() > step) {
            return Optional.of(told + ", but the latch showed the same before the command, so it may be of an earlier"
                    + " motion; look at clearPeaks in the drive description");
        }
        return Optional.empty();
    }
}
