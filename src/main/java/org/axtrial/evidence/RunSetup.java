package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_ABSENT;
import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/**
 * What was known when a run began, as the record keeps it.
 *
 * @param mode how the axes were worked; empty when the journal was cut off before its first line was complete
 * @param tool name and version of the program
 * @param platform Java and operating system versions
 * @param operator who ran it; empty string if not given
 * @param job job, customer, site and contract, in the order of the site file
 * @param machine the machine, in the order of the site file
 * @param decisionRule the rule that verdicts follow
 * @param axes the axes under test
 * @param instruments what was measured with beside the drives; a record without any, or of an earlier version, lacks the
 *     member
 * @param procedure SHA-256 of the procedure that was agreed before; left out where none was given
 * @param selection which trials of the scripts were asked for; left out where all were
 * @param earlier the run whose trials were tried again; left out if this was no re-test
 * @param paper name of the paper that {@code report.pdf} was asked for; left out for A4
 */
public record RunSetup(
        Optional<RunInfo.Mode> mode,
        String tool,
        String platform,
        String operator,
        List<Fact> job,
        List<Fact> machine,
        String decisionRule,
        List<AxisUnderTest> axes,
        @JsonInclude(NON_EMPTY) List<RunInfo.InstrumentInfo> instruments,
        @JsonInclude(NON_ABSENT) Optional<String> procedure,
        @JsonInclude(NON_ABSENT) Optional<RunSelection> selection,
        @JsonInclude(NON_ABSENT) Optional<EarlierRun> earlier,
        @JsonInclude(NON_ABSENT) Optional<String> paper) {

    /** A run without an agreed procedure. */
    public RunSetup(
            Optional<RunInfo.Mode> mode,
            String tool,
            String platform,
            String operator,
            List<Fact> job,
            List<Fact> machine,
            String decisionRule,
            List<AxisUnderTest> axes,
            List<RunInfo.InstrumentInfo> instruments) {
        this(
                mode,
                tool,
                platform,
                operator,
                job,
                machine,
                decisionRule,
                axes,
                instruments,
                Optional.empty(),
                Optional.empty(),
                Optional.empty(),
                Optional.empty());
    }

    /** A name with its value. A list of these keeps its order in JSON, where the members of an object have none. */
    public record Fact(String name, String value) {

        static List<Fact> list(Map<String, String> map) {
            return map.entrySet().stream()
                    .map(entry -> new Fact(entry.getKey(), entry.getValue()))
                    .toList();
        }

        static Map<String, String> map(List<Fact> facts) {
            Map<String, String> map = new LinkedHashMap<>();
            facts.forEach(fact -> map.put(fact.name(), fact.value()));
            return map;
        }
    }

    /**
     * One axis.
     *
     * @param name as in the site file
     * @param description what it moves
     * @param driveType from the drive description
     * @param peer host, port, unit
     * @param simulated whether a simulated drive answered
     * @param scale how its counts become angle or length
     * @param facts scale, envelope, sample period and the like, printed
     */
    public record AxisUnderTest(
            String name,
            String description,
            String driveType,
            String peer,
            boolean simulated,
            ScaleRecord scale,
            List<Fact> facts) {

        public AxisUnderTest {
            facts = List.copyOf(facts);
        }
    }

    public RunSetup {
        job = List.copyOf(job);
        machine = List.copyOf(machine);
        axes = List.copyOf(axes);
        instruments = RunRecord.listOrNone(instruments);
    }

    static RunSetup of(RunInfo info) {
        return new RunSetup(
                Optional.of(info.mode()),
                info.tool(),
                info.platform(),
                info.operator(),
                Fact.list(info.job()),
                Fact.list(info.machine()),
                info.decisionRule(),
                info.axes().stream()
                        .map(axis -> new AxisUnderTest(
                                axis.name(),
                                axis.description(),
                                axis.driveType(),
                                axis.peer(),
                                axis.simulated(),
                                ScaleRecord.of(axis.scale()),
                                Fact.list(axis.facts())))
                        .toList(),
                info.instruments(),
                info.procedure(),
                info.selection(),
                info.earlier(),
                info.paper());
    }

    /** For a journal without a complete first line. */
    static RunSetup unknown() {
        return new RunSetup(Optional.empty(), "", "", "", List.of(), List.of(), "", List.of(), List.of());
    }
}
