package org.axtrial.evidence;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Random;
import org.axtrial.measure.Contribution;
import org.axtrial.measure.Criterion;
import org.axtrial.measure.Judgement;
import org.axtrial.measure.Mark;
import org.axtrial.measure.Measurement;
import org.axtrial.measure.Source;
import org.axtrial.measure.Verdict;
import org.axtrial.quantity.AxisScale;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;
import org.axtrial.trace.Channel;
import org.axtrial.trace.Trace;
import org.axtrial.trace.TraceRecorder;

/** An invented run with every verdict and with hostile text, told as events. */
public final class SampleRun {

    /** Control characters, markup, an emoji, right-to-left text and half a surrogate pair. */
    public static final String HOSTILE =
            "</script><script>alert(1)</script> \u0001\u001e\u0000 \"quoted\" & 'so' 😀 שלום \ud800 ]]> \r\n end";

    public static final String RUN_ID = "2031-03-04_101112_demo";

    private static final Map<String, AxisScale> SCALES = Map.of(
            "T", new AxisScale(65536, 1, 1, 10, 1, null, 1),
            "X", AxisScale.linear(65536, Quantity.of(10, Unit.MILLIMETRE)),
            "Z", AxisScale.rotary(65536));

    private static final String SCRIPT = "positioning/one-revolution.js";

    private final List<RunEvent> events = new ArrayList<>();
    private final RunInfo.Mode mode;
    private Instant now;

    private SampleRun(RunInfo.Mode mode, Instant start) {
        this.mode = mode;
        this.now = start;
    }

    /** Three axes, eleven trials, all verdicts. */
    public static List<RunEvent> full(RunInfo.Mode mode, Instant start) {
        SampleRun run = new SampleRun(mode, start);
        run.tellFull();
        return List.copyOf(run.events);
    }

    /** Three axes, each with so many trials of one move and two checks. */
    public static List<RunEvent> large(RunInfo.Mode mode, int trials) {
        SampleRun run = new SampleRun(mode, Instant.parse("2031-03-04T10:11:12Z"));
        List<RunInfo.PlannedTrial> plan = new ArrayList<>();
        for (String axis : SCALES.keySet().stream().sorted().toList()) {
            for (int n = 1; n <= trials; n++) {
                plan.add(plan(largeId(n), axis, "One revolution out and back, number " + n, "SPEC 4.2." + n));
            }
        }
        run.events.add(new RunEvent.RunStarted(run.now, run.info(plan)));
        for (RunInfo.PlannedTrial one : plan) {
            boolean linear = one.axis().equals("X");
            Unit unit = linear ? Unit.MILLIMETRE : Unit.REVOLUTION;
            double nominal = linear ? 10 : 1;
            run.position(run.begin(one.trial(), one.axis()), unit, nominal * 1.00002, Verdict.PASS, "", nominal);
        }
        run.events.add(new RunEvent.RunFinished(run.tick(), Optional.empty()));
        return List.copyOf(run.events);
    }

    private static String largeId(int n) {
        return String.format("POS-%02d", n);
    }

    /** One trial with one trace and one check, short enough to be cut at every byte. */
    public static List<RunEvent> small() {
        SampleRun run = new SampleRun(RunInfo.Mode.REHEARSAL, Instant.parse("2031-03-04T10:11:12Z"));
        List<RunInfo.PlannedTrial> plan =
                List.of(new RunInfo.PlannedTrial(SCRIPT, "POS-01", "T", "One revolution", "4.2.1"));
        run.events.add(new RunEvent.RunStarted(run.now, run.info(plan)));
        TrialKey key = new TrialKey(SCRIPT, "POS-01", "T", 1);
        run.events.add(new RunEvent.TrialStarted(run.tick(), key));
        run.events.add(new RunEvent.StepDone(run.tick(), key, "moveBy 1 rev " + HOSTILE, run.place(7)));
        run.events.add(new RunEvent.TraceTaken(
                run.tick(), key, "move-1", "moveBy 1 rev", move(Unit.REVOLUTION, 0, 1, 0.2, 0.05)));
        run.events.add(new RunEvent.CheckJudged(
                run.tick(),
                key,
                "Position change",
                new Judgement(
                        measured("position change", 1.00002, Unit.REVOLUTION, 1e-6),
                        nominal(1, Unit.REVOLUTION, 0.001, "1 rev ± 0.001 rev"),
                        Verdict.PASS,
                        OptionalDouble.of(0.00098),
                        ""),
                Optional.of("move-1"),
                List.of(new Mark("arrived", 0.21)),
                run.place(8)));
        run.events.add(new RunEvent.TrialFinished(run.tick(), key, Verdict.PASS, ""));
        run.events.add(new RunEvent.RunFinished(run.tick(), Optional.empty()));
        return List.copyOf(run.events);
    }

