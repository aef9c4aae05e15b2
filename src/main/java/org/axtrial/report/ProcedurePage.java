package org.axtrial.report;

import io.pebbletemplates.pebble.error.PebbleException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.LimitUse;
import org.axtrial.evidence.Procedure;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunSetup.Fact;
import org.axtrial.quantity.Quantity;
import org.axtrial.quantity.Unit;

/** The procedure in print: one self-contained HTML file, and the same as PDF. */
public final class ProcedurePage {

    private static final int DIGITS = 4;

    record Page(
            String style,
            String title,
            String made,
            String hash,
            String rule,
            String duration,
            List<Fact> job,
            List<Fact> machine,
            List<Axis> axes,
            List<View.InstrumentLine> instruments,
            List<Trial> trials,
            List<RunRecord.PackedFile> files) {}

    record Axis(String name, String description, String drive, List<Fact> facts) {}

    record Trial(
            String id,
            String axis,
            String title,
            String clause,
            String script,
            String purpose,
            String duration,
            String space,
            String window,
            List<Step> steps,
            List<Motion> motions,
            List<Check> checks,
            String reason,
            List<String> gaps) {}

    record Step(String point, String text, String request) {}

    record Motion(String title, String distance, String speed, String time, String space) {}

    record Check(String name, String measured, String criterion, String limits) {}

    private ProcedurePage() {}

    /**
     * Writes {@code procedure.html} and {@code procedure.pdf} into a folder.
     *
     * @param record of the rehearsal, for the state of calibration on the day of printing
     * @param printed when it is printed, UTC
     * @throws EvidenceLostException if a file cannot be written
     */
    public static void write(
            Path folder, Procedure procedure, RunRecord record, Instant printed, PdfPrinter.Paper paper) {
        try {
            Files.createDirectories(folder);
            Page page = page(procedure, record, printed);
            Files.writeString(folder.resolve("procedure.html"), Templates.fill("procedure", Map.of("p", page)));
            Files.write(
                    folder.resolve("procedure.pdf"),
                    PdfPrinter.print(
                            Templates.fill("print-procedure", Map.of("p", page)),
                            new PdfPrinter.Sheet(
                                    "Test procedure: " + page.title(),
                                    "Test procedure of servo axes, to be agreed before the test, procedure.json "
                                            + page.hash(),
                                    printed,
                                    paper,
                                    "Test procedure",
                                    "REHEARSED",
                                    page.title(),
                                    "procedure " + page.hash().substring(0, 16) + "…")));
        } catch (IOException | PebbleException e) {
            throw new EvidenceLostException("the procedure cannot be written to " + folder + ": " + e.getMessage(), e);
        }
    }

    private static Page page(Procedure procedure, RunRecord record, Instant printed) throws IOException {
        return new Page(
                Templates.resource("report.css"),
                procedure.job().stream()
                        .filter(fact -> fact.name().equals("title"))
                        .map(Fact::value)
                        .findFirst()
                        .orElse("Acceptance trials"),
                Words.dateTime(printed),
                procedure.sha256(),
                procedure.decisionRule(),
                duration(procedure.seconds()),
                labelled(procedure.job()),
                labelled(procedure.machine()),
                procedure.axes().stream()
                        .map(axis -> new Axis(axis.name(), axis.description(), axis.driveType(), axis.facts()))
                        .toList(),
                Instruments.lines(record),
                procedure.trials().stream()
                        .map(trial -> trial(procedure, trial))
                        .toList(),
                procedure.files());
    }

    private static List<Fact> labelled(List<Fact> facts) {
        return facts.stream()
                .map(fact -> new Fact(Words.label(fact.name()), fact.value()))
                .toList();
    }

    /** The positions in the unit of the travel window, where that is of the same kind, so that both can be compared. */
    private static String against(String window, Optional<Procedure.Space> space) {
        try {
            Unit unit = Quantity.parse(window.split(" … ", 2)[0].replace('\u2212', '-'))
                    .unit();
            return space(space.map(s -> new Procedure.Space(
                    new Quantity(s.lowest(), s.unit()).in(unit), new Quantity(s.highest(), s.unit()).in(unit), unit)));
        } catch (IllegalArgumentException otherKind) {
            return space(space);
        }
    }

    private static Trial trial(Procedure procedure, Procedure.TrialPlan trial) {
        String window = procedure.axes().stream()
                .filter(axis -> axis.name().equals(trial.axis()))
                .map(Procedure.AxisPlan::window)
                .findFirst()
                .orElse("");
        return new Trial(
                trial.trial(),
                trial.axis(),
                trial.title(),
                trial.clause(),
                trial.script(),
                trial.purpose(),
                duration(trial.seconds()),
                against(window, trial.space()),
                window,
                trial.steps().stream().map(ProcedurePage::step).toList(),
                trial.motions().stream().map(ProcedurePage::motion).toList(),
                trial.checks().stream()
                        .map(check -> new Check(
                                Words.minus(check.name()),
                                Words.minus(check.measured()),
                                Words.minus(check.criterion()),
                                limits(check.limits())))
                        .toList(),
                trial.reason(),
                trial.gaps().stream().map(Words::minus).toList());
    }

    private static Step step(Procedure.StepPlan step) {
        String point = step.person()
                .map(kind -> switch (kind) {
                    case HOLD -> "HOLD POINT";
                    case WITNESS -> "WITNESS POINT";
                    case OPERATE -> "WORK BY HAND";
                })
                .orElse("");
        // What the rehearsal answered for a person is no part of what is agreed.
        return new Step(point, point.isEmpty() ? Words.minus(step.text()) : "", Words.minus(step.request()));
    }

    private static Motion motion(Procedure.MotionPlan motion) {
        return new Motion(
                Words.minus(motion.title()),
                value(motion.distance(), motion.distanceUnit()),
                value(motion.peakSpeed(), motion.speedUnit()),
                Words.seconds(motion.seconds()),
                space(motion.space()));
    }

    private static String value(OptionalDouble value, Optional<Unit> unit) {
        return value.isPresent() && unit.isPresent() ? printed(value.getAsDouble(), unit.get()) : "–";
    }

    private static String space(Optional<Procedure.Space> space) {
        return space.map(s -> printed(s.lowest(), s.unit()) + " … " + printed(s.highest(), s.unit()))
                .orElse("–");
    }

    private static String printed(double value, Unit unit) {
        return Words.minus(new Quantity(value, unit).printed(DIGITS));
    }

    private static String limits(List<LimitUse> limits) {
        return limits.isEmpty()
                ? "a number in the script"
                : String.join(
                        "; ",
                        limits.stream()
                                .map(limit -> limit.name() + " " + Words.minus(limit.value()) + ": "
                                        + limit.from().printed()
                                        + limit.scriptDefault()
                                                .map(was -> ", in place of " + Words.minus(was) + " in the script")
                                                .orElse(""))
                                .toList());
    }

    private static String duration(double seconds) {
        return Words.between(Instant.EPOCH, Instant.EPOCH.plusNanos(Math.round(seconds * 1e9)));
    }
}
