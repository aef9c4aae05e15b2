package org.axtrial.survey;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.net.InetAddress;
import java.net.ServerSocket;
import java.time.Duration;
import java.time.Instant;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import org.axtrial.evidence.LinkRecord;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.quantity.Unit;
import org.axtrial.registers.ByteOrder;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.DriveDescription.IdentityConstant;
import org.axtrial.registers.DriveDescription.Watchdog;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalNames;
import org.axtrial.registers.SignalSpec;
import org.axtrial.registers.ValueType;
import org.axtrial.registers.WordOrder;
import org.axtrial.sim.InProcessLink;
import org.axtrial.sim.SimulatedDrive;
import org.axtrial.sim.SimulatedServer;
import org.axtrial.sim.SimulationSpec;
import org.axtrial.sim.WireFault;
import org.axtrial.time.SystemTime;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Looks over real TCP, each at one kind of trouble. */
@Timeout(60)
class LinkCheckTest {

    private static String told(LinkCheck.Result result) {
        StringBuilder text = new StringBuilder();
        result.link()
                .findings()
                .forEach(finding -> text.append(finding.grade())
                        .append(": ")
                        .append(finding.text())
                        .append('\n'));
        return text.toString();
    }

    private static String fact(LinkCheck.Result result, String name) {
        return result.link().facts().stream()
                .filter(fact -> fact.name().equals(name))
                .map(fact -> fact.value())
                .findFirst()
                .orElse("");
    }

    @Test
    void aRightDriveIsProvenAndNothingIsWritten() throws Exception {
        try (Bench bench = new Bench()) {
            LinkCheck.Result result = bench.look(bench.subject());
            assertThat(result.link().outcome()).as(told(result)).isEqualTo(LinkRecord.Grade.PROVEN);
            assertThat(result.lost()).isFalse();
            assertThat(fact(result, "Errors")).isEqualTo("0 of 60");
            assertThat(fact(result, "Looks")).isEqualTo("60 at 8 signals, 1 block read each");
            assertThat(fact(result, "Largest block read")).isEqualTo("100 registers, as declared");
            assertThat(fact(result, "Connections allowed")).isEqualTo("4 as declared, not tried");
            assertThat(fact(result, "Values that never changed"))
                    .contains("position")
                    .contains("only a move by hand");
            assertThat(bench.drive.writes()).isZero();
            assertThat(bench.drive.motionsStarted()).isZero();
        }
    }

    @Test
    void aPortWhereNothingListensIsRefused() throws Exception {
        int port;
        try (ServerSocket free = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            port = free.getLocalPort();
        }
        try (Bench bench = new Bench()) {
            LinkCheck.Result result = LinkCheck.full(
                    bench.subject(),
                    new LinkCheck.Scope(1, false),
                    unit -> ModbusTcpLink.open("127.0.0.1", port, unit, Duration.ofSeconds(1), SystemTime.INSTANCE),
                    SystemTime.INSTANCE);
            assertThat(told(result)).startsWith("NOT_PROVEN: Connection refused: a device is at this address");
            assertThat(result.lost()).isTrue();
        }
    }

    @Test
    void aDriveWhoseConnectionsAreTakenIsToldFromASilentOne() throws Exception {
        try (Bench bench = new Bench();
                ServerSocket taken = new ServerSocket(0, 5, InetAddress.getLoopbackAddress())) {
            Thread closer = new Thread(() -> {
                try {
                    while (true) {
                        taken.accept().close();
                    }
                } catch (IOException e) {
                    Thread.currentThread().interrupt();
                }
            });
            closer.setDaemon(true);
            closer.start();
            LinkCheck.Result result = LinkCheck.full(
                    bench.subject(),
                    new LinkCheck.Scope(1, false),
                    unit -> ModbusTcpLink.open(
                            "127.0.0.1", taken.getLocalPort(), unit, Duration.ofSeconds(1), SystemTime.INSTANCE),
                    SystemTime.INSTANCE);
            assertThat(told(result)).contains("taken and at once reset").contains("another master holds");
        }
    }

    @Test
    void aWrongUnitIdIsFound() throws Exception {
        try (Bench bench = new Bench()) {
            LinkCheck.Result result = bench.look(bench.subject(7, bench.axis.drive()));
            assertThat(told(result))
                    .contains("keeps silent")
                    .contains("WRONG: Wrong unit id: unit 7 keeps silent, but at the same address unit 255 answers");
            assertThat(result.lost()).isTrue();
        }
    }

    @Test
    void aDriveThatIsSilentToAllIsNotCalledAWrongUnit() throws Exception {
        try (Bench bench = new Bench()) {
            bench.server.fault(new WireFault.Silence());
            LinkCheck.Result result = bench.look(bench.subject());
            assertThat(told(result)).startsWith("NOT_PROVEN: The connection stands, but the unit keeps silent");
            assertThat(result.link().outcome()).isEqualTo(LinkRecord.Grade.NOT_PROVEN);
        }
    }

