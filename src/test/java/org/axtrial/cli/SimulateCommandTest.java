package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PipedInputStream;
import java.io.PipedOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.atomic.AtomicReference;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.axtrial.link.LinkLostException;
import org.axtrial.link.ModbusTcpLink;
import org.axtrial.registers.DriveDescription;
import org.axtrial.registers.RegisterCodec;
import org.axtrial.registers.RegisterTable;
import org.axtrial.registers.SignalSpec;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.axtrial.time.SystemTime;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** The command as it is used: words into its input, its output, and a Modbus client at its ports. */
@Timeout(60)
class SimulateCommandTest {

    private static final String DEMO = "test-scripts/demo/site.yaml";
    private static final Duration DEADLINE = Duration.ofSeconds(5);

    private final ByteArrayOutputStream out = new ByteArrayOutputStream();
    private final ByteArrayOutputStream err = new ByteArrayOutputStream();
    private final PipedOutputStream keyboard = new PipedOutputStream();
    private final AtomicReference<Thread> running = new AtomicReference<>();
    private final CompletableFuture<Integer> code = new CompletableFuture<>();
    private final List<ModbusTcpLink> links = new ArrayList<>();

    private void simulate(String... options) throws IOException {
        List<String> words = new ArrayList<>(List.of("simulate", DEMO, "--port", "0"));
        words.addAll(List.of(options));
        Terminal terminal = Terminal.on(
                new PipedInputStream(keyboard),
                new PrintStream(out, true, StandardCharsets.UTF_8),
                new PrintStream(err, true, StandardCharsets.UTF_8));
        Thread thread = new Thread(() -> {
            code.complete(Main.run(terminal, words.toArray(String[]::new)));
        });
        running.set(thread);
        thread.start();
    }

    @AfterEach
    void end() throws Exception {
        for (ModbusTcpLink link : links) {
            link.close();
        }
        Thread thread = running.get();
        if (thread != null) {
            thread.interrupt();
            thread.join();
        }
    }

    private void type(String line) throws IOException {
        keyboard.write((line + "\n").getBytes(StandardCharsets.UTF_8));
        keyboard.flush();
    }

    private static String text(ByteArrayOutputStream stream) {
        return stream.toString(StandardCharsets.UTF_8);
    }

    /** Waits until the command has written something that fits. */
    private static Matcher await(ByteArrayOutputStream stream, String pattern) {
        Pattern compiled = Pattern.compile(pattern);
        Matcher matcher = compiled.matcher(text(stream));
        while (!matcher.find()) {
            Thread.onSpinWait();
            matcher = compiled.matcher(text(stream));
        }
        return matcher;
    }

    private String typed(String line, String answer) throws IOException {
        type(line);
        return await(out, answer).group();
    }

    private ModbusTcpLink link(String axis) throws Exception {
        return link(axis, DEADLINE);
    }

    private ModbusTcpLink link(String axis, Duration deadline) throws Exception {
        Matcher place = await(out, "  " + axis + " +port (\\d+) +unit (\\d+) .*\\R");
        ModbusTcpLink link = ModbusTcpLink.open(
                "127.0.0.1",
                Integer.parseInt(place.group(1)),
                Integer.parseInt(place.group(2)),
                deadline,
                SystemTime.INSTANCE);
        links.add(link);
        return link;
    }

    /** One signal of an axis as a master reads it. */
    private static double read(ModbusTcpLink link, String axis, String signal) throws Exception {
        Site site = SiteFile.load(Path.of(DEMO));
        DriveDescription drive = site.axes().stream()
                .filter(each -> each.name().equals(axis))
                .findFirst()
                .orElseThrow()
                .drive();
        SignalSpec spec = drive.signal(signal);
        int function = spec.table() == RegisterTable.INPUT ? 4 : 3;
        return RegisterCodec.decode(
                spec, link.read(function, spec.address(), spec.registers()).words());
    }

