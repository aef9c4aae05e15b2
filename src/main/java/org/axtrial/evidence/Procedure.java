package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.measure.Instrument;
import org.axtrial.quantity.Unit;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;

/**
 * What is to be agreed before the day: a pure function of the record and traces of a rehearsal, without any date. Its
 * JSON is canonical (RFC 8785); the schema is on the class path as {@code org/axtrial/evidence/procedure.schema.json}.
 *
 * @param format {@link #FORMAT}
 * @param job as in the site file
 * @param machine as in the site file
 * @param decisionRule the rule that verdicts will follow
 * @param axes the axes to be tested
 * @param instruments what is measured with beside the drives
 * @param files scripts, site file and drive descriptions that it was made from
 * @param seconds expected duration of all trials one after the other, in virtual time
 * @param trials in order
 */
public record Procedure(
        String format,
        List<RunSetup.Fact> job,
        List<RunSetup.Fact> machine,
        String decisionRule,
        List<AxisPlan> axes,
        List<Instrument> instruments,
        List<RunRecord.PackedFile> files,
        double seconds,
        List<TrialPlan> trials) {

    /** The only format that this version writes and reads. */
    public static final String FORMAT = "axtrial-procedure-1";

    /** Its name in the folder of a procedure. */
    public static final String FILE = "procedure.json";

    /** One axis with its envelope and scale, printed. */
    public record AxisPlan(String name, String description, String driveType, List<RunSetup.Fact> facts) {

        public AxisPlan {
            facts = List.copyOf(facts);
        }

        /** The travel window as printed; empty string if the facts have none. */
        public String window() {
            return facts.stream()
                    .filter(fact -> fact.name().equals("Travel window"))
                    .map(RunSetup.Fact::value)
                    .findFirst()
                    .orElse("");
        }
    }

    /**
     * One trial on one axis.
     *
     * @param purpose comment at the head of its script; empty string if there is none
     * @param seconds expected duration in virtual time
     * @param space lowest and highest position reached; empty without a motion or a sampled position
     * @param reason why it was chosen; empty string, and left out, where all trials run
     * @param gaps what ended the rehearsal of this trial early: what follows it is not known here
     */
    public record TrialPlan(
            String script,
            String trial,
            String axis,
            String title,
            String clause,
            String purpose,
            double seconds,
            Optional<Space> space,
            List<StepPlan> steps,
            List<MotionPlan> motions,
            List<CheckPlan> checks,
            @JsonInclude(NON_EMPTY) String reason,
            @JsonInclude(NON_EMPTY) List<String> gaps) {

        public TrialPlan {
            steps = List.copyOf(steps);
            motions = List.copyOf(motions);
            checks = List.copyOf(checks);
            reason = textOrNone(reason);
            gaps = RunRecord.listOrNone(gaps);
        }
    }

    /** A procedure of an earlier version has no such member, so it is null here whatever its type says. */
    private static String textOrNone(@Nullable String text) {
        return text == null ? "" : text;
    }

    /** Lowest and highest position in a unit, counted as the travel window is. */
    public record Space(double lowest, double highest, Unit unit) {}

    /**
     * One step.
     *
     * @param person why a person is needed; empty if nobody is
     * @param request what the person is asked; empty string if nobody is
     */
    public record StepPlan(String text, Optional<PersonPart.Kind> person, String request) {}

    /**
     * One sampled motion or watch.
     *
     * @param distance last minus first position
     * @param peakSpeed largest speed without sign
     * @param seconds from the command to the last sample
     */
    public record MotionPlan(
            String title,
            OptionalDouble distance,
            Optional<Unit> distanceUnit,
            OptionalDouble peakSpeed,
            Optional<Unit> speedUnit,
            double seconds,
            Optional<Space> space) {}

    /**
     * One check.
     *
     * @param measured what is measured and how
     * @param criterion as printed
     * @param limits named limits that went into it, and who set them
     */
    public record CheckPlan(String name, String measured, String criterion, List<LimitUse> limits) {

        public CheckPlan {
            limits = List.copyOf(limits);
        }
    }

    public Procedure {
        if (!FORMAT.equals(format)) {
            throw new IllegalArgumentException(
                    "its format is \"" + format + "\"; this version reads \"" + FORMAT + "\"");
        }
        job = List.copyOf(job);
        machine = List.copyOf(machine);
        axes = List.copyOf(axes);
        instruments = List.copyOf(instruments);
        files = List.copyOf(files);
        trials = List.copyOf(trials);
    }

    /**
     * Reads a procedure.
     *
     * @throws IllegalArgumentException if the file is missing or is no procedure
     */
    public static Procedure read(Path file) {
        try {
            return Json.MAPPER.readValue(Files.readAllBytes(file), Procedure.class);
        } catch (IOException | JacksonException | IllegalArgumentException | NullPointerException e) {
            String why = e instanceof IOException ? "it cannot be read" : String.valueOf(e.getMessage());
            throw new IllegalArgumentException(
                    file + " is not a procedure: " + why.lines().findFirst().orElse("")
                            + ". Name the procedure.json that axtrial procedure wrote",
                    e);
        }
    }

    /** Canonical bytes. */
    public byte[] json() {
        return CanonicalJson.bytes(Json.tree(this));
    }

    /** SHA-256 of {@link #json()}. */
    public String sha256() {
        return Sha256.of(json());
    }

    /**
     * Writes {@code procedure.json} into a folder, in place of an older one.
     *
     * @throws EvidenceLostException if it cannot be written
     */
    public Path write(Path folder) {
        Path file = folder.resolve(FILE);
        try {
            Files.createDirectories(folder);
            Files.write(file, json());
            return file;
        } catch (IOException e) {
            throw new EvidenceLostException(file + " cannot be written: " + e, e);
        }
    }
}
