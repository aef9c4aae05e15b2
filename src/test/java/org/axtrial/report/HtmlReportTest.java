package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;
import org.axtrial.evidence.TraceFile;
import org.axtrial.evidence.TraceRecord;
import org.axtrial.measure.Printed;
import org.axtrial.quantity.Conversion;
import org.jsoup.Jsoup;
import org.jsoup.nodes.Document;
import org.jsoup.nodes.Element;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(60)
class HtmlReportTest {

    @TempDir
    private Path reports;

    private Path folder;
    private Document page;

    @BeforeEach
    void writeReport() throws IOException {
        folder = SamplePack.write(reports, RunInfo.Mode.REHEARSAL);
        page = Jsoup.parse(folder.resolve("report.html"));
    }

    private String section(String heading) {
        for (Element h : page.select(".ledger > h3")) {
            if (h.text().equals(heading)) {
                return h.nextElementSiblings().get(0).text();
            }
        }
        throw new AssertionError("no section " + heading);
    }

    // Source: ISO/IEC 17025:2017, 7.8.2.1 (what a report must hold), paraphrased.
    @Test
    void firstPageAnswersWhatASignerAsks() {
        assertThat(page.expectFirst("h1").text()).isEqualTo("4711 Turntable cell, site acceptance");
        assertThat(page.expectFirst(".outcome .word").text()).isEqualTo("ERROR");
        assertThat(page.expectFirst(".outcome p").text())
                .isEqualTo("Of 11 trials, 2 failed or broke and 3 proved nothing either way.");
        assertThat(section("What was tested")).contains("Invented Customer Ltd", "X-0001", "Axis Z vertical lift");
        assertThat(section("Conditions"))
                .contains("2031-03-04 10:11:12 UTC", "R. Example", "Axtrial 0.1.0", "ILAC-G8:09/2019");
        assertThat(section("What failed")).contains("FAIL POS-01 on X", "ERROR TRQ-01 on Z", "did you mean torque?");
        assertThat(section("What was not proven, and why"))
                .contains("INCONCLUSIVE SET-01 on X", "BLOCKED LIM-01 on X", "NOT RUN COM-01 on Z");
        assertThat(section("Deviations and notes"))
                .contains(
                        "permit 12", " on attempt 2 of 2, which decides", "Axis Z was stopped", "standstill confirmed");
        assertThat(section("Signatures"))
                .contains("Tested by", "Witnessed by", "Accepted by", "Role", "Date and time zone")
                .contains("relate only to the items tested", "only in full");
        assertThat(page.expectFirst(".end").text()).isEqualTo("End of report");
    }

    @Test
    void everyTrialAndAttemptIsShown() {
        assertThat(page.select("article.trial")).hasSize(11);
        Element retried = page.select("article.trial").get(6);
        assertThat(retried.select(".attempt h4").eachText()).contains("Attempt 1 of 2: FAIL", "Attempt 2 of 2: PASS");
        assertThat(page.select("nav, article.trial header .v").eachText())
                .containsExactly(
                        "PASS",
                        "PASS",
                        "PASS",
                        "FAIL",
                        "INCONCLUSIVE",
                        "BLOCKED",
                        "PASS",
                        "PASS",
                        "ERROR",
                        "NOT RUN",
                        "NOT APPLICABLE");
    }

    @Test
    void checkRowHoldsAllThatAJudgementNeeds() {
        RunRecord record = RunRecord.read(folder);
        var check = record.trials().get(3).deciding().orElseThrow().checks().get(0);
        Element body = page.select("article.trial").get(3).expectFirst("tbody.check");
        assertThat(body.text())
                .contains(check.name())
                .contains(Printed.value(check.judgement()))
                .contains(Printed.limits(check.judgement()))
                .contains(Printed.margin(check.judgement()))
                .contains(Printed.uncertainty(check.judgement()))
                .contains("4 ms", "drive-reported", "FAIL", "above the upper limit by 0.0241 mm")
                .contains(check.measured().definition());
    }

    @Test
    void missingValueIsADashAndTheReasonStands() {
        Element rows = page.select("article.trial").get(4).select("tbody.check").get(1);
        assertThat(rows.select("td").get(0).text()).isEqualTo("—");
        assertThat(rows.text()).contains("the record ended before the target was reached");
    }

