package org.axtrial.acceptance;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.IntStream;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.PunchClass;
import org.axtrial.evidence.PunchNote;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunInfo;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.TrialKey;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The rules of acceptance are common practice, no source. */
class StandingTest {

    private static final Instant AT = Instant.parse("2026-03-02T08:00:00Z");

    @TempDir
    Path reports;

    private RunRecord run(Optional<String> stopped, Optional<PunchClass> punch, Verdict... verdicts) {
        List<RunInfo.PlannedTrial> plan = IntStream.range(0, verdicts.length)
                .mapToObj(i -> new RunInfo.PlannedTrial("a.js", "T-" + (i + 1), "X", "Trial", ""))
                .toList();
        try (EvidencePack pack = EvidencePack.create(reports, "run", List.of())) {
            pack.accept(new RunEvent.RunStarted(
                    AT,
                    new RunInfo(
                            "run", RunInfo.Mode.REAL, "tool", "java", "", Map.of(), Map.of(), "rule", List.of(), plan)));
            for (int i = 0; i < verdicts.length; i++) {
                TrialKey key = new TrialKey("a.js", "T-" + (i + 1), "X", 1);
                if (verdicts[i] != Verdict.NOT_RUN) {
                    pack.accept(new RunEvent.TrialStarted(AT, key));
                    if (i == 0) {
                        punch.ifPresent(grade -> pack.accept(new RunEvent.PunchRaised(
                                AT,
                                new PunchNote(
                                        AT, "a.js", "T-1", "X", "Do it", grade, "", Optional.empty(), Optional.empty()))));
                    }
                    pack.accept(new RunEvent.TrialFinished(AT, key, verdicts[i], "because"));
                }
            }
            pack.accept(new RunEvent.RunFinished(AT, stopped));
            return pack.finish();
        }
    }

    private Path pack() {
        return reports.resolve("run");
    }

    @ParameterizedTest
    @CsvSource({
        "PASS, PASS, ACCEPTED",
        "PASS, NOT_APPLICABLE, ACCEPTED",
        "PASS, FAIL, NOT_ACCEPTED",
        "INCONCLUSIVE, FAIL, NOT_ACCEPTED",
        "PASS, INCONCLUSIVE, INCOMPLETE",
        "PASS, BLOCKED, INCOMPLETE",
        "PASS, ERROR, INCOMPLETE",
        "PASS, NOT_RUN, INCOMPLETE"
    })
    void resultsDecide(Verdict first, Verdict second, AcceptanceState state) {
        Standing standing = Standing.of(run(Optional.empty(), Optional.empty(), first, second));
        assertThat(standing.state()).isEqualTo(state);
        assertThat(standing.because().isEmpty()).isEqualTo(state == AcceptanceState.ACCEPTED);
    }

    @Test
    void aStoppedRunAndOneWithoutTrialsAreIncomplete() {
        Standing standing = Standing.of(run(Optional.of("stop button"), Optional.empty()));
        assertThat(standing.state()).isEqualTo(AcceptanceState.INCOMPLETE);
        assertThat(standing.because()).containsExactly("the run was stopped: stop button", "no trial was made");
    }

    @ParameterizedTest
    @CsvSource({"A, NOT_ACCEPTED", "B, ACCEPTED_WITH_DEVIATIONS", "C, ACCEPTED_WITH_DEVIATIONS"})
    void anItemThatAScriptRaisedCountsUntilItIsClosed(PunchClass grade, AcceptanceState state) {
        RunRecord record = run(Optional.empty(), Optional.of(grade), Verdict.PASS);
        Ledger ledger = Ledger.read(pack(), record);
        Standing standing = Standing.of(record, ledger);
        assertThat(standing.state()).isEqualTo(state);
        assertThat(standing.nextNumber()).isEqualTo(2);
        ledger.add(pack(), AT, new LedgerEntry.PunchClosed(1, "photograph 7", "A. Sample"));
        Standing closed = Standing.of(record, Ledger.read(pack(), record));
        assertThat(closed.state()).isEqualTo(AcceptanceState.ACCEPTED);
        assertThat(closed.items()).singleElement().satisfies(item -> assertThat(item.closing())
                .contains(new PunchItem.Closing(AT, "photograph 7", "A. Sample")));
        assertThat(closed.open()).isEmpty();
    }