    /** A rest-to-rest move with a cosine profile that rings and settles, sampled every 4 ms. */
    public static Trace move(Unit unit, double from, double distance, double seconds, double tail) {
        return move(unit, from, distance, seconds, tail, 0.0004);
    }

    static Trace move(Unit unit, double from, double distance, double seconds, double tail, double ring) {
        Unit speed = unit == Unit.MILLIMETRE ? Unit.MILLIMETRE_PER_SECOND : Unit.REVOLUTION_PER_SECOND;
        TraceRecorder recorder = new TraceRecorder(
                List.of(
                        new Channel("position", unit, 1.0 / 65536),
                        new Channel("demand", unit, 1.0 / 65536),
                        new Channel("speed", speed, 0.001),
                        new Channel("torque", Unit.PERCENT, 0.1),
                        new Channel("status", Unit.ONE, 1)),
                4_000_000);
        recorder.origin(1_000_000_000L);
        Random random = new Random(42);
        for (long nanos = 980_000_000L; nanos < 1_000_000_000L + (seconds + tail) * 1e9; nanos += 4_000_000) {
            double t = (nanos - 1_000_000_000L) * 1e-9 + 0.00015;
            double phase = Math.min(1, Math.max(0, t / seconds));
            double demand = from + distance * (phase - Math.sin(2 * Math.PI * phase) / (2 * Math.PI));
            double velocity = distance / seconds * (1 - Math.cos(2 * Math.PI * phase));
            double after = Math.max(0, t - seconds);
            double ringing = phase < 1 ? 0 : distance * ring * Math.exp(-after / 0.02) * Math.cos(after * 130);
            double position = demand - velocity * 0.002 + ringing;
            double torque = 38 * Math.sin(2 * Math.PI * phase) * (phase > 0 && phase < 1 ? 1 : 0)
                    + 4
                    + random.nextGaussian() * 0.6;
            recorder.add(nanos, nanos + 300_000, new double[] {position, demand, velocity, torque, 0x1637});
        }
        return recorder.trace();
    }

    private static Measurement measured(String name, double value, Unit unit, double u) {
        return new Measurement(
                name,
                "Difference between the mean position at rest after the move and before it.",
                value,
                unit,
                Measurement.Bound.EXACT,
                Source.DRIVE,
                OptionalDouble.of(0.004),
                u,
                List.of(
                        Contribution.rectangular("encoder quantisation", "1 count of 65536 per revolution", u),
                        new Contribution("repeatability", Contribution.Evaluation.A, "5 samples at rest", u * 0.4, 4)),
                List.of(),
                Optional.empty());
    }

    private static Criterion nominal(double value, Unit unit, double plusMinus, String printed) {
        return new Criterion.Nominal(new Quantity(value, unit), plusMinus, printed);
    }

    private Instant tick() {
        now = now.plusMillis(137);
        return now;
    }

    private Optional<ScriptPlace> place(int line) {
        return Optional.of(new ScriptPlace(SCRIPT, line, 3, "const out = axis.moveBy(1, \"rev\"); // " + line));
    }