    @Test
    void hostileTextStaysText() throws IOException {
        assertThat(page.select("script, iframe, object, embed, link, img, form"))
                .isEmpty();
        assertThat(page.getAllElements().stream()
                        .flatMap(e -> e.attributes().asList().stream())
                        .filter(a -> a.getKey().startsWith("on")))
                .isEmpty();
        assertThat(page.text()).contains("</script><script>alert(1)</script>").contains("😀 שלום");
        String bytes = Files.readString(folder.resolve("report.html"));
        assertThat(bytes.codePoints().filter(c -> Character.isISOControl(c) && c != '\n' && c != '\t'))
                .isEmpty();
    }

    @Test
    void needsNothingBesideItself() throws IOException {
        String bytes = Files.readString(folder.resolve("report.html"));
        assertThat(bytes).doesNotContainPattern("(?i)(src|href)=\"(?!#)").doesNotContain("@import");
        assertThat(bytes.replaceAll("url\\(#[a-z0-9-]+\\)", "")).doesNotContain("url(");
        assertThat(page.select("meta[http-equiv=Content-Security-Policy]").attr("content"))
                .startsWith("default-src 'none'");
    }

    @Test
    void simulationIsMarkedAndTheRealThingIsNot() throws IOException {
        assertThat(page.title()).contains("(SIMULATED)");
        assertThat(page.expectFirst(".banner").text()).contains("SIMULATED").contains("nothing about a machine");
        assertThat(page.expectFirst("style").data()).contains("content: \"SIMULATED\"");
        Path real = SamplePack.write(reports.resolve("real"), RunInfo.Mode.REAL);
        assertThat(Files.readString(real.resolve("report.html"))).doesNotContain("SIMULATED");
    }

    @Test
    void footerNamesRunAndRecord() throws IOException {
        String hash = Sha256.of(folder.resolve("record.json"));
        assertThat(page.expectFirst("footer").text())
                .contains("2031-03-04_101112_demo")
                .contains(hash);
        assertThat(page.expectFirst("style").data())
                .contains("Run 2031-03-04_101112_demo")
                .contains(hash.substring(0, 16));
    }

    // Source: WCAG 2.2, techniques H63 (scope of table heads) and H67, SVG title; common practice.
    @Test
    void canBeReadAloud() {
        assertThat(page.expectFirst("html").attr("lang")).isEqualTo("en");
        assertThat(page.select("thead th:not([scope])")).isEmpty();
        assertThat(page.select("tbody th:not([scope])")).isEmpty();
        assertThat(page.select("svg.plot")).isNotEmpty().allSatisfy(svg -> {
            assertThat(svg.attr("role")).isEqualTo("img");
            assertThat(svg.expectFirst("title").text()).isNotEmpty();
            assertThat(svg.expectFirst("desc").text()).isNotEmpty();
        });
        List<String> ids = page.select("[id]").eachAttr("id");
        assertThat(ids).doesNotHaveDuplicates();
        assertThat(page.select("a[href^=#]").eachAttr("href"))
                .allSatisfy(href -> assertThat(ids).contains(href.substring(1)));
    }

    @Test
    void verdictsAreToldByWordAndShape() {
        assertThat(page.select(".v")).allSatisfy(v -> {
            assertThat(v.text()).isNotBlank();
            String shape = v.expectFirst("use").attr("href").substring(1);
            assertThat(page.getElementById(shape)).isNotNull();
        });
    }

    @Test
    void plotsShowBandMarksAndDeviation() {
        Element trial = page.select("article.trial").get(1);
        assertThat(trial.select("svg.plot > title").eachText())
                .anyMatch(t -> t.startsWith("Position"))
                .anyMatch(t -> t.startsWith("Deviation from the target"))
                .anyMatch(t -> t.startsWith("Speed"))
                .anyMatch(t -> t.startsWith("Torque"));
        assertThat(trial.select("svg.plot").get(1).select("rect.band")).hasSize(1);
        assertThat(trial.select("svg.plot").get(1).expectFirst("desc").text()).contains("± 0.36°");
        assertThat(trial.select("svg.plot").get(0).select(".mark-label").eachText())
                .containsExactly("arrived", "settled", "at rest");
        assertThat(trial.select("svg.plot").get(0).select("path.demand")).hasSize(1);
    }

    @Test
    void bandOfACheckInAnotherUnitIsDrawnByTheScaleOfTheAxis() {
        // Judged in counts, 66 of 65536 a revolution on a trace in revolutions: 21.75 arc minutes around the target.
        Element trial = page.select("article.trial").get(6);
        assertThat(trial.select("svg.plot").get(0).select("rect.band")).hasSize(1);
        assertThat(trial.select("svg.plot").get(1).expectFirst("desc").text()).contains("± 0.3625°");
    }