    @Test
    void anAgreedDeviationTakesOneTrialAndNoOther() {
        RunRecord record = run(Optional.empty(), Optional.empty(), Verdict.FAIL, Verdict.FAIL);
        Ledger one = Ledger.read(pack(), record)
                .add(pack(), AT, new LedgerEntry.DeviationAgreed("a.js", "T-1", "X", "slow but safe", "C. Customer"));
        assertThat(Standing.of(record, one).state()).isEqualTo(AcceptanceState.NOT_ACCEPTED);
        Ledger both =
                one.add(pack(), AT, new LedgerEntry.DeviationAgreed("a.js", "T-2", "X", "the same", "C. Customer"));
        assertThat(Standing.of(record, both).state()).isEqualTo(AcceptanceState.ACCEPTED_WITH_DEVIATIONS);
        assertThat(record.verdict()).isEqualTo(Verdict.FAIL);
    }

    @Test
    void anItemIsOverdueTheDayAfterItsDate() {
        LocalDate due = LocalDate.of(2026, 4, 1);
        RunRecord record = run(Optional.empty(), Optional.empty(), Verdict.PASS);
        Ledger ledger = Ledger.read(pack(), record)
                .add(
                        pack(),
                        AT,
                        new LedgerEntry.PunchOpened(
                                1, "Do it", PunchClass.B, "", Optional.of(due), Optional.empty(), Optional.empty(), "A"));
        PunchItem item = Standing.of(record, ledger).items().get(0);
        assertThat(item.overdue(due)).isFalse();
        assertThat(item.overdue(due.plusDays(1))).isTrue();
    }

    @Test
    void everyChangedByteOfTheLedgerIsFound() throws Exception {
        RunRecord record = run(Optional.empty(), Optional.of(PunchClass.C), Verdict.FAIL);
        Ledger.read(pack(), record)
                .add(pack(), AT, new LedgerEntry.DeviationAgreed("a.js", "T-1", "X", "taken", "C. Customer"))
                .add(pack(), AT, new LedgerEntry.PunchClosed(1, "seen", "A. Sample"));
        Path file = pack().resolve("after/ledger.jsonl");
        byte[] whole = Files.readAllBytes(file);
        for (int i = 0; i < whole.length; i++) {
            byte[] altered = whole.clone();
            altered[i] ^= 0x01;
            Files.write(file, altered);
            assertThatThrownBy(() -> Ledger.read(pack(), record))
                    .as("byte %d", i)
                    .isInstanceOf(EvidenceLostException.class);
        }
        Files.write(file, whole);
        assertThat(Ledger.read(pack(), record).entries()).hasSize(2);
    }

    @Test
    void theLedgerOfAnotherRunIsRefused() throws Exception {
        RunRecord record = run(Optional.empty(), Optional.of(PunchClass.C), Verdict.PASS);
        Ledger.read(pack(), record).add(pack(), AT, new LedgerEntry.PunchClosed(1, "seen", "A. Sample"));
        Path kept = reports.resolve("kept.jsonl");
        Files.move(pack().resolve("after/ledger.jsonl"), kept);
        Path first = pack();
        Files.move(first, reports.resolve("first"));
        RunRecord other = run(Optional.empty(), Optional.empty(), Verdict.PASS, Verdict.PASS);
        Files.createDirectories(pack().resolve("after"));
        Files.copy(kept, pack().resolve("after/ledger.jsonl"));
        assertThatThrownBy(() -> Ledger.read(pack(), other)).hasMessageContaining("line 1 does not follow");
    }

    @Test
    void filesThatTheLedgerDoesNotNameAreTold() throws Exception {
        RunRecord record = run(Optional.empty(), Optional.empty(), Verdict.PASS);
        Files.createDirectories(pack().resolve("after"));
        Files.writeString(pack().resolve("after/extra.html"), "x");
        assertThat(Ledger.read(pack(), record).strangers(pack()))
                .containsExactly(new Ledger.Stranger("after/extra.html", "is not named by the ledger"));
    }

    @Test
    void nothingIsSaidWithoutAName() {
        assertThatThrownBy(() -> new LedgerEntry.PunchClosed(1, "seen", " "))
                .hasMessage("who closes the item must not be empty");
        assertThatThrownBy(() -> new LedgerEntry.DeviationAgreed("a.js", "T-1", "X", "", "C"))
                .hasMessage("the reason of a deviation must not be empty");
    }
}
