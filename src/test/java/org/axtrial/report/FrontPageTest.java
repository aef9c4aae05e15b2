package org.axtrial.report;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunSetup;
import org.axtrial.evidence.RunSetup.Fact;
import org.axtrial.evidence.TrialRecord;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;

class FrontPageTest {

    private static final Instant AT = Instant.parse("2031-03-04T10:11:12Z");

    private static TrialRecord trial(
            String id, String axis, Verdict verdict, String reason, TrialRecord.Stop... stops) {
        TrialRecord.Attempt attempt = new TrialRecord.Attempt(
                1,
                AT,
                Optional.of(AT),
                verdict,
                reason,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                Arrays.asList(stops),
                List.of(),
                List.of(),
                Optional.empty());
        return new TrialRecord(
                "s.js", id, axis, List.of(), "Title of " + id, "", true, verdict, reason, List.of(attempt));
    }

    private static TrialRecord.Stop stop(String axis, String reason, boolean standstill, double seconds) {
        return new TrialRecord.Stop(AT, axis, reason, true, standstill, seconds, "stands at 0°");
    }

    private static View.Front front(TrialRecord... trials) {
        RunSetup setup = new RunSetup(
                Optional.of(RunInfo.Mode.REAL),
                "Axtrial 1",
                "Java 17.0.15+6, Linux 6.1.0-x",
                "",
                List.of(new Fact("id", "J-1"), new Fact("title", "Long title"), new Fact("orderNumber", "7")),
                List.of(new Fact("name", "Filler")),
                "",
                List.of(),
                List.of());
        RunRecord record = new RunRecord(
                RunRecord.FORMAT,
                new RunRecord.Stamps("run", AT, AT, ""),
                RunRecord.Ended.COMPLETED,
                "",
                Verdict.FAIL,
                List.of(),
                setup,
                List.of(),
                Arrays.asList(trials),
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of());
        return new FrontPage(record, trial -> "at-" + trial.axis()).view();
    }

    @Test
    void titleLeadsAndKeysBecomeLabels() {
        View.Front front = front();
        assertThat(front.title()).isEqualTo("Long title");
        assertThat(front.jobId()).isEqualTo("J-1");
        assertThat(front.job()).containsExactly(new Fact("Order number", "7"));
        assertThat(front.machine()).containsExactly(new Fact("Machine", "Filler"));
        assertThat(front.conditions()).contains(new Fact("Program", "Axtrial 1 on Java 17.0.15, Linux 6.1.0"));
    }

    @Test
    void sameFailureOnSeveralAxesStandsOnce() {
        View.Front front = front(
                trial("POS-01", "X", Verdict.FAIL, "same"),
                trial("POS-02", "X", Verdict.PASS, ""),
                trial("POS-01", "Y", Verdict.FAIL, "same"),
                trial("POS-01", "Z", Verdict.FAIL, "other"));
        assertThat(front.failed()).extracting(View.Finding::reason).containsExactly("same", "other");
        assertThat(front.failed().get(0).axes())
                .containsExactly(new View.Link("at-X", "X"), new View.Link("at-Y", "Y"));
    }

    @Test
    void extentCountsTrialsAndAxes() {
        assertThat(front(trial("A", "X", Verdict.PASS, ""), trial("A", "Y", Verdict.PASS, ""))
                        .extent())
                .isEqualTo("1 trial on each of 2 axes, 0 checks, from s.js.");
        assertThat(front(
                                trial("A", "X", Verdict.PASS, ""),
                                trial("B", "X", Verdict.PASS, ""),
                                trial("A", "Y", Verdict.PASS, ""))
                        .extent())
                .startsWith("3 trials on 2 axes");
    }

    @Test
    void onlyStopsThatNeedALookAreNoted() {
        View.Front front = front(
                trial("A", "X", Verdict.PASS, "", stop("X", "end of trial", true, 0.05)),
                trial("A", "Y", Verdict.FAIL, "r", stop("Y", "end of trial", false, 2)),
                trial("B", "X", Verdict.FAIL, "r", stop("X", "link lost", true, 0.1)),
                trial("B", "Y", Verdict.FAIL, "r", stop("Y", "link lost", true, 0.2)));
        assertThat(front.notes())
                .containsExactly(
                        "Axis Y was stopped: end of trial. Stop order acknowledged, standstill NOT confirmed; stands at 0°.",
                        "Axes X, Y were stopped, 2 times in all: link lost. Stop order acknowledged, standstill confirmed"
                                + " each time, after at most 200 ms.");
    }
}
