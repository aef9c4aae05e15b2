package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_ABSENT;
import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.measure.Instrument;
import org.axtrial.quantity.AxisScale;

/**
 * What is known when a run begins: all that a reader needs beside the results.
 *
 * @param runId unique and sortable, also the folder name
 * @param mode how the axes were worked
 * @param tool name and version of this program
 * @param platform Java and operating system versions
 * @param operator who runs it; empty string if not given
 * @param job what the site file says of job, customer, site and contract, in file order
 * @param machine what it says of the machine, in file order
 * @param decisionRule the rule that verdicts follow, as a sentence
 * @param axes the axes under test
 * @param instruments what is measured with beside the drives
 * @param plan every trial that ought to run, in order
 * @param procedure SHA-256 of the procedure that was agreed before; empty if none was given
 * @param selection which trials of the scripts were asked for; empty for all
 * @param earlier the run whose trials are tried again; empty if this is no re-test
 * @param paper name of the paper that {@code report.pdf} was asked for; empty for A4
 */
public record RunInfo(
        String runId,
        Mode mode,
        String tool,
        String platform,
        String operator,
        Map<String, String> job,
        Map<String, String> machine,
        String decisionRule,
        List<AxisInfo> axes,
        List<InstrumentInfo> instruments,
        List<PlannedTrial> plan,
        Optional<String> procedure,
        Optional<RunSelection> selection,
        Optional<EarlierRun> earlier,
        @JsonInclude(NON_ABSENT) Optional<String> paper) {

    /** How the axes were worked. Anything but {@code REAL} is marked SIMULATED everywhere. */
    public enum Mode {
        REAL,
        /** Simulated drives, real Modbus TCP and real time. */
        SIMULATED,
        /** Simulated drives in process, virtual time. */
        REHEARSAL
    }

    /**
     * One axis as the report shows it.
     *
     * @param name as in the site file
     * @param description what it moves
     * @param driveType from the drive description
     * @param peer host, port, unit
     * @param simulated whether a simulated drive answered
     * @param scale how its counts become angle or length
     * @param facts scale, envelope, sample period and the like, printed, in order
     */
    public record AxisInfo(
            String name,
            String description,
            String driveType,
            String peer,
            boolean simulated,
            AxisScale scale,
            Map<String, String> facts) {}

    /** A run without an agreed procedure. */
    public RunInfo(
            String runId,
            Mode mode,
            String tool,
            String platform,
            String operator,
            Map<String, String> job,
            Map<String, String> machine,
            String decisionRule,
            List<AxisInfo> axes,
            List<InstrumentInfo> instruments,
            List<PlannedTrial> plan) {
        this(
                runId,
                mode,
                tool,
                platform,
                operator,
                job,
                machine,
                decisionRule,
                axes,
                instruments,
                plan,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
    }

    /**
     * The same run as it was asked for.
     *
     * @param agreed SHA-256 of the procedure that was agreed before
     * @param chosen the trials that were chosen
     * @param before the run whose trials are tried again
     * @param sheet name of the paper for its report, if it is not A4
     */
    public RunInfo asked(
            Optional<String> agreed,
            Optional<RunSelection> chosen,
            Optional<EarlierRun> before,
            Optional<String> sheet) {
        return new RunInfo(
                runId,
                mode,
                tool,
                platform,
                operator,
                job,
                machine,
                decisionRule,
                axes,
                instruments,
                plan,
                agreed,
                chosen,
                before,
                sheet);
    }

    /** A run without instruments. */
    public RunInfo(
            String runId,
            Mode mode,
            String tool,
            String platform,
            String operator,
            Map<String, String> job,
            Map<String, String> machine,
            String decisionRule,
            List<AxisInfo> axes,
            List<PlannedTrial> plan) {
        this(runId, mode, tool, platform, operator, job, machine, decisionRule, axes, List.of(), plan);
    }

    /**
     * One instrument as the report shows it.
     *
     * @param instrument as the site file tells it
     * @param calibration whether its calibration counted when the run began
     */
    public record InstrumentInfo(Instrument instrument, Instrument.Calibration calibration) {}

    /**
     * One line of the plan.
     *
     * @param script file name under the scripts folder
     * @param trial id
     * @param axis name
     * @param title what it proves
     * @param clause requirement it answers; empty string if none
     * @param with names of the axes that move at once with the one on trial; usually none
     */
    public record PlannedTrial(
            String script,
            String trial,
            String axis,
            String title,
            String clause,
            @JsonInclude(NON_EMPTY) List<String> with) {

        public PlannedTrial {
            with = RunRecord.listOrNone(with);
        }

        /** A trial of one axis. */
        public PlannedTrial(String script, String trial, String axis, String title, String clause) {
            this(script, trial, axis, title, clause, List.of());
        }

        /** Whether it works an axis: the one on trial, or one that moves at once with it. */
        boolean works(String name) {
            return axis.equals(name) || with.contains(name);
        }
    }
}
