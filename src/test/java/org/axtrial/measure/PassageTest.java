package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;
import static org.axtrial.measure.Sampled.X;

import java.util.List;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Trace;
import org.junit.jupiter.api.Test;

/** Where a signal passes a level, by hand: samples 10 ms apart, steps of 1, round trips of 4 ms. */
class PassageTest {

    private static final Sampled TEN_MS = Sampled.every(0.01).quantum(1).roundTrip(0.004);

    private static List<Contribution> budget(Passage passage) {
        Draft draft = new Draft("value", "by hand", Unit.SECOND);
        passage.contribute(draft, "10 %");
        return draft.value(0).budget().contributions();
    }

    @Test
    void theLineBetweenTwoSamplesTellsTheMoment() {
        Passage passage = Passage.first(TEN_MS.values(0, 0, 8, 18, 30), X, 10).orElseThrow();
        assertThat(passage.time()).isCloseTo(0.012, within(1e-12));
        assertThat(passage.after()).isEqualTo(2);
    }

    // Source: JCGM 100:2008, 4.3.7, F.2.2.1 and 5.1.2. Level 10 lies 0.2 of the way from 8 to 18: 2 ms · 0.8 and · 0.2,
    // a step of
    // 1/1000 s times √(0.2² + 0.8²); the line before, 800 /s, is at 10 after 2.5 ms instead of 2, that after, 1200 /s,
    // 8/1200 s before 18, at
    // 3.33 ms; a quarter of the larger as a standard deviation.
    @Test
    void theBudgetByHand() {
        List<Contribution> parts =
                budget(Passage.first(TEN_MS.values(0, 0, 8, 18, 30), X, 10).orElseThrow());
        assertThat(parts)
                .extracting(Contribution::name)
                .containsExactly(
                        "instant of the sample before 10 %",
                        "instant of the sample after 10 %",
                        "quantisation at 10 %",
                        "way between the samples around 10 %");
        assertThat(parts.get(0).standardUncertainty()).isCloseTo(0.0016 / Math.sqrt(3), within(1e-12));
        assertThat(parts.get(1).standardUncertainty()).isCloseTo(0.0004 / Math.sqrt(3), within(1e-12));
        assertThat(parts.get(2).standardUncertainty())
                .isCloseTo(0.001 * Math.sqrt(0.68) / Math.sqrt(12), within(1e-12));
        assertThat(parts.get(3).spread()).isCloseTo((0.01 - 8 / 1200.0 - 0.002) * Math.sqrt(3) / 4, within(1e-9));
    }

    // Constructed: at rest until 5 ms after a sample, then 1000 /s; 10 % of 100 is passed 15 ms after it, which the
    // line between
    // the samples takes for 20/3 ms after the next.
    @Test
    void aRampThatBeginsBetweenTwoSamplesIsWithinItsInterval() {
        Passage passage =
                Passage.first(TEN_MS.values(0, 0, 0, 15, 25, 35), X, 10).orElseThrow();
        double truth = 0.015;
        assertThat(passage.time()).isNotCloseTo(truth, within(1e-4));
        assertThat(budget(passage).get(3).spread()).isCloseTo(Math.abs(passage.time() - truth), within(1e-9));
    }

    // A line before or after that is flat, or leads away, tells nothing; one that meets the level outside the interval
    // tells its end.
    @Test
    void linesThatLeadElsewhereTellNoMoreThanTheInterval() {
        assertThat(budget(Passage.first(TEN_MS.values(0, 9, 0, 20, 20), X, 10).orElseThrow()))
                .extracting(Contribution::name)
                .doesNotContain("way between the samples around 10 %");
        assertThat(budget(Passage.first(TEN_MS.values(0, 0, 2, 12, 13), X, 10).orElseThrow())
                        .get(3)
                        .spread())
                .isCloseTo(0.008 * Math.sqrt(3) / 4, within(1e-12));
    }

    @Test
    void theFirstOfTwoPassagesCountsAndTheEdgeBelongsToIt() {
        Trace twice = TEN_MS.values(0, 0, 10, 0, 20);
        assertThat(Passage.first(twice, X, 10).orElseThrow().time()).isCloseTo(0.01, within(1e-12));
        assertThat(Passage.first(TEN_MS.values(0, 10, 20, 30), X, 10)).isEmpty();
        assertThat(Passage.first(TEN_MS.values(0, 0, 9), X, 10)).isEmpty();
    }

    @Test
    void aLevelBelowZeroIsPassedDownwards() {
        Passage passage = Passage.first(TEN_MS.values(0, 5, -5, -15), X, -10).orElseThrow();
        assertThat(passage.time()).isCloseTo(0.015, within(1e-12));
        assertThat(budget(passage))
                .allSatisfy(c -> assertThat(c.standardUncertainty()).isPositive());
    }
}
