package org.axtrial.site;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import org.axtrial.axis.AxisException;
import org.axtrial.axis.AxisUnreachableException;
import org.axtrial.axis.DriveTrippedException;
import org.axtrial.axis.MoveOptions;
import org.axtrial.axis.OutcomeUnprovenException;
import org.axtrial.axis.StopReport;
import org.axtrial.axis.WrongDriveAnsweredException;
import org.axtrial.drive.CommandRefusedException;
import org.axtrial.drive.DriveException;
import org.axtrial.drive.OutcomeUnknownException;
import org.axtrial.quantity.Quantity;
import org.axtrial.sim.WireFault;
import org.axtrial.sim.WireFault.Strikes;

/** Does every command under every fault and writes down what came of it. */
final class ReliabilityTable {

    private static final Duration LATE = Duration.ofMillis(400);
    private static final Duration SLOW = Duration.ofMillis(60);

    /** What is ordered while the fault strikes, and the request that carries it. */
    enum Command {
        READ("read", 3, 0, FaultBench.POSITION),
        MOVE("relative move", 16, 1, FaultBench.RELATIVE_MOVE),
        SPEED("speed", 16, 1, FaultBench.SPEED_COMMAND),
        STOP("stop", 6, 0, FaultBench.COMMAND),
        WRITE("parameter write", 6, 0, FaultBench.NOTCH);

        private final String text;
        private final int function;
        private final int after;
        private final int address;

        Command(String text, int function, int after, int address) {
            this.text = text;
            this.function = function;
            this.after = after;
            this.address = address;
        }
    }

    /** One line of the table. */
    record Row(
            String fault,
            String command,
            String wire,
            String frames,
            String outcome,
            long wrongSamples,
            long motionsTooMany,
            String standstill,
            String time) {

        /** The line without what the load of the computer decides. */
        String sure() {
            return "| " + fault + " | " + command + " | " + wire + " | " + frames + " | " + outcome + " | "
                    + wrongSamples + " | " + motionsTooMany + " | " + standstill + " |"
                    + (wire.equals("in process") ? " " + time + " |" : "");
        }

        String line() {
            return sure() + (wire.equals("in process") ? "" : " " + time + " |");
        }
    }

    private record Kind(FaultBench.Wire wire, boolean strikesReads, Function<Strikes, WireFault> make) {}

    private static final Map<String, Kind> KINDS = kinds();

    private final Path folder;
    private final int readsBeforeStop;

    ReliabilityTable(Path folder) throws Exception {
        this.folder = folder;
        try (FaultBench sound = new FaultBench(folder, FaultBench.Wire.IN_PROCESS).ready()) {
            sound.link.await(Strikes.FROM_NOW_ON);
            order(sound, Command.STOP);
            readsBeforeStop = sound.link.readsBeforeLastSingleWrite();
        }
    }

    private static Map<String, Kind> kinds() {
        Map<String, Kind> kinds = new LinkedHashMap<>();
        FaultBench.Wire process = FaultBench.Wire.IN_PROCESS;
        FaultBench.Wire tcp = FaultBench.Wire.TCP;
        kinds.put("none", new Kind(process, false, strikes -> new WireFault.SlowDrive(Duration.ZERO)));
        kinds.put("reply dropped", new Kind(process, false, WireFault.DropReply::new));
        kinds.put("reply delayed", new Kind(process, false, strikes -> new WireFault.DelayReply(strikes, LATE)));
        kinds.put("reply doubled", new Kind(tcp, false, WireFault.DoubleReply::new));
        kinds.put("wrong transaction", new Kind(tcp, false, WireFault.WrongTransaction::new));
        kinds.put("wrong unit", new Kind(tcp, false, WireFault.WrongUnit::new));
        kinds.put("wrong function", new Kind(tcp, false, WireFault.WrongFunction::new));
        kinds.put("wrong length", new Kind(tcp, false, WireFault.WrongLength::new));
        kinds.put(
                "reply trickled",
                new Kind(tcp, false, strikes -> new WireFault.TrickleReply(strikes, Duration.ofMillis(60))));
        kinds.put("reply cut", new Kind(tcp, false, WireFault.CutReply::new));
        kinds.put("connection reset", new Kind(tcp, false, WireFault.ResetConnection::new));
        kinds.put("connection half-open", new Kind(tcp, false, WireFault.HalfOpen::new));
        kinds.put("connections taken", new Kind(tcp, false, strikes -> new WireFault.ConnectionsTaken(strikes, 2)));
        for (int code : new int[] {1, 2, 3, 4, 5, 6, 8, 10, 11, 0x7F}) {
            kinds.put(
                    String.format(Locale.ROOT, "exception %02X", code),
                    new Kind(process, false, strikes -> new WireFault.ExceptionReply(strikes, code)));
        }
        kinds.put("frozen values", new Kind(process, true, WireFault.FrozenValues::new));
        kinds.put("torn words", new Kind(process, true, WireFault.TornWords::new));
        kinds.put("other drive", new Kind(process, false, WireFault.OtherDrive::new));
        kinds.put("slow drive", new Kind(process, true, strikes -> new WireFault.SlowDrive(strikes, SLOW)));
        kinds.put("silence", new Kind(process, false, WireFault.Silence::new));
        return kinds;
    }

    List<Row> rows() throws Exception {
        List<Row> rows = new ArrayList<>();
        for (Map.Entry<String, Kind> kind : KINDS.entrySet()) {
            for (Command command : Command.values()) {
                rows.add(row(kind.getKey(), kind.getValue(), command));
            }
        }
        return rows;
    }

