package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatCode;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.stream.IntStream;
import org.axtrial.measure.Verdict;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(120)
class EvidencePackTest {

    private static final Instant START = Instant.parse("2031-03-04T10:11:12Z");

    @TempDir
    private Path reports;

    private EvidencePack write(List<RunEvent> events) {
        EvidencePack pack = EvidencePack.create(reports, SampleRun.RUN_ID, List.of());
        events.forEach(pack::accept);
        return pack;
    }

    private byte[] smallJournal() throws IOException {
        try (EvidencePack pack = write(SampleRun.small())) {
            return Files.readAllBytes(pack.folder().resolve("journal.jsonl"));
        }
    }

    private Path cut(byte[] journal, String name) throws IOException {
        Path folder = Files.createDirectory(reports.resolve(name));
        Files.write(folder.resolve("journal.jsonl"), journal);
        return folder;
    }

    @Test
    void journalCutAtEveryByteKeepsEveryCompleteLine() throws IOException {
        byte[] journal = smallJournal();
        for (int length = 0; length <= journal.length; length++) {
            byte[] part = Arrays.copyOf(journal, length);
            Path folder = cut(part, "cut" + length);
            RunRecord record = EvidencePack.recover(folder);

            long complete =
                    IntStream.range(0, length).filter(i -> part[i] == '\n').count();
            boolean atEnd = length < journal.length && journal[length] == '\n';
            Journal read = Journal.read(folder.resolve("journal.jsonl"));
            long expected = complete + (atEnd ? 1 : 0);
            boolean whole = expected == 7;
            assertThat(read.lines()).as("cut at %d", length).hasSize((int) expected + (whole ? 0 : 1));
            assertThat(record.ended()).isEqualTo(whole ? RunRecord.Ended.COMPLETED : RunRecord.Ended.STOPPED);
            assertThat(Arrays.copyOf(Files.readAllBytes(folder.resolve("journal.jsonl")), length))
                    .as("what was there is untouched")
                    .isEqualTo(part);
            if (expected >= 2 && expected < 6) {
                assertThat(record.verdict()).isEqualTo(Verdict.INCONCLUSIVE);
                assertThat(record.trials().get(0).reason()).startsWith("interrupted");
            }
            assertThat(RunRecord.read(folder)).isEqualTo(record);
        }
    }

    @Test
    void recoveryCutAtEveryByteIsRecoveredAgain() throws IOException {
        byte[] journal = smallJournal();
        Path folder = cut(Arrays.copyOf(journal, journal.length - 40), "once");
        EvidencePack.recover(folder);
        byte[] once = Files.readAllBytes(folder.resolve("journal.jsonl"));
        for (int length = journal.length - 40; length < once.length; length++) {
            Path again = cut(Arrays.copyOf(once, length), "again" + length);
            RunRecord record = EvidencePack.recover(again);
            assertThat(record.ended()).isEqualTo(RunRecord.Ended.STOPPED);
            assertThat(record.trials().get(0).verdict()).isEqualTo(Verdict.PASS);
            assertThat(record.notes()).as("cut at %d", length).hasSize(1);
            assertThat(record.notes().get(0).text()).contains("unfinished line");
        }
    }

    @Test
    void recoveryTwiceChangesNothing() throws IOException {
        byte[] journal = smallJournal();
        Path folder = cut(Arrays.copyOf(journal, journal.length / 2), "half");
        RunRecord first = EvidencePack.recover(folder);
        byte[] before = Files.readAllBytes(folder.resolve("journal.jsonl"));
        byte[] record = Files.readAllBytes(folder.resolve("record.json"));
        assertThat(EvidencePack.recover(folder)).isEqualTo(first);
        assertThat(Files.readAllBytes(folder.resolve("journal.jsonl"))).isEqualTo(before);
        assertThat(Files.readAllBytes(folder.resolve("record.json"))).isEqualTo(record);
    }

    @Test
    void everySingleByteFlipIsDetected() throws IOException {
        byte[] journal = smallJournal();
        Random random = new Random(7);
        Path file = cut(journal, "flip").resolve("journal.jsonl");
        for (int i = 0; i < journal.length; i++) {
            byte[] flipped = journal.clone();
            flipped[i] ^= (byte) (1 + random.nextInt(255));
            Files.write(file, flipped);
            boolean detected;
            try {
                Journal read = Journal.read(file);
                // A flip that hides the end looks like a torn line, which is told too.
                detected = read.torn().isPresent();
            } catch (EvidenceLostException e) {
                assertThat(e).hasMessageContaining("journal.jsonl").hasMessageContaining("line ");
                detected = true;
            }
            assertThat(detected).as("byte %d made %02x", i, flipped[i]).isTrue();
        }
    }

