package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import com.networknt.schema.Schema;
import com.networknt.schema.SchemaRegistry;
import com.networknt.schema.SpecificationVersion;
import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.measure.Criterion;
import org.axtrial.measure.DecisionRule;
import org.axtrial.measure.Instrument;
import org.axtrial.measure.Judge;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Verdict;
import org.axtrial.measure.Zone;
import org.axtrial.quantity.Conversion;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.node.ObjectNode;

@Timeout(60)
class RunRecordTest {

    private static final Instant START = Instant.parse("2031-03-04T10:11:12Z");
    private static final String SCRIPT = "s.js";

    @TempDir
    private Path reports;

    private RunRecord record(String folder, List<RunEvent> events) {
        EvidencePack pack = EvidencePack.create(reports.resolve(folder), SampleRun.RUN_ID, List.of());
        events.forEach(pack::accept);
        return pack.finish();
    }

    private static Schema schema() throws IOException {
        try (InputStream in = RunRecord.class.getResourceAsStream("record.schema.json")) {
            return SchemaRegistry.withDefaultDialect(SpecificationVersion.DRAFT_2020_12)
                    .getSchema(Json.MAPPER.readTree(in));
        }
    }

    @Test
    void recordsFollowThePublishedSchema() throws IOException {
        record("full", SampleRun.full(RunInfo.Mode.REAL, START));
        record("small", SampleRun.small());
        Path empty = Files.createDirectory(reports.resolve("empty"));
        Files.createFile(empty.resolve("journal.jsonl"));
        EvidencePack.recover(empty);
        for (Path folder : List.of(
                reports.resolve("full").resolve(SampleRun.RUN_ID),
                reports.resolve("small").resolve(SampleRun.RUN_ID),
                empty)) {
            assertThat(schema().validate(Json.MAPPER.readTree(Files.readString(folder.resolve("record.json")))))
                    .as(folder.toString())
                    .isEmpty();
        }
    }

    @Test
    void instrumentsStandInTheRecordAsTheSchemaSays() throws IOException {
        List<RunEvent> events = new ArrayList<>(SampleRun.small());
        RunEvent.RunStarted started = (RunEvent.RunStarted) events.get(0);
        RunInfo info = started.info();
        Instrument instrument = new Instrument(
                "IND-1",
                "dial indicator (invented)",
                "0417",
                "K-118",
                LocalDate.of(2026, 3, 2),
                LocalDate.of(2027, 3, 2),
                Unit.MILLIMETRE,
                0.001,
                0.002,
                2,
                OptionalDouble.empty());
        events.set(
                0,
                new RunEvent.RunStarted(
                        started.at(),
                        new RunInfo(
                                info.runId(),
                                info.mode(),
                                info.tool(),
                                info.platform(),
                                info.operator(),
                                info.job(),
                                info.machine(),
                                info.decisionRule(),
                                info.axes(),
                                List.of(new RunInfo.InstrumentInfo(instrument, Instrument.Calibration.OVERDUE)),
                                info.plan())));
        record("instruments", events);

        Path folder = reports.resolve("instruments").resolve(SampleRun.RUN_ID);
        JsonNode written = Json.MAPPER.readTree(Files.readString(folder.resolve("record.json")));
        assertThat(schema().validate(written)).isEmpty();
        JsonNode told = written.at("/setup/instruments/0");
        assertThat(told.at("/calibration").asString()).isEqualTo("OVERDUE");
        assertThat(told.at("/instrument/due").asString()).isEqualTo("2027-03-02");
        assertThat(RunRecord.read(folder).setup().instruments())
                .extracting(RunInfo.InstrumentInfo::instrument)
                .containsExactly(instrument);
    }

    @Test
    void schemaRefusesWhatIsNoRecord() throws IOException {
        record("small", SampleRun.small());
        Path file = reports.resolve("small").resolve(SampleRun.RUN_ID).resolve("record.json");
        ObjectNode node = (ObjectNode) Json.MAPPER.readTree(Files.readString(file));
        node.put("verdict", "OK");
        node.put("extra", 1);
        assertThat(schema().validate(node)).hasSize(2);
    }

    @Test
    void roundTripIsExact() {
        RunRecord written = record("full", SampleRun.full(RunInfo.Mode.SIMULATED, START));
        assertThat(RunRecord.read(reports.resolve("full").resolve(SampleRun.RUN_ID)))
                .isEqualTo(written);
    }

