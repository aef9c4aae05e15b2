package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.InputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.quantity.Quantity;
import org.axtrial.sim.WireFault;
import org.axtrial.site.ServedAxis;
import org.axtrial.site.ServingPlan;
import org.axtrial.site.SimulatedSite;
import org.axtrial.site.SiteFile;
import org.axtrial.time.VirtualTime;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What is seen of served drives, on a screen and in a log. */
@Timeout(60)
class DriveBoardTest {

    private final VirtualTime time = new VirtualTime(Instant.EPOCH);

    private static SimulatedSite demo(int copies) throws Exception {
        return SimulatedSite.start(
                SiteFile.load(Path.of("test-scripts/demo/site.yaml")), new ServingPlan(copies, true), "127.0.0.1", 0);
    }

    private DriveBoard on(FakeScreen screen, List<ServedAxis> axes, int columns, int lines) {
        PrintStream stream = new PrintStream(screen, true, StandardCharsets.UTF_8);
        return new DriveBoard(
                Terminal.screen(InputStream.nullInputStream(), stream, stream),
                axes,
                time,
                () -> new ScreenSize(columns, lines));
    }

    @Test
    void theTableIsRewrittenInItsPlaceAndWhatIsBeingTypedStays() throws Exception {
        FakeScreen screen = new FakeScreen(80, 12);
        try (SimulatedSite site = demo(1)) {
            DriveBoard board = on(screen, site.axes(), 80, 12);
            board.begin();
            assertThat(screen.seen()).hasSize(7);
            assertThat(screen.seen().get(0)).startsWith("AXIS").contains("POSITION", "REQ/S", "LATE");
            assertThat(screen.seen().get(3)).startsWith("LIFT").contains("0.000 mm");
            screen.type("turn TAB");
            site.axes().get(2).turnByHand(Quantity.parse("30 mm"));
            site.axes().get(1).fault(new WireFault.Silence());
            time.advance(500_000_000);
            board.refresh();
            assertThat(screen.seen()).hasSize(7);
            assertThat(screen.seen().get(2)).startsWith("INFEED").endsWith("silence");
            assertThat(screen.seen().get(3)).startsWith("LIFT").contains("30.000 mm");
            assertThat(screen.seen().get(6)).isEqualTo("> turn TAB");
        }
    }

    @Test
    void anAnswerStaysAboveTheTableWhereverTheScreenScrolls() throws Exception {
        FakeScreen screen = new FakeScreen(80, 9);
        try (SimulatedSite site = demo(1)) {
            DriveBoard board = on(screen, site.axes(), 80, 9);
            board.begin();
            for (String word : List.of("one", "two", "three")) {
                screen.type(word + "\n");
                // The table is rewritten before the typed line has been seen to.
                board.refresh();
                board.answer(word, List.of(word + " is done"), List.of());
                board.refresh();
            }
            assertThat(screen.seen()).hasSize(9);
            assertThat(screen.seen().subList(0, 3))
                    .containsExactly("> three", "three is done", screen.seen().get(2));
            assertThat(screen.seen().get(2)).startsWith("AXIS");
            assertThat(screen.seen().get(8)).isEqualTo(">");
        }
    }

    @Test
    void manyDrivesFitAnEightyByTwentyFourScreenAndTheOddOnesComeFirst() throws Exception {
        FakeScreen screen = new FakeScreen(80, 24);
        try (SimulatedSite site = demo(22)) {
            site.axes().get(60).trip(0x7500);
            DriveBoard board = on(screen, site.axes(), 80, 24);
            board.begin();
            List<String> seen = screen.seen();
            assertThat(seen).hasSize(23);
            assertThat(seen).allSatisfy(line -> assertThat(line.length()).isLessThan(80));
            assertThat(seen.get(0)).startsWith("AXIS");
            assertThat(seen)
                    .anySatisfy(
                            line -> assertThat(line).startsWith("TURNTABLE-21").contains("fault 0x7500"));
            assertThat(seen.get(19)).startsWith("… and 48 more").endsWith("list shows all");
            assertThat(seen.get(20)).isEqualTo("SIMULATED: 66 drives on 1 port, 0 moving, 0 requests/s");
            assertThat(board.list()).hasSize(1 + 66 + 2);
        }
    }

