package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.util.List;
import java.util.stream.Stream;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** The study of coverage with fewer trials: every interval holds the truth as often as it says. */
class CoverageTest {

    private static final int TRIALS = 1500;

    /** Three standard deviations of a binomial share; the seeds are fixed, so that no run differs from the other. */
    private static final double DEVIATIONS = 3;

    static Stream<CoverageCase> cases() {
        return CoverageStudy.cases().stream();
    }

    @ParameterizedTest
    @MethodSource("cases")
    void theIntervalHoldsTheTruth(CoverageCase test) {
        // A simulated drive takes some milliseconds for each trial.
        int trials = test.path() == CoverageCase.Path.SIMULATED ? TRIALS / 4 : TRIALS;
        Coverage coverage = Coverage.of(test, trials);
        assertThat(coverage.trials()).as("trials with a value").isGreaterThan(trials * 9 / 10);
        assertThat(coverage.meets(test.demand(), DEVIATIONS))
                .as(test.name() + ": " + 100 * coverage.share() + " %")
                .isTrue();
    }

    /** The committed table has the rows of the study, and each of its shares is within its demand. */
    @Test
    void theCommittedTableIsOfTheseCases() throws Exception {
        String document = Files.readString(CoverageStudy.DOCUMENT);
        List<String> lines = document.substring(
                        document.indexOf(CoverageStudy.BEGIN) + CoverageStudy.BEGIN.length(),
                        document.indexOf(CoverageStudy.END))
                .lines()
                .skip(2)
                .toList();
        List<CoverageCase> cases = CoverageStudy.cases();
        assertThat(lines).hasSameSizeAs(cases);
        for (int i = 0; i < lines.size(); i++) {
            CoverageCase test = cases.get(i);
            String[] cells = lines.get(i).split(" *\\| *", -1);
            assertThat(cells[1] + ", " + cells[2]).isEqualTo(test.name());
            assertThat(Double.parseDouble(cells[5]) / 100).isBetween(test.demand().low, test.demand().high);
        }
    }

    @Test
    void aShareIsCountedAsItIs() {
        CoverageCase half = CoverageCase.band("value", "known error", random -> {
            double error = random.nextBoolean() ? 0.5 : 3;
            return new CoverageCase.Trial(
                    1,
                    new Draft("value", "known error", Unit.ONE)
                            .add(new Contribution(
                                    "part", Contribution.Evaluation.B, "stated", 1, Double.POSITIVE_INFINITY))
                            .value(1 + error));
        });
        Coverage coverage = Coverage.of(half, 1000);
        assertThat(coverage.share()).isBetween(0.45, 0.55);
        assertThat(coverage.needed()).isEqualTo(1.5);
        assertThat(coverage.meets(half.demand(), 3)).isFalse();
    }
}