    @Test
    void judgementComesBackAsItWasMade() {
        RunRecord record = record("small", SampleRun.small());
        RunEvent.CheckJudged told = (RunEvent.CheckJudged) SampleRun.small().get(4);
        CheckRecord check =
                record.trials().get(0).deciding().orElseThrow().checks().get(0);
        assertThat(check.judgement()).isEqualTo(told.judgement());
    }

    @Test
    void howSureAVerdictIsStandsInTheRecord() throws IOException {
        List<RunEvent> events = new ArrayList<>(SampleRun.small());
        RunEvent.CheckJudged told = (RunEvent.CheckJudged) events.get(4);
        Judgement near = Judge.judge(
                told.judgement().measured(),
                new Criterion.AtMost(Quantity.of(1.000021, Unit.REVOLUTION)),
                Conversion.SAME_DIMENSION,
                new DecisionRule.NonBinary(2));
        events.set(
                4,
                new RunEvent.CheckJudged(
                        told.at(), told.key(), told.name(), near, told.trace(), told.marks(), told.place()));
        CheckRecord check = record("sure", events)
                .trials()
                .get(0)
                .deciding()
                .orElseThrow()
                .checks()
                .get(0);
        assertThat(check.judgement()).isEqualTo(near);
        assertThat(check.conformity().orElseThrow().zone()).contains(Zone.CONDITIONAL_PASS);
        Path file = reports.resolve("sure").resolve(SampleRun.RUN_ID).resolve("record.json");
        JsonNode written = Json.MAPPER.readTree(Files.readString(file));
        assertThat(schema().validate(written)).isEmpty();
        JsonNode sure = written.at("/trials/0/attempts/0/checks/0/conformity");
        assertThat(sure.get("zone").stringValue()).isEqualTo("CONDITIONAL_PASS");
        assertThat(sure.get("guardBand").doubleValue())
                .isEqualTo(2 * near.measured().expandedUncertainty());
    }

    /** Records written before coverage factor, distribution and conformity were stated took k = 2 for all. */
    @Test
    void recordsOfBeforeAreRead() throws IOException {
        record("old", SampleRun.small());
        Path folder = reports.resolve("old").resolve(SampleRun.RUN_ID);
        String today = Files.readString(folder.resolve("record.json"));
        String before = today.replaceAll(
                "\\s*\"(coverageFactor|effectiveDegreesOfFreedom|distribution|spread|divisor)\" : [^,]+,", "");
        assertThat(before).hasSizeLessThan(today.length() - 200).doesNotContain("coverageFactor", "spread");
        assertThat(schema().validate(Json.MAPPER.readTree(before))).isEmpty();
        Files.writeString(folder.resolve("record.json"), before);
        CheckRecord check = RunRecord.read(folder)
                .trials()
                .get(0)
                .deciding()
                .orElseThrow()
                .checks()
                .get(0);
        assertThat(check.conformity()).isEmpty();
        assertThat(check.judgement().measured().budget().coverageFactor()).isEqualTo(2);
        assertThat(check.judgement().measured().standardUncertainty())
                .isCloseTo(check.measured().standardUncertainty(), within(1e-20));
    }

    @Test
    void sameRunAtAnotherTimeGivesTheSameRecordApartFromStamps() throws IOException {
        RunRecord first = record("one", SampleRun.full(RunInfo.Mode.REHEARSAL, START));
        RunRecord second = record("two", SampleRun.full(RunInfo.Mode.REHEARSAL, START.plusSeconds(86_400)));
        assertThat(second).isNotEqualTo(first);
        assertThat(second.withoutStamps()).isEqualTo(first.withoutStamps());
    }

    @Test
    void trialsStandInPlanOrderWithTheirVerdicts() {
        RunRecord record = record("full", SampleRun.full(RunInfo.Mode.REAL, START));
        assertThat(record.trials())
                .extracting(t -> t.trial() + " " + t.axis() + " " + t.verdict().printed())
                .containsExactly(
                        "ID-01 T PASS",
                        "POS-01 T PASS",
                        "SPD-01 T PASS",
                        "POS-01 X FAIL",
                        "SET-01 X INCONCLUSIVE",
                        "LIM-01 X BLOCKED",
                        "POS-01 Z PASS",
                        "BRK-01 Z PASS",
                        "TRQ-01 Z ERROR",
                        "COM-01 Z NOT RUN",
                        "OPT-01 Z NOT APPLICABLE");
        assertThat(record.verdict()).isEqualTo(Verdict.ERROR);
        assertThat(record.count(Verdict.PASS)).isEqualTo(5);
        assertThat(record.exitCode()).isEqualTo(1);
        assertThat(record.trials().get(6).attempts())
                .extracting(TrialRecord.Attempt::verdict)
                .containsExactly(Verdict.FAIL, Verdict.PASS);
        assertThat(record.trials().get(7).attempts().get(0).stops()).hasSize(1);
        assertThat(record.simulated()).isFalse();
    }