    @Test
    void aLogGetsALineOnlyWhenSomethingHasChanged() throws Exception {
        ByteArrayOutputStream log = new ByteArrayOutputStream();
        PrintStream stream = new PrintStream(log, true, StandardCharsets.UTF_8);
        try (SimulatedSite site = demo(1)) {
            DriveBoard board = new DriveBoard(Terminal.on(stream, stream), site.axes(), time, () -> ScreenSize.USUAL);
            while (site.axes().stream().anyMatch(axis -> axis.state().equals("not ready"))) {
                Thread.onSpinWait();
            }
            board.begin();
            site.axes().get(0).turnByHand(Quantity.parse("3 deg"));
            board.refresh();
            assertThat(withoutOverruns(log)).isEmpty();
            site.axes().get(1).trip(0x7500);
            board.refresh();
            board.refresh();
            assertThat(withoutOverruns(log))
                    .singleElement()
                    .asString()
                    .startsWith("INFEED")
                    .contains("fault 0x7500");
        }
    }

    /** A busy computer may be late at any time, which is told. */
    private static List<String> withoutOverruns(ByteArrayOutputStream log) {
        return log.toString(StandardCharsets.UTF_8)
                .lines()
                .filter(line -> !line.startsWith("STEP OVERRUNS"))
                .toList();
    }

    private static DriveRow row(String axis, long overruns, String... faults) {
        return new DriveRow(
                axis,
                5020,
                1,
                "enabled, moving",
                "1.000 mm",
                "2.0 mm/s",
                1,
                10.4,
                overruns,
                Duration.ofMillis(overruns == 0 ? 2 : 20 + overruns),
                List.of(faults));
    }

    @Test
    void lateStepsAreToldInTheLineAndForAllTogether() {
        List<DriveRow> rows = List.of(row("A", 0), row("B", 11), row("C", 3, "silence", "slow drive"));
        List<String> lines = new DriveTable().fitted(rows, 200, 20);
        assertThat(lines)
                .containsExactly(
                        "AXIS PORT ID STATE           POSITION    SPEED CON REQ/S LATE FAULTS",
                        "A    5020  1 enabled, moving 1.000 mm 2.0 mm/s   1    10",
                        "B    5020  1 enabled, moving 1.000 mm 2.0 mm/s   1    10   11",
                        "C    5020  1 enabled, moving 1.000 mm 2.0 mm/s   1    10    3 silence, slow drive",
                        "SIMULATED: 3 drives on 1 port, 3 moving, 31 requests/s",
                        "STEP OVERRUNS: 14 on 2 of 3 drives, worst 31 ms (B)");
    }

    @Test
    void hiddenDrivesWithTroubleAreCounted() {
        List<DriveRow> rows = new ArrayList<>();
        for (int i = 0; i < 10; i++) {
            rows.add(row("A" + i, i < 7 ? 0 : 1));
        }
        List<String> lines = new DriveTable().fitted(rows, 80, 6);
        assertThat(lines).hasSize(6);
        assertThat(lines.get(1)).startsWith("A7");
        assertThat(lines.get(3)).isEqualTo("… and 8 more, 1 of them late or with faults; list shows all");
    }

    @Test
    void theSizeOfTheScreenAsTheTerminalTellsIt() {
        assertThat(ScreenSize.read("50 132\n")).contains(new ScreenSize(132, 50));
        assertThat(ScreenSize.read("stty: not a terminal")).isEmpty();
        assertThat(ScreenSize.read("0 0\n")).contains(ScreenSize.USUAL);
    }

    // Fields of /proc/pid/stat: proc(5). The third behind the name is the process group, the sixth that of the
    // terminal.
    @Test
    void aProgramInTheBackgroundKnowsThatTheTerminalIsNotItsOwn() {
        assertThat(ConsoleKind.isForeground("812 (java) S 700 812 700 34816 812 4194304"))
                .isTrue();
        assertThat(ConsoleKind.isForeground("812 (java) S 700 812 700 34816 700 4194304"))
                .isFalse();
        assertThat(ConsoleKind.isForeground("812 (ja) v (a) S 1 812 812 0 -1 4194304"))
                .isTrue();
    }

    @Test
    void aClosedInputIsNotMistakenForAFileOfTheRuntime() {
        String runtime = "/usr/lib/jvm/java-17";
        assertThat(ConsoleKind.isInputOfOthers(runtime + "/lib/modules", runtime, true))
                .isTrue();
        assertThat(ConsoleKind.isInputOfOthers("/opt/axtrial/lib/axtrial.jar", runtime, true))
                .isTrue();
        assertThat(ConsoleKind.isInputOfOthers("/dev/pts/3", runtime, false)).isTrue();
        assertThat(ConsoleKind.isInputOfOthers("/dev/pts/3", runtime, true)).isFalse();
        assertThat(ConsoleKind.isInputOfOthers("/home/a/words.txt", runtime, false))
                .isFalse();
        assertThat(ConsoleKind.isInputOfOthers("pipe:[81]", runtime, false)).isFalse();
    }
}