    @Test
    void quitEndsItWithTheLastWord() throws Exception {
        simulate();
        ModbusTcpLink link = link("INFEED");
        read(link, "INFEED", "position");
        type("quit");
        assertThat(code.get()).isZero();
        assertThat(text(out)).startsWith("SIMULATED drives on Modbus TCP, 127.0.0.1");
        assertThat(text(out)).contains("Served 3 drives, 1 requests.");
        assertThat(text(out)).containsPattern("no step overruns|STEP OVERRUNS: ");
        assertThat(text(err)).isEmpty();
        assertThatThrownBy(() -> read(link, "INFEED", "position")).isInstanceOf(LinkLostException.class);
    }

    @Test
    void theEndOfAnInputThatIsNoTerminalEndsNothing() throws Exception {
        simulate();
        ModbusTcpLink link = link("INFEED");
        keyboard.close();
        for (int i = 0; i < 200; i++) {
            read(link, "INFEED", "position");
        }
        assertThat(code).isNotDone();
    }

    @Test
    void anInputThatIsNoTextIsNotObeyed() throws Exception {
        simulate();
        ModbusTcpLink link = link("INFEED");
        type("trip\tINFEED\t0x8611");
        await(out, "INFEED: tripped by 0x8611");
        // In one write: a pipe takes nothing more once its reader has gone.
        type("\u0000\u0001\nquit");
        await(err, "The input is no text");
        read(link, "INFEED", "position");
        assertThat(code).isNotDone();
    }

    @Test
    void turnFreezeAndThaw() throws Exception {
        simulate();
        ModbusTcpLink link = link("INFEED");
        typed("turn INFEED 30 mm", "INFEED: turned by 30 mm");
        // One register count is 0.001 mm.
        assertThat(read(link, "INFEED", "position")).isBetween(29_999.0, 30_001.0);
        typed("freeze infeed", "INFEED: reads are frozen");
        double frozen = read(link, "INFEED", "position");
        typed("turn all -12 count", "3 axes: turned by -12 count");
        assertThat(read(link, "INFEED", "position")).isEqualTo(frozen);
        typed("thaw INFEED", "INFEED: reads are live");
        assertThat(read(link, "INFEED", "position")).isBetween(frozen - 13, frozen - 11);
    }

    @Test
    void slowAddsItsTimeUntilItIsEnded() throws Exception {
        simulate();
        ModbusTcpLink link = link("LIFT");
        typed("slow LIFT 300 ms", "LIFT: replies take 300 ms longer");
        typed("slow LIFT 80 ms", "LIFT: replies take 80 ms longer");
        long before = SystemTime.INSTANCE.nanos();
        read(link, "LIFT", "position");
        assertThat(SystemTime.INSTANCE.nanos() - before).isGreaterThanOrEqualTo(80_000_000L);
        typed("list", "LIFT .* slow drive");
        typed("slow LIFT 0 ms", "LIFT: replies come in their own time");
        type("fault LIFT exception code 6 function 3 after 1 times 1");
        await(out, "LIFT: exception after 1 requests, once");
        read(link, "LIFT", "position");
        assertThatThrownBy(() -> read(link, "LIFT", "position")).hasMessageContaining("06");
        read(link, "LIFT", "position");
    }

    @Test
    void silenceUntilItIsCleared() throws Exception {
        simulate("--copies", "2", "--units");
        ModbusTcpLink first = link("TURNTABLE-1", Duration.ofMillis(200));
        ModbusTcpLink second = link("TURNTABLE-2");
        typed("fault TURNTABLE-1 silence", "TURNTABLE-1: silence until cleared");
        assertThatThrownBy(() -> read(first, "TURNTABLE", "position"))
                .isInstanceOf(LinkLostException.class)
                .hasMessageContaining("200 ms");
        read(second, "TURNTABLE", "position");
        typed("clear all", "6 axes: no fault of the wire");
        first.close();
        read(link("TURNTABLE-1"), "TURNTABLE", "position");
    }

    @Test
    void aTripShowsInTheRegistersAndInTheLog() throws Exception {
        simulate();
        ModbusTcpLink link = link("TURNTABLE");
        typed("trip TURNTABLE 0x7500", "TURNTABLE: tripped by 0x7500");
        assertThat(read(link, "TURNTABLE", "faultCode")).isEqualTo(0x7500);
        await(out, "TURNTABLE +\\d+ 255 fault 0x7500");
    }