    private RunInfo info(List<RunInfo.PlannedTrial> plan) {
        Map<String, String> job = new LinkedHashMap<>();
        job.put("Job", "4711 Turntable cell, site acceptance");
        job.put("Customer", "Invented Customer Ltd (example)");
        job.put("Site", "Hall 3, bay B");
        job.put("Specification", "SPEC 4, revision C");
        Map<String, String> machine = new LinkedHashMap<>();
        machine.put("Machine", "Rotary indexing cell");
        machine.put("Serial", "X-0001");
        machine.put("Environment", "21 °C, warmed up 30 min");
        return new RunInfo(
                RUN_ID,
                mode,
                "Axtrial 0.1.0",
                "Java 17.0.15, Linux 6.1",
                "R. Example",
                job,
                machine,
                "Simple acceptance (ILAC-G8:09/2019, 4.2.1): a value on the limit is accepted; a limit that the"
                        + " measurement cannot resolve gives INCONCLUSIVE.",
                List.of(
                        axis("T", "turntable", "invented direct-style drive", "10.0.0.11:502 unit 1"),
                        axis("X", "feed screw with a long description that runs on " + HOSTILE, "invented", "h:502"),
                        axis("Z", "vertical lift", "invented profile drive", "10.0.0.13:502 unit 3")),
                plan);
    }

    private RunInfo.AxisInfo axis(String name, String description, String type, String peer) {
        Map<String, String> facts = new LinkedHashMap<>();
        facts.put("Scale", "65536 count/rev at the motor, gearbox 10:1");
        facts.put("Travel window", "-2 … 2 rev");
        facts.put("Speed limit", "900 r/min");
        facts.put("Sample period", "4 ms ordered");
        return new RunInfo.AxisInfo(
                name,
                description,
                type,
                peer,
                mode != RunInfo.Mode.REAL,
                SCALES.getOrDefault(name, AxisScale.rotary(65536)),
                facts);
    }

    private static RunInfo.PlannedTrial plan(String trial, String axis, String title, String clause) {
        return new RunInfo.PlannedTrial(SCRIPT, trial, axis, title, clause);
    }

    private void tellFull() {
        List<RunInfo.PlannedTrial> plan = List.of(
                plan("ID-01", "T", "Identity is as listed", "SPEC 2.1"),
                plan("POS-01", "T", "One revolution out and back", "SPEC 4.2.1"),
                plan("SPD-01", "T", "Speed holds at 600 r/min", "SPEC 4.3"),
                plan("POS-01", "X", "One revolution out and back", "SPEC 4.2.1"),
                plan("SET-01", "X", "Settles within the window in time", "SPEC 4.2.4"),
                plan(
                        "LIM-01",
                        "X",
                        "Software limits refuse a command beyond the travel window, from both ends and "
                                + "at the highest speed that the envelope allows " + HOSTILE,
                        ""),
                plan("POS-01", "Z", "One revolution out and back", "SPEC 4.2.1"),
                plan("BRK-01", "Z", "Brake holds the load", "SPEC 6.1"),
                plan("TRQ-01", "Z", "Torque on the duty cycle", "SPEC 5"),
                plan("COM-01", "Z", "Loss of the link", "SPEC 7"),
                plan("OPT-01", "Z", "Second encoder agrees", "SPEC 8"));
        events.add(new RunEvent.RunStarted(now, info(plan)));
        events.add(new RunEvent.Noted(tick(), "Guard door interlock was bridged by key 7 under permit 12."));
        identity();
        position("T", Unit.REVOLUTION, 1.00002, Verdict.PASS, "", 1);
        speed();
        position("X", Unit.MILLIMETRE, 10.0341, Verdict.FAIL, "above the upper limit by 0.0241 mm", 10);
        settling();
        limits();
        retriedPosition();
        stopped();
        broken("TRQ-01", Verdict.ERROR, "axis.torqe is not a function: did you mean torque? " + SCRIPT + ":31:14");
        TrialKey optional = begin("OPT-01", "Z");
        end(optional, Verdict.NOT_APPLICABLE, "the axis has no second encoder");
        events.add(new RunEvent.RunFinished(tick(), Optional.empty()));
    }

