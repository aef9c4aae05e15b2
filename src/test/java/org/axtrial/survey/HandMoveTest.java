package org.axtrial.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.axtrial.drive.Drive;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.quantity.AxisScale;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.WordOrder;
import org.axtrial.sim.InProcessLink;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

@Timeout(60)
class HandMoveTest {

    private final Bench bench;
    private final VirtualTime time = new VirtualTime(Instant.EPOCH);
    private final InProcessLink link;
    private final AxisScale scale;

    HandMoveTest() throws Exception {
        bench = new Bench();
        bench.server.close();
        link = new InProcessLink(bench.drive, time);
        scale = bench.axis.setup().scale();
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private LinkRecord watch(DriveDescription described, double sense) {
        LinkRecord before = LinkRecord.of("INFEED", "p", List.of(), List.of());
        return HandMove.watch(
                before,
                bench.subject(Bench.UNIT, described),
                scale,
                2,
                link,
                (text, turns) -> {
                    bench.drive.turnByHand(sense * turns * scale.motorPerLoad() * scale.direction() * 2 * Math.PI);
                    return true;
                },
                time);
    }

    private static DriveDescription position(DriveDescription d, UnaryOperator<SignalSpec> spoil) {
        Map<String, SignalSpec> signals = new LinkedHashMap<>(d.signals());
        signals.computeIfPresent(SignalNames.POSITION, (name, spec) -> spoil.apply(spec));
        return new DriveDescription(
                d.type(),
                d.style(),
                signals,
                d.statusBits(),
                d.commands(),
                d.identity(),
                d.parameters(),
                d.maxReadRegisters(),
                d.maxConnections(),
                d.watchdog());
    }

    @Test
    void aMoveBothWaysProvesThePosition() {
        LinkRecord seen = watch(bench.axis.drive(), 1);
        assertThat(seen.outcome()).isEqualTo(LinkRecord.Grade.PROVEN);
        // Two turns of the screw at 10000 register counts each, from the demonstration's site file.
        assertThat(seen.facts().get(0).value()).startsWith("20,000 counts, then -20,000 counts");
        assertThat(bench.drive.writes()).isZero();
    }

    @Test
    void aReversedSenseIsNamed() {
        LinkRecord seen = watch(bench.axis.drive(), -1);
        assertThat(seen.outcome()).isEqualTo(LinkRecord.Grade.WRONG);
        assertThat(seen.findings().get(0).text())
                .contains("The sense is reversed")
                .contains("scale.direction");
    }

    @Test
    void swappedWordsAreNamedWithTheRawRegisters() {
        LinkRecord seen = watch(
                position(
                        bench.axis.drive(),
                        s -> new SignalSpec(
                                s.name(),
                                s.table(),
                                s.address(),
                                s.type(),
                                WordOrder.LOW_FIRST,
                                s.byteOrder(),
                                s.scale(),
                                s.offset(),
                                s.unit(),
                                s.writable(),
                                s.writeFunction())),
                1);
        assertThat(seen.outcome()).isEqualTo(LinkRecord.Grade.WRONG);
        LinkRecord.Finding finding = seen.findings().get(0);
        assertThat(finding.text()).contains("0000 4E20 hex");
        assertThat(finding.readings())
                .anyMatch(reading -> reading.contains("with the words swapped, it moved by 20,000"));
    }

    @Test
    void anotherFactorPointsAtTheGear() {
        LinkRecord seen = watch(bench.axis.drive(), 5);
        assertThat(seen.findings().get(0).text()).contains("5 times as far").contains("electronic gear");
    }

    @Test
    void aDriveUnderTorqueIsNotTurned() throws Exception {
        Drive drive = Drive.over(link, bench.axis.drive(), time);
        drive.enable(Duration.ofSeconds(3));
        LinkRecord seen = watch(bench.axis.drive(), 1);
        assertThat(seen.findings().get(0).text()).contains("the drive gives torque");
        assertThat(bench.drive.shaftAngle()).isZero();
    }
}