    private Row row(String name, Kind kind, Command command) throws Exception {
        try (FaultBench bench =
                new FaultBench(folder, kind.wire(), FaultBench.SITE, description(kind.wire())).ready()) {
            long framesBefore = bench.frames(command.function, command.address);
            long motionsBefore = bench.simulated.motionsStarted();
            bench.fault(kind.make().apply(strikes(kind, command, name)));
            String outcome = order(bench, command);
            long frames = bench.frames(command.function, command.address) - framesBefore;
            boolean moves = command != Command.READ && command != Command.WRITE;
            long tooMany = Math.max(0, bench.simulated.motionsStarted() - motionsBefore - (moves ? 1 : 0));
            long wrong = outcome.startsWith("done")
                    ? bench.sightings.stream()
                            .filter(FaultBench.Sighting::isWrong)
                            .count()
                    : 0;
            return new Row(
                    name,
                    command.text,
                    kind.wire() == FaultBench.Wire.TCP ? "TCP" : "in process",
                    framesText(command, frames),
                    kind.wire() == FaultBench.Wire.TCP ? outcome.split(";", 2)[0] : outcome,
                    wrong,
                    tooMany,
                    standstill(bench),
                    time(bench));
        }
    }

    /** Over TCP in real time the watchdog must outlast a computer that is busy with something else. */
    private static String description(FaultBench.Wire wire) {
        return wire == FaultBench.Wire.TCP ? FaultBench.DRIVE.replace("300 ms", "3 s") : FaultBench.DRIVE;
    }

    /** Repeating a read or a stop is harmless and its number is a matter of timing, so only the others are counted. */
    private static String framesText(Command command, long frames) {
        return switch (command) {
            case READ, STOP -> frames > 0 ? "1 or more" : "0";
            case MOVE, SPEED, WRITE -> Long.toString(frames);
        };
    }

    private Strikes strikes(Kind kind, Command command, String name) {
        boolean lasting = kind.strikesReads() || name.equals("silence") || name.equals("none");
        int count = lasting ? WireFault.WITHOUT_END : 1;
        if (name.equals("silence") || !kind.strikesReads()) {
            // Silence begins with the request that carries the command and then swallows everything.
            int any = command == Command.STOP ? readsBeforeStop + 3 : 0;
            return name.equals("silence") && command != Command.READ && command != Command.WRITE
                    ? new Strikes(WireFault.ANY_FUNCTION, command == Command.STOP ? any : readsBeforeStart() + 1, count)
                    : new Strikes(name.equals("silence") ? 0 : command.function, command.after, count);
        }
        int after = switch (command) {
            case READ, WRITE -> 0;
            case MOVE, SPEED -> 15;
            case STOP -> readsBeforeStop;
        };
        return new Strikes(3, after, count);
    }

    /** Five looks at rest and one at the status word. */
    private static int readsBeforeStart() {
        return 6;
    }

    private static String order(FaultBench bench, Command command) throws InterruptedException {
        try {
            switch (command) {
                case READ -> {
                    double shown = bench.axis.read("position") - 40_000;
                    bench.sightings.add(new FaultBench.Sighting(shown / 65_536, bench.truth(), bench.truth()));
                }
                case MOVE -> bench.axis.moveBy(Quantity.parse("1 rev"), MoveOptions.DEFAULT);
                case SPEED, STOP ->
                    bench.axis.holdSpeed(Quantity.parse("120 rpm"), Duration.ofMillis(300), MoveOptions.DEFAULT);
                case WRITE -> {
                    return "done, reads " + bench.drive.write("notch", 250);
                }
            }
            return "done";
        } catch (AxisException e) {
            return told(e);
        } catch (DriveException e) {
            return told(e);
        }
    }

    private static String told(AxisException e) {
        String message = String.valueOf(e.getMessage());
        if (e instanceof OutcomeUnprovenException) {
            return "outcome unknown; "
                    + (message.contains("It had acted")
                            ? "it had acted"
                            : message.contains("has not changed")
                                    ? "it has not moved"
                                    : message.contains("moving already") ? "it was moving" : "out of sight");
        }
        if (e instanceof WrongDriveAnsweredException) {
            return "another drive answers";
        }
        if (e instanceof AxisUnreachableException) {
            return message.contains("stale")
                    ? "values are stale"
                    : message.contains("jumped") ? "position was torn" : "link lost";
        }
        return e instanceof DriveTrippedException
                ? "drive refused"
                : e.getClass().getSimpleName();
    }

    private static String told(DriveException e) {
        return e instanceof OutcomeUnknownException
                ? "outcome unknown"
                : e instanceof CommandRefusedException ? "drive refused" : "link lost";
    }

    private static String standstill(FaultBench bench) {
        if (bench.stops.isEmpty()) {
            return "no stop needed";
        }
        StopReport last = bench.stops.get(bench.stops.size() - 1);
        boolean rests = Math.abs(bench.simulated.shaftSpeed()) < 0.01;
        return last.standstill()
                ? (rests ? "proven" : "CLAIMED BUT WRONG")
                : "not proven, told so; "
                        + (rests ? "the shaft rests" : restsLater(bench) ? "the watchdog stops it" : "THE SHAFT TURNS");
    }

    /** Whether the drive comes to rest by itself when nobody says anything to it any more. */
    private static boolean restsLater(FaultBench bench) {
        if (!bench.time.isVirtual()) {
            return false;
        }
        bench.simulated.advanceTo(bench.simulated.nanos() + 1_000_000_000);
        return Math.abs(bench.simulated.shaftSpeed()) < 0.01;
    }

    private static String time(FaultBench bench) {
        if (bench.stops.isEmpty() || bench.link.struckNanos() == WatchedLink.NEVER) {
            return "–";
        }
        long millis = Math.round((bench.time.nanos() - bench.link.struckNanos()) * 1e-6);
        return (bench.time.isVirtual() ? millis : 10 * Math.round(millis / 10.0)) + " ms";
    }
}