    private TrialKey begin(String trial, String axis) {
        TrialKey key = new TrialKey(SCRIPT, trial, axis, 1);
        events.add(new RunEvent.TrialStarted(tick(), key));
        return key;
    }

    private void step(TrialKey key, String text) {
        events.add(new RunEvent.StepDone(tick(), key, text, place(5)));
    }

    private void check(TrialKey key, String name, Judgement judgement, String trace, List<Mark> marks) {
        events.add(new RunEvent.CheckJudged(
                tick(), key, name, judgement, Optional.of(trace).filter(t -> !t.isEmpty()), marks, place(9)));
    }

    private void end(TrialKey key, Verdict verdict, String reason) {
        events.add(new RunEvent.TrialFinished(tick(), key, verdict, reason));
    }

    private void identity() {
        TrialKey key = begin("ID-01", "T");
        step(key, "read identity registers");
        check(
                key,
                "Device code",
                new Judgement(
                        new Measurement(
                                "device code",
                                "Register as read.",
                                4660,
                                Unit.ONE,
                                Measurement.Bound.EXACT,
                                Source.DRIVE,
                                OptionalDouble.empty(),
                                0,
                                List.of(),
                                List.of(),
                                Optional.empty()),
                        nominal(4660, Unit.ONE, 0.5, "4660"),
                        Verdict.PASS,
                        OptionalDouble.of(0.5),
                        ""),
                "",
                List.of());
        end(key, Verdict.PASS, "");
    }

    private void position(String axis, Unit unit, double value, Verdict verdict, String reason, double nominal) {
        position(begin("POS-01", axis), unit, value, verdict, reason, nominal);
    }

    private void position(TrialKey key, Unit unit, double value, Verdict verdict, String reason, double nominal) {
        step(key, "enable");
        step(key, "moveBy " + nominal + " " + unit.symbol() + " at 300 rpm");
        events.add(new RunEvent.TraceTaken(
                tick(), key, "move-1", "moveBy " + nominal + " " + unit.symbol(), move(unit, 0.25, value, 0.4, 0.3)));
        double tolerance = nominal * 0.001;
        check(
                key,
                "Position change",
                new Judgement(
                        measured("position change", value, unit, 8e-6 * nominal),
                        nominal(nominal, unit, tolerance, nominal + " " + unit.symbol() + " ± " + tolerance),
                        verdict,
                        OptionalDouble.of(tolerance - Math.abs(value - nominal)),
                        reason),
                "move-1",
                List.of(new Mark("arrived", 0.405), new Mark("at rest", 0.44)));
        check(
                key,
                "Settling time",
                new Judgement(
                        measured("settling time", 38.2, Unit.MILLISECOND, 2.4),
                        new Criterion.AtMost(new Quantity(80, Unit.MILLISECOND)),
                        Verdict.PASS,
                        OptionalDouble.of(41.8),
                        ""),
                "move-1",
                List.of(new Mark("settled", 0.438)));
        end(key, verdict, reason.isEmpty() ? "" : "Position change: " + reason);
    }

    private void speed() {
        TrialKey key = begin("SPD-01", "T");
        step(key, "holdSpeed 600 rpm for 5 s");
        events.add(new RunEvent.TraceTaken(
                tick(), key, "hold-1", "holdSpeed 600 rpm", move(Unit.REVOLUTION, 0, -50, 5, 0.5)));
        check(
                key,
                "Mean speed",
                new Judgement(
                        measured("mean speed", 599.98, Unit.REVOLUTION_PER_MINUTE, 0.02),
                        nominal(600, Unit.REVOLUTION_PER_MINUTE, 3, "600 r/min ± 0.5 %"),
                        Verdict.PASS,
                        OptionalDouble.of(2.98),
                        ""),
                "hold-1",
                List.of(new Mark("steady from", 0.4), new Mark("steady to", 4.6)));
        end(key, Verdict.PASS, "");
    }