    @Test
    void lineTakenOutOrAddedIsDetected() throws IOException {
        List<String> lines =
                new ArrayList<>(List.of(new String(smallJournal(), StandardCharsets.UTF_8).split("(?<=\n)")));
        Path file = cut(new byte[0], "lines").resolve("journal.jsonl");
        List<String> without = new ArrayList<>(lines);
        without.remove(3);
        Files.writeString(file, String.join("", without));
        assertThatThrownBy(() -> Journal.read(file))
                .hasMessageContaining("line 4")
                .hasMessageContaining("altered");
        lines.add("{}\n");
        Files.writeString(file, String.join("", lines));
        assertThatThrownBy(() -> Journal.read(file)).isInstanceOf(EvidenceLostException.class);
    }

    @Test
    void tornLineThatIsAlteredAfterwardsIsDetected() throws IOException {
        byte[] journal = smallJournal();
        Path folder = cut(Arrays.copyOf(journal, journal.length - 30), "torn");
        EvidencePack.recover(folder);
        Path file = folder.resolve("journal.jsonl");
        byte[] bytes = Files.readAllBytes(file);
        bytes[journal.length - 35] ^= 1;
        Files.write(file, bytes);
        assertThatThrownBy(() -> Journal.read(file)).hasMessageContaining("does not account");
    }

    @Test
    void hashIsThatOfTheLineWithoutItsHashMember() throws Exception {
        String line = new String(smallJournal(), StandardCharsets.UTF_8)
                .lines()
                .toList()
                .get(2);
        String without = line.replaceFirst("\"hash\":\"[0-9a-f]{64}\",\"prev\"", "\"prev\"");
        String hash = Json.MAPPER.readTree(line).get("hash").stringValue();
        assertThat(Sha256.of(without.getBytes(StandardCharsets.UTF_8))).isEqualTo(hash);
    }

    @Test
    void manyThreadsGiveOneUnbrokenChainAndTheRecordOfThePlan() throws Exception {
        List<RunEvent> events = SampleRun.full(RunInfo.Mode.REHEARSAL, START);
        RunRecord inOrder;
        try (EvidencePack pack = EvidencePack.create(reports.resolve("a"), SampleRun.RUN_ID, List.of())) {
            events.forEach(pack::accept);
            inOrder = pack.finish();
        }
        try (EvidencePack pack = EvidencePack.create(reports.resolve("b"), SampleRun.RUN_ID, List.of())) {
            pack.accept(events.get(0));
            ExecutorService threads = Executors.newFixedThreadPool(4);
            List<Callable<Void>> axes = new ArrayList<>();
            for (String axis : List.of("Z", "X", "T", "")) {
                axes.add(() -> {
                    events.subList(1, events.size() - 1).stream()
                            .filter(event -> axisOf(event).equals(axis))
                            .forEach(pack::accept);
                    return null;
                });
            }
            for (Future<Void> done : threads.invokeAll(axes)) {
                done.get();
            }
            threads.shutdown();
            assertThat(threads.awaitTermination(10, TimeUnit.SECONDS)).isTrue();
            pack.accept(events.get(events.size() - 1));
            assertThat(pack.finish().withoutStamps()).isEqualTo(inOrder.withoutStamps());
        }
    }

    private static String axisOf(RunEvent event) {
        if (event instanceof RunEvent.TrialStarted e) {
            return e.key().axis();
        } else if (event instanceof RunEvent.StepDone e) {
            return e.key().axis();
        } else if (event instanceof RunEvent.TraceTaken e) {
            return e.key().axis();
        } else if (event instanceof RunEvent.CheckJudged e) {
            return e.key().axis();
        } else if (event instanceof RunEvent.TrialBroken e) {
            return e.key().axis();
        } else if (event instanceof RunEvent.TrialFinished e) {
            return e.key().axis();
        } else if (event instanceof RunEvent.AxisStopped e) {
            return e.axis();
        }
        return "";
    }

    @Test
    void interruptedThreadDoesNotLoseEvidence() {
        List<RunEvent> events = SampleRun.small();
        try (EvidencePack pack = EvidencePack.create(reports, SampleRun.RUN_ID, List.of())) {
            Thread.currentThread().interrupt();
            events.forEach(pack::accept);
            assertThat(Thread.interrupted()).isTrue();
            assertThat(pack.finish().verdict()).isEqualTo(Verdict.PASS);
        }
    }

    @Test
    void failureOfTheDiskIsToldAndStaysTold() throws IOException {
        List<RunEvent> events = SampleRun.small();
        try (EvidencePack pack = EvidencePack.create(reports, SampleRun.RUN_ID, List.of())) {
            events.subList(0, 3).forEach(pack::accept);
            Files.delete(pack.folder().resolve("traces"));
            Files.createFile(pack.folder().resolve("traces"));
            assertThatThrownBy(() -> pack.accept(events.get(3)))
                    .isInstanceOf(EvidenceLostException.class)
                    .hasMessageContaining("traces")
                    .hasCauseInstanceOf(IOException.class);
        }
        JournalWriter writer = new JournalWriter(reports.resolve("j"), 0, Sha256.NOTHING_BEFORE);
        writer.close();
        JournalEntry entry = new JournalEntry.Noted("lost");
        assertThatThrownBy(() -> writer.append(START, entry))
                .isInstanceOf(EvidenceLostException.class)
                .hasMessageContaining("cannot be written")
                .hasCauseInstanceOf(IOException.class);
        assertThatThrownBy(() -> writer.append(START, entry))
                .isInstanceOf(EvidenceLostException.class)
                .hasMessageContaining("failed earlier");
    }

