package org.axtrial.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.evidence.Snapshot;
import org.axtrial.evidence.SnapshotRecord.Difference;
import org.axtrial.evidence.SnapshotRecord.Kind;
import org.axtrial.quantity.Quantity;
import org.axtrial.sim.InProcessLink;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class ParameterSurveyTest {

    @Test
    void everyDeclaredParameterIsReadWithUnitAndRawWords() throws Exception {
        try (Bench bench = new Bench()) {
            Snapshot.AxisValues values = ParameterSurvey.read(
                    bench.axis.name(),
                    bench.axis.drive(),
                    new InProcessLink(bench.drive, new VirtualTime(Instant.EPOCH)));
            assertThat(values.values())
                    .extracting(Snapshot.Value::name)
                    .containsAll(bench.axis.drive().parameters().stream()
                            .map(parameter -> parameter.name())
                            .toList());
            assertThat(values.values()).allSatisfy(value -> {
                assertThat(value.value()).isPresent();
                assertThat(value.raw()).endsWith(" hex");
            });
            assertThat(bench.drive.writes()).isZero();
            assertThat(ParameterSurvey.values(
                            new Snapshot(Snapshot.FORMAT, Instant.EPOCH, Optional.empty(), List.of(values))))
                    .containsKey("INFEED");
        }
    }

    @Test
    void differencesAreChangedAddedAndMissing() {
        Map<String, Map<String, Quantity>> is = Map.of(
                "A",
                Map.of(
                        "torque", Quantity.parse("2.5 Nm"),
                        "counts", Quantity.parse("131072 count"),
                        "same", Quantity.parse("2400 mNm")));
        Map<String, Map<String, Quantity>> was = Map.of(
                "A",
                Map.of(
                        "torque", Quantity.parse("2.4 Nm"),
                        "gain", Quantity.parse("80 1/s"),
                        "same", Quantity.parse("2.4 Nm")));
        assertThat(ParameterSurvey.compare(is, was))
                .containsExactlyInAnyOrder(
                        new Difference(Kind.CHANGED, "A", "torque", "2.4 Nm", "2.5 Nm"),
                        new Difference(Kind.ADDED, "A", "counts", "", "131072 count"),
                        new Difference(Kind.MISSING, "A", "gain", "80 1/s", ""));
        assertThat(ParameterSurvey.compare(was, was)).isEmpty();
    }

    @Test
    void anotherUnitIsAChange() {
        assertThat(ParameterSurvey.compare(
                        Map.of("A", Map.of("x", Quantity.parse("1 Nm"))),
                        Map.of("A", Map.of("x", Quantity.parse("1 count")))))
                .hasSize(1);
    }
}