    // Source: MODBUS Application Protocol V1.1b3, section 7
    @ParameterizedTest
    @CsvSource({
        "1, 01 illegal function",
        "2, 02 illegal data address",
        "3, 03 illegal data value",
        "4, 04 server device failure",
        "6, 06 server device busy"
    })
    void exceptionsAreToldApart(int code, String text) throws Exception {
        try (Bench bench = new Bench()) {
            bench.server.fault(new WireFault.ExceptionReply(WireFault.ANY_FUNCTION, code, 100_000));
            LinkCheck.Result result = bench.look(bench.subject());
            assertThat(told(result))
                    .contains("The sampled signals cannot be read")
                    .contains(text);
            assertThat(result.link().outcome()).isEqualTo(LinkRecord.Grade.WRONG);
        }
    }

    @Test
    void anotherDriveIsCalledSo() throws Exception {
        try (Bench bench = new Bench(described -> Bench.with(
                described,
                described.identity().stream()
                        .map(constant -> new IdentityConstant(
                                constant.signal(), constant.signal().registers() == 2 ? 0x0D5A_17C3 : 9.81))
                        .toList(),
                100,
                4,
                Optional.empty()))) {
            LinkCheck.Result result = bench.look(bench.subject());
            assertThat(told(result))
                    .contains("WRONG: Wrong drive: no constant of Type C servo drive (invented) is here")
                    .contains("0D5A 17C3 hex")
                    .contains("expected 3,288,489,617");
            assertThat(result.proven()).isFalse();
        }
    }

    @Test
    void aSmallerBlockThanDeclaredIsFound() throws Exception {
        try (Bench bench =
                new Bench(described -> Bench.with(described, described.identity(), 61, 4, described.watchdog()))) {
            LinkCheck.Result result = bench.look(bench.subject());
            assertThat(told(result))
                    .contains("Exception 03 to a read of 100 registers: the drive allows 61 in one read");
            assertThat(result.link().findings())
                    .flatExtracting(LinkRecord.Finding::corrections)
                    .containsExactly("add maxReadRegisters: 61");
        }
    }

    @Test
    void fewerConnectionsThanDeclaredAreFoundWhenTried() throws Exception {
        try (Bench bench =
                new Bench(described -> Bench.with(described, described.identity(), 100, 2, described.watchdog()))) {
            LinkCheck.Result result =
                    LinkCheck.full(bench.subject(), new LinkCheck.Scope(5, true), bench.door(), SystemTime.INSTANCE);
            assertThat(told(result)).contains("The drive allows 2 connections at once, the description says 4");
        }
    }

    private static SignalSpec watchdogTime() {
        return new SignalSpec(
                "watchdogTime",
                RegisterTable.HOLDING,
                1100,
                ValueType.UINT16,
                WordOrder.HIGH_FIRST,
                ByteOrder.HIGH_FIRST,
                1,
                0,
                Unit.MILLISECOND,
                true,
                6);
    }

    @Test
    void theWatchdogIsReadAndGivesTheSafePollPeriod() throws Exception {
        Watchdog real = new Watchdog(Duration.ofMillis(600), Optional.of(watchdogTime()));
        try (Bench bench =
                new Bench(described -> Bench.with(described, described.identity(), 100, 4, Optional.of(real)))) {
            DriveDescription said = Bench.with(
                    bench.axis.drive(),
                    bench.axis.drive().identity(),
                    100,
                    4,
                    Optional.of(new Watchdog(Duration.ofSeconds(1), Optional.of(watchdogTime()))));
            LinkCheck.Result result = bench.look(bench.subject(Bench.UNIT, said));
            assertThat(fact(result, "Communication watchdog")).isEqualTo("600 ms as read, 1000 ms as declared");
            assertThat(fact(result, "Largest safe poll period")).isEqualTo("200 ms, a third of the watchdog");
            assertThat(told(result))
                    .contains("WRONG: The communication watchdog reads 600 ms, the description says 1000 ms");
        }
    }