    private void settling() {
        TrialKey key = begin("SET-01", "X");
        step(key, "moveTo 0 mm");
        Measurement m = measured("settling time", 4, Unit.MILLISECOND, 4);
        check(
                key,
                "Settling time",
                new Judgement(
                        new Measurement(
                                m.name(),
                                "From the command until the position stays inside the window.",
                                4,
                                m.unit(),
                                Measurement.Bound.AT_MOST,
                                m.source(),
                                m.samplePeriod(),
                                4,
                                m.budget(),
                                List.of(),
                                Optional.empty()),
                        new Criterion.AtMost(new Quantity(3, Unit.MILLISECOND)),
                        Verdict.INCONCLUSIVE,
                        OptionalDouble.of(-1),
                        "samples every 4 ms cannot resolve a limit of 3 ms; a sample period of 0.3 ms would"),
                "",
                List.of());
        check(
                key,
                "Overshoot",
                new Judgement(
                        new Measurement(
                                "overshoot",
                                "Largest excursion beyond the target.",
                                0,
                                Unit.MILLIMETRE,
                                Measurement.Bound.EXACT,
                                Source.DRIVE,
                                OptionalDouble.of(0.004),
                                0.001,
                                List.of(),
                                List.of(),
                                Optional.of("the record ended before the target was reached")),
                        new Criterion.AtMost(new Quantity(0.05, Unit.MILLIMETRE)),
                        Verdict.INCONCLUSIVE,
                        OptionalDouble.empty(),
                        "no value: the record ended before the target was reached"),
                "",
                List.of());
        end(key, Verdict.INCONCLUSIVE, "Settling time cannot be resolved");
    }

    private void limits() {
        TrialKey key = begin("LIM-01", "X");
        events.add(new RunEvent.TrialBroken(
                tick(), key, Verdict.BLOCKED, "hold point not released: area not clear " + HOSTILE, place(20)));
        end(key, Verdict.BLOCKED, "hold point not released");
    }

    private void retriedPosition() {
        TrialKey first = begin("POS-01", "Z");
        step(first, "moveBy 1 rev");
        events.add(new RunEvent.TrialBroken(
                tick(), first, Verdict.FAIL, "following error tripped the envelope at 0.02 rev", place(6)));
        end(first, Verdict.FAIL, "following error tripped the envelope");
        TrialKey second = new TrialKey(SCRIPT, "POS-01", "Z", 2);
        events.add(new RunEvent.TrialStarted(tick(), second));
        events.add(new RunEvent.TraceTaken(
                tick(), second, "move-1", "moveBy -1 rev", move(Unit.REVOLUTION, 3, -1, 0.4, 0.3)));
        check(
                second,
                "Position change",
                new Judgement(
                        measured("position change", -65536, Unit.COUNT, 0.3),
                        nominal(-65536, Unit.COUNT, 66, "−65536 count ± 66 count"),
                        Verdict.PASS,
                        OptionalDouble.of(66),
                        ""),
                "move-1",
                List.of());
        events.add(new RunEvent.AxisStopped(tick(), "Z", "end of trial", true, true, 0.054, "stands at -0.012 rev"));
        end(second, Verdict.PASS, "");
    }

    private void stopped() {
        TrialKey key = begin("BRK-01", "Z");
        step(key, "disable and watch for 2 s");
        events.add(new RunEvent.AxisStopped(
                tick(), "Z", "envelope: drift above 0.01 rev", true, true, 0.412, "standstill seen in 5 samples"));
        end(key, Verdict.PASS, "");
    }

    private void broken(String trial, Verdict verdict, String message) {
        TrialKey key = begin(trial, "Z");
        events.add(new RunEvent.TrialBroken(tick(), key, verdict, message, place(31)));
        end(key, verdict, message);
    }
}