    @Test
    void helpNamesEveryWordAndEveryKind() throws Exception {
        simulate();
        String help = typed("help", "(?s)  slow AXIS TIME.*silence.*\\R");
        assertThat(help)
                .contains("freeze", "thaw", "fault", "clear", "trip", "turn", "list", "quit", "reply trickled by TIME");
        assertThat(help.lines()).allSatisfy(line -> assertThat(line.length()).isLessThan(80));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "slw all 5 ms | \"slw\" is no word here; did you mean \"slow\"?",
                "slow | say: slow AXIS TIME; AXIS is all or one of TURNTABLE, INFEED, LIFT",
                "slow LIFT | say: slow AXIS TIME",
                "slow LUFT 5 ms | no axis is named \"LUFT\"; did you mean \"LIFT\"?",
                "slow PRESS 5 ms | no axis is named \"PRESS\"; there are all, TURNTABLE, INFEED, LIFT",
                "slow LIFT 5 mm | expected a time such as \"50 ms\", found \"5 mm\"",
                "slow LIFT 61 min | expected a time from 1 us to 60 min, found \"61 min\"",
                "slow LIFT fast | expected a number and a unit such as \"10 mm\", got \"fast\"",
                "freeze LIFT now | say: freeze AXIS",
                "quit LIFT | say: quit",
                "fault LIFT silense | no fault is named \"silense\"; did you mean \"silence\"?",
                "fault LIFT reply droped times 2 | no fault is named \"reply droped\"; did you mean \"reply dropped\"?",
                "fault LIFT reply delayed | \"reply delayed\" needs by, for example by 200 ms",
                "fault LIFT silence by 5 ms | \"silence\" has no by; leave it out",
                "fault LIFT silence aftr 3 | \"aftr\" does not belong to a fault; did you mean \"after\"?",
                "fault LIFT silence after | \"after\" needs a number",
                "fault LIFT silence after 3 after 4 | \"after\" stands twice",
                "fault LIFT silence times 0 | times is 1 … 1000000000, found 0",
                "fault LIFT exception code 0x100 | code is 1 … 255, found 0x100",
                "fault LIFT exception code six | code is a whole number such as 1 or 0x1, found \"six\"",
                "trip LIFT 0 | a fault code is 1 … 65535, found 0",
                "turn TURNTABLE 5 mm | TURNTABLE: this axis is rotary and has no lead",
                "turn LIFT 5 kg | LIFT: cannot convert kg into rev"
            })
    void aWrongWordGetsOneErrorThatNamesTheNearest(String line, String error) throws Exception {
        simulate();
        await(out, "LIFT .*\\R");
        type(line);
        type("quit");
        assertThat(code.get()).isZero();
        assertThat(text(err)).startsWith(error);
        assertThat(text(err).lines()).hasSize(1);
    }

    private void awaitStatus(ModbusTcpLink link, int bits) throws Exception {
        double status;
        do {
            status = read(link, "TURNTABLE", "status");
        } while (((int) status & bits) == 0);
    }

    @Test
    void anAxisUnderTorqueIsNotTurnedByHand() throws Exception {
        simulate();
        ModbusTcpLink link = link("TURNTABLE");
        // A drive that has just been switched on takes no command until it is ready, bit 0.
        awaitStatus(link, 1);
        // Command register 40001: enable is 1.
        link.writeSingle(0, 1);
        awaitStatus(link, 2);
        type("turn TURNTABLE 5 deg");
        await(err, "TURNTABLE gives torque; a shaft under torque is not turned by hand");
        await(out, "TURNTABLE .*enabled, at rest");
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "--copies=0 | --copies must be 1 … 1000, got 0",
                "--copies=90 --units | one port has the unit ids 1 … 247",
                "--copies=2 --port=65534 | 6 ports from 65534 on end above 65535"
            })
    void whatCannotBeServedIsRefused(String options, String error) {
        List<String> words = new ArrayList<>(List.of("simulate", DEMO));
        words.addAll(List.of(options.split(" ")));
        int refused = Main.run(
                Terminal.on(
                        new PrintStream(out, true, StandardCharsets.UTF_8),
                        new PrintStream(err, true, StandardCharsets.UTF_8)),
                words.toArray(String[]::new));
        assertThat(refused).isEqualTo(2);
        assertThat(text(err)).startsWith(error);
    }
}
