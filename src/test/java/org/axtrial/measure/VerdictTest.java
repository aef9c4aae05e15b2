package org.axtrial.measure;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import org.junit.jupiter.api.Test;

class VerdictTest {

    @Test
    void nothingProvesNothing() {
        assertThat(Verdict.worst(List.of())).isEqualTo(Verdict.NOT_RUN);
    }

    @Test
    void theWorstDecides() {
        assertThat(Verdict.worst(List.of(Verdict.PASS, Verdict.INCONCLUSIVE, Verdict.PASS)))
                .isEqualTo(Verdict.INCONCLUSIVE);
        assertThat(Verdict.worst(List.of(Verdict.INCONCLUSIVE, Verdict.FAIL))).isEqualTo(Verdict.FAIL);
        assertThat(Verdict.worst(List.of(Verdict.FAIL, Verdict.ERROR))).isEqualTo(Verdict.ERROR);
        assertThat(Verdict.worst(List.of(Verdict.NOT_APPLICABLE, Verdict.PASS))).isEqualTo(Verdict.PASS);
    }

    @Property
    void onlyPassesAndNotApplicableOnesGivePass(@ForAll List<Verdict> verdicts) {
        boolean allGood = !verdicts.isEmpty()
                && verdicts.contains(Verdict.PASS)
                && verdicts.stream().allMatch(v -> v == Verdict.PASS || v == Verdict.NOT_APPLICABLE);
        assertThat(Verdict.worst(verdicts) == Verdict.PASS).isEqualTo(allGood);
    }

    @Test
    void sourcesArePrintedAsTheReportNamesThem() {
        assertThat(Source.values())
                .extracting(Source::printed)
                .doesNotContain("")
                .doesNotHaveDuplicates();
        assertThat(Source.DRIVE.printed()).isEqualTo("drive-reported");
    }
}