    @Test
    void listenerHearsAfterTheDiskAndCannotBreakTheRun() {
        List<RunEvent> events = SampleRun.small();
        try (EvidencePack pack = EvidencePack.create(reports, SampleRun.RUN_ID, List.of())) {
            List<RunEvent> heard = new ArrayList<>();
            pack.listen(event -> {
                throw new IllegalStateException("a listener that fails on purpose");
            });
            pack.listen(event -> {
                assertThat(Journal.read(pack.folder().resolve("journal.jsonl")).lines())
                        .hasSize(heard.size() + 1);
                heard.add(event);
            });
            events.forEach(pack::accept);
            assertThat(heard).isEqualTo(events);
        }
    }

    @Test
    void sourcesAreCopiedAndBoundIntoTheChain() throws IOException {
        Path script = Files.writeString(reports.resolve("s.js"), "trial()");
        EvidencePack pack = EvidencePack.create(
                reports, SampleRun.RUN_ID, List.of(new EvidencePack.SourceFile("scripts/a/s.js", script)));
        SampleRun.small().forEach(pack::accept);
        RunRecord record = pack.finish();
        assertThat(pack.folder().resolve("scripts/a/s.js")).hasContent("trial()");
        assertThat(record.files())
                .containsExactly(new RunRecord.PackedFile(
                        "scripts/a/s.js", Sha256.of("trial()".getBytes(StandardCharsets.UTF_8)), 7));
    }

    @Test
    void namesThatWouldLeaveThePackAreRefused() {
        for (String name : List.of("../x", "/x", "a/../../x", "a//b", "C:x", "a\\b", "", "record.json", "traces/t")) {
            assertThatThrownBy(() -> new EvidencePack.SourceFile(name, reports))
                    .as(name)
                    .isInstanceOf(IllegalArgumentException.class);
        }
        for (String id : List.of("", "..", "a/b", "-x", "a b")) {
            assertThatThrownBy(() -> EvidencePack.create(reports, id, List.of()))
                    .as(id)
                    .isInstanceOf(IllegalArgumentException.class);
        }
    }

    @Test
    void folderThatExistsIsNeverReused() {
        EvidencePack.create(reports, "run", List.of()).close();
        assertThatThrownBy(() -> EvidencePack.create(reports, "run", List.of()))
                .isInstanceOf(EvidenceLostException.class)
                .hasMessageContaining("run id that is new");
    }

    @Test
    void orderOfTheRunIsHeld() {
        List<RunEvent> events = SampleRun.small();
        try (EvidencePack pack = EvidencePack.create(reports, SampleRun.RUN_ID, List.of())) {
            assertThatThrownBy(() -> pack.accept(events.get(1))).hasMessageContaining("begins with one RunStarted");
            pack.accept(events.get(0));
            assertThatThrownBy(() -> pack.accept(events.get(0))).hasMessageContaining("again");
            pack.accept(new RunEvent.RunFinished(START, Optional.of("stopped by the operator")));
            assertThatThrownBy(() -> pack.accept(events.get(1))).hasMessageContaining("is over");
            RunRecord record = pack.finish();
            assertThat(record.exitCode()).isEqualTo(4);
            assertThat(record.trials().get(0).verdict()).isEqualTo(Verdict.NOT_RUN);
            assertThat(record.trials().get(0).reason()).contains("stopped by the operator");
        }
    }

    @Test
    void traceReadsBackExactlyAndAlterationIsDetected() throws IOException {
        EvidencePack pack = write(SampleRun.small());
        RunRecord record = pack.finish();
        TraceRecord trace =
                record.trials().get(0).deciding().orElseThrow().traces().get(0);
        RunEvent.TraceTaken told = (RunEvent.TraceTaken) SampleRun.small().get(3);
        TraceFile read = TraceFile.read(pack.folder(), trace);
        assertThat(read.times()).isEqualTo(told.trace().times());
        assertThat(read.values("torque").orElseThrow()).isEqualTo(told.trace().values("torque"));
        assertThat(read.values("current")).isEmpty();
        Path file = pack.folder().resolve(trace.file());
        Files.writeString(file, Files.readString(file).replaceFirst("5", "6"));
        assertThatThrownBy(() -> TraceFile.read(pack.folder(), trace)).hasMessageContaining("not the file");
    }

    @Test
    void hostileTextSurvivesExceptForHalvesOfSurrogatePairs() {
        RunRecord record = write(SampleRun.full(RunInfo.Mode.REAL, START)).finish();
        String expected = SampleRun.HOSTILE.replace('\ud800', '\ufffd');
        assertThat(record.axis("X").orElseThrow().description()).endsWith(expected);
        assertThatCode(() -> RunRecord.read(reports.resolve(SampleRun.RUN_ID))).doesNotThrowAnyException();
    }
}