    @Test
    void aConstantThatProvesNothingIsRefusedAsProof() throws Exception {
        try (Bench bench = new Bench(described -> Bench.with(
                described,
                List.of(new IdentityConstant(described.identity().get(0).signal(), 0x1234_1234)),
                100,
                4,
                Optional.empty()))) {
            DriveDescription said = Bench.with(
                    bench.axis.drive(),
                    List.of(new IdentityConstant(
                            bench.axis.drive().identity().get(0).signal(), 0x1234_1234)),
                    100,
                    4,
                    Optional.empty());
            LinkCheck.Result result = bench.look(bench.subject(Bench.UNIT, said));
            assertThat(told(result))
                    .contains("NOT_PROVEN: productCode (1234 1234 hex) proves nothing")
                    .contains("NOT_PROVEN: Nothing proves which drive this is");
            assertThat(LinkCheck.brief(
                                    bench.subject(Bench.UNIT, said),
                                    bench.door().open(Bench.UNIT),
                                    SystemTime.INSTANCE)
                            .proven())
                    .isFalse();
        }
    }

    @Test
    void theShortFormPassesInVirtualTimeAndWritesNothing() throws Exception {
        try (Bench bench = new Bench()) {
            VirtualTime time = new VirtualTime(Instant.EPOCH);
            LinkCheck.Result result = LinkCheck.brief(bench.subject(), new InProcessLink(bench.drive, time), time);
            assertThat(result.proven()).as(told(result)).isTrue();
            assertThat(bench.drive.writes()).isZero();
        }
    }

    @Test
    void repliesThatFailAreCounted() throws Exception {
        try (Bench bench = new Bench()) {
            VirtualTime time = new VirtualTime(Instant.EPOCH);
            InProcessLink link = new InProcessLink(bench.drive, time);
            bench.server.close();
            TimedReads reads = new TimedReads(bench.subject(), link, time, new Notes(), true);
            assertThat(reads.run(10)).isTrue();
            link.fault(new WireFault.DropReply(3, 3));
            Notes notes = new Notes();
            assertThat(new TimedReads(bench.subject(), link, time, notes, true).run(10))
                    .isTrue();
            assertThat(notes.record("A", "p").outcome()).isEqualTo(LinkRecord.Grade.NOT_PROVEN);
            assertThat(notes.record("A", "p").facts().toString()).contains("Errors");
        }
    }

    @Test
    void anotherDriveOverANewConnectionIsADuplicateAddress() throws Exception {
        try (Bench bench = new Bench()) {
            SimulatedDrive neighbour = new SimulatedDrive(
                    "NEIGHBOUR",
                    bench.axis.drive(),
                    bench.axis.simulation().orElseThrow(),
                    Map.of("serialNumber", 4712.0));
            try (SimulatedServer other = SimulatedServer.start("127.0.0.1", 0, Map.of(Bench.UNIT, neighbour))) {
                AtomicInteger calls = new AtomicInteger();
                LinkCheck.Result result = LinkCheck.full(
                        bench.subject(),
                        new LinkCheck.Scope(5, false),
                        unit -> calls.getAndIncrement() == 0
                                ? bench.door().open(unit)
                                : ModbusTcpLink.open(
                                        "127.0.0.1", other.port(), unit, Duration.ofSeconds(1), SystemTime.INSTANCE),
                        SystemTime.INSTANCE);
                assertThat(told(result)).contains("WRONG: Two devices seem to share one address");
            }
        }
    }

    @Test
    void aLifeCounterTellsFrozenRepliesFromAnAxisAtRest() throws Exception {
        try (Bench bench = new Bench()) {
            DriveDescription d = bench.axis.drive();
            Map<String, SignalSpec> signals = new LinkedHashMap<>(d.signals());
            SignalSpec like = watchdogTime();
            signals.put(
                    SignalNames.LIFE_COUNTER,
                    new SignalSpec(
                            SignalNames.LIFE_COUNTER,
                            like.table(),
                            530,
                            ValueType.UINT32,
                            like.wordOrder(),
                            like.byteOrder(),
                            1,
                            0,
                            Unit.ONE,
                            false,
                            16));
            DriveDescription lively = new DriveDescription(
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
            SimulationSpec spec = bench.axis.simulation().orElseThrow();
            // Where an exchange takes no virtual time, the clock that the drive shows stands still as in frozen
            // replies.
            SimulationSpec timeless = new SimulationSpec(
                    spec.motor(),
                    spec.load(),
                    spec.feedback(),
                    spec.loops(),
                    new SimulationSpec.Wire(Duration.ZERO, Duration.ZERO),
                    spec.seed());
            for (SimulationSpec simulation : List.of(spec, timeless)) {
                VirtualTime time = new VirtualTime(Instant.EPOCH);
                SimulatedDrive drive = new SimulatedDrive("LIVELY", lively, simulation);
                LinkCheck.Result result =
                        LinkCheck.brief(bench.subject(Bench.UNIT, lively), new InProcessLink(drive, time), time);
                if (simulation.wire().longest().isZero()) {
                    assertThat(told(result)).contains("WRONG: The replies are frozen: lifeCounter read the same");
                } else {
                    assertThat(told(result)).isEmpty();
                }
            }
        }
    }
}
