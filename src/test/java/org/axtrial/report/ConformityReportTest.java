package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.SampleRun;
import org.axtrial.measure.Criterion;
import org.axtrial.measure.DecisionRule;
import org.axtrial.measure.Judge;
import org.axtrial.measure.Judgement;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** What the report says of how sure a verdict is. */
@Timeout(60)
class ConformityReportTest {

    @TempDir
    private Path reports;

    private String check(DecisionRule rule, double limit) throws IOException {
        List<RunEvent> events = new ArrayList<>(SampleRun.small());
        RunEvent.CheckJudged told = (RunEvent.CheckJudged) events.get(4);
        Judgement judgement = Judge.judge(
                told.judgement().measured(),
                new Criterion.AtMost(Quantity.of(limit, Unit.REVOLUTION)),
                Conversion.SAME_DIMENSION,
                rule);
        events.set(
                4,
                new RunEvent.CheckJudged(
                        told.at(), told.key(), told.name(), judgement, told.trace(), told.marks(), told.place()));
        EvidencePack pack = EvidencePack.create(reports.resolve("run"), SampleRun.RUN_ID, List.of());
        events.forEach(pack::accept);
        RunRecord record = pack.finish();
        HtmlReport.write(pack.folder(), record);
        Document page = Jsoup.parse(pack.folder().resolve("report.html"));
        return page.expectFirst("tbody.check").text();
    }

    // The sample is 1.00002 rev with u = 7.024e-7 rev and 38 degrees of freedom, so that U = 1.45e-6 rev. Source:
    // Student's t of 38 degrees of freedom at 1.4237, 0.9187 (Φ would be 0.9227).
    @Test
    void zoneGuardBandProbabilityAndRatioStandUnderTheCheck() throws IOException {
        assertThat(check(new DecisionRule.NonBinary(1), 1.000021))
                .contains(
                        "k = 2.07",
                        "INCONCLUSIVE conditional pass",
                        "Conditional pass, guard band 0.00000145 rev; conformance probability 91.87 %",
                        "test uncertainty ratio");
    }

    @Test
    void simpleAcceptanceTellsTheZoneBesideItsPass() throws IOException {
        assertThat(check(DecisionRule.SIMPLE, 1.000021)).contains("PASS conditional pass");
    }

    @Test
    void whatIsClearOfTheLimitHasNoZoneToTell() throws IOException {
        assertThat(check(new DecisionRule.GuardBand(1), 1.1))
                .contains("PASS", "Conformance probability > 99.99 %")
                .doesNotContain("onditional");
    }
}