    @Test
    void overviewHasEachTrialOnceAndEachAxisAcross() {
        assertThat(page.select("table.matrix thead th.axis").eachText()).containsExactly("T", "X", "Z");
        Element row = page.select("table.matrix tbody tr").stream()
                .filter(tr -> tr.expectFirst("th").text().equals("POS-01"))
                .findFirst()
                .orElseThrow();
        assertThat(row.select("td.cell .v").eachText()).containsExactly("PASS", "FAIL", "PASS");
        assertThat(row.select("td.cell").eachText().get(2)).contains("attempt 2");
        assertThat(row.select("td.cell a").eachAttr("href")).containsExactly("#trial-2", "#trial-4", "#trial-7");
        assertThat(page.select("table.matrix tbody tr")).hasSize(9);
    }

    @Test
    void ordinaryEndOfATrialStaysInTheTrial() {
        assertThat(section("Deviations and notes")).doesNotContain("end of trial", "end of the trial");
        Element trial = page.select("article.trial").get(6);
        assertThat(trial.select(".because").text()).doesNotContain("end of trial");
        assertThat(trial.select(".ending").eachText().get(1))
                .contains(
                        "Stopped at the end of the trial, standstill confirmed after 54 ms, stands at \u22120.012 rev");
    }

    @Test
    void appendixHoldsTheBudgetOfEachCheckThatHasOne() {
        RunRecord record = RunRecord.read(folder);
        long budgets = record.trials().stream()
                .flatMap(trial -> trial.attempts().stream())
                .flatMap(attempt -> attempt.checks().stream())
                .filter(check -> !check.measured().budget().isEmpty()
                        && check.measured().value().isPresent())
                .count();
        assertThat(page.select("table.budgets tbody")).hasSize((int) budgets);
        // Source: JCGM 100:2008, 4.3.7 and 5.1.2: sqrt((8e-6)² / 3 + (3.2e-6)²) = 5.62e-6; G.4.1: 4 (5.62 / 3.2)⁴ = 38;
        // Table G.2, 95.45 %: between 2.08 for 35 and 2.07 for 40, and so 1.2e-5; shares 64 / 3 to 10.24 of the
        // variance.
        assertThat(page.expectFirst("table.budgets tbody").text())
                .contains(
                        "POS-01 on T",
                        "encoder quantisation",
                        "= 0.0000056 rev",
                        "νeff = 38",
                        "k = 2.07",
                        "= 0.000012 rev",
                        "rectangular",
                        "1.732",
                        "68 %",
                        "32 %");
        assertThat(page.select("article.trial")
                        .get(1)
                        .select("tbody.check td a")
                        .eachAttr("href"))
                .containsExactly("#u-1", "#u-2");
    }

    @Test
    void motionThatNobodyJudgedIsToldInShort() {
        TraceRecord trace = RunRecord.read(folder)
                .trials()
                .get(1)
                .deciding()
                .orElseThrow()
                .traces()
                .get(0);
        TracePlots plots =
                new TracePlots("p", trace, TraceFile.read(folder, trace), List.of(), Conversion.SAME_DIMENSION);
        assertThat(plots.svgs()).hasSize(2);
        assertThat(plots.caption()).startsWith("No check was made on this motion.");
    }

    @Test
    void sameEvidenceGivesTheSameBytes() throws IOException {
        byte[] first = Files.readAllBytes(folder.resolve("report.html"));
        HtmlReport.write(folder, RunRecord.read(folder));
        assertThat(Files.readAllBytes(folder.resolve("report.html"))).isEqualTo(first);
    }

    @Test
    void alteredTraceIsNotDrawn() throws IOException {
        RunRecord record = RunRecord.read(folder);
        TraceRecord trace =
                record.trials().get(1).deciding().orElseThrow().traces().get(0);
        Path file = folder.resolve(trace.file());
        Files.writeString(file, Files.readString(file) + "0,0,0,0,0,0,0\n");
        assertThatThrownBy(() -> HtmlReport.write(folder, record))
                .isInstanceOf(EvidenceLostException.class)
                .hasMessageContaining(trace.file());
    }

    @Test
    void runThatWasCutOffBeforeItsFirstLineStillGetsAReport() throws IOException {
        Path empty = Files.createDirectory(reports.resolve("cut & off"));
        Files.createFile(empty.resolve("journal.jsonl"));
        HtmlReport.write(empty, EvidencePack.recover(empty));
        Document cut = Jsoup.parse(empty.resolve("report.html"));
        assertThat(cut.expectFirst(".outcome .word").text()).isEqualTo("NOT RUN");
        assertThat(cut.expectFirst(".outcome p").text()).contains("stopped").contains("nothing is proven");
        assertThat(cut.text()).contains("Run cut & off");
    }
}