    // The exit codes of the commands: 0 all PASS, 1 a FAIL, 3 nothing failed but not all was proven.
    @ParameterizedTest
    @CsvSource({
        "PASS, PASS, 0",
        "PASS, FAIL, 1",
        "PASS, ERROR, 1",
        "INCONCLUSIVE, FAIL, 1",
        "BLOCKED, FAIL, 1",
        "PASS, INCONCLUSIVE, 3",
        "PASS, BLOCKED, 3",
        "PASS, NOT_RUN, 3",
        "PASS, NOT_APPLICABLE, 0",
        "NOT_APPLICABLE, NOT_APPLICABLE, 3"
    })
    void exitCode(Verdict first, Verdict second, int code) {
        List<RunEvent> events = new ArrayList<>(List.of(SampleRun.small().get(0)));
        trial(events, "A", first);
        trial(events, "B", second);
        events.add(new RunEvent.RunFinished(START, Optional.empty()));
        // The planned trial of the sample is told as passed, so that only the two decide.
        events.addAll(1, finished(new TrialKey("positioning/one-revolution.js", "POS-01", "T", 1), Verdict.PASS));
        if (first == Verdict.NOT_APPLICABLE) {
            events.removeIf(e -> e instanceof RunEvent.TrialFinished f && f.verdict() == Verdict.PASS);
            events.add(
                    2,
                    new RunEvent.TrialFinished(
                            START,
                            new TrialKey("positioning/one-revolution.js", "POS-01", "T", 1),
                            Verdict.NOT_APPLICABLE,
                            "no such thing"));
        }
        assertThat(record(first + "-" + second, events).exitCode()).isEqualTo(code);
    }

    private static void trial(List<RunEvent> events, String name, Verdict verdict) {
        events.addAll(finished(new TrialKey(SCRIPT, name, "T", 1), verdict));
    }

    private static List<RunEvent> finished(TrialKey key, Verdict verdict) {
        return List.of(
                new RunEvent.TrialStarted(START, key), new RunEvent.TrialFinished(START, key, verdict, "because"));
    }

    @Test
    void nothingRunIsNotGreen() {
        RunEvent.RunStarted began = (RunEvent.RunStarted) SampleRun.small().get(0);
        RunInfo i = began.info();
        RunInfo noPlan = new RunInfo(
                i.runId(),
                i.mode(),
                i.tool(),
                i.platform(),
                i.operator(),
                i.job(),
                i.machine(),
                i.decisionRule(),
                i.axes(),
                List.of());
        RunRecord record = record(
                "none",
                List.of(new RunEvent.RunStarted(START, noPlan), new RunEvent.RunFinished(START, Optional.empty())));
        assertThat(record.verdict()).isEqualTo(Verdict.NOT_RUN);
        assertThat(record.exitCode()).isEqualTo(3);
    }

    @Test
    void worseCheckIsNotHiddenByTheToldVerdict() {
        List<RunEvent> events = new ArrayList<>(List.of(SampleRun.small().get(0)));
        TrialKey key = new TrialKey(SCRIPT, "A", "T", 1);
        events.add(new RunEvent.TrialBroken(START, key, Verdict.FAIL, "envelope tripped", Optional.empty()));
        events.add(new RunEvent.TrialFinished(START, key, Verdict.PASS, ""));
        RunRecord record = record("hidden", events);
        assertThat(record.trials().get(1).verdict()).isEqualTo(Verdict.FAIL);
        assertThat(record.trials().get(1).planned()).isFalse();
    }

    @Test
    void missingOrForeignRecordIsToldWithWhatToDo() throws IOException {
        assertThatThrownBy(() -> RunRecord.read(reports))
                .isInstanceOf(EvidenceLostException.class)
                .hasMessageContaining("record.json")
                .hasMessageContaining("from journal.jsonl");
        Files.writeString(reports.resolve("record.json"), "{\"format\": \"other\"}");
        assertThatThrownBy(() -> RunRecord.read(reports)).isInstanceOf(EvidenceLostException.class);
    }
}
