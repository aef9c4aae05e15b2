package org.axtrial.evidence;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_EMPTY;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import org.axtrial.measure.Verdict;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;

/**
 * What a run came to: a pure function of its journal. Trials stand in the order of the plan, not in the order in which
 * they ended, so that axes worked in parallel give the same record. The JSON Schema is on the class path as
 * {@code org/axtrial/evidence/record.schema.json}.
 *
 * @param format {@link #FORMAT}
 * @param stamps what differs between two runs that came to the same
 * @param ended whether it ran to its end
 * @param stopReason why it ended early; empty string if it did not
 * @param verdict the worst of all trials; NOT RUN if there are none
 * @param totals number of trials for each verdict, all verdicts present, worst first
 * @param setup what was known when it began
 * @param files scripts, site file and drive descriptions as used
 * @param trials every planned trial, then any that was not planned
 * @param stops safe stops outside any trial, by axis
 * @param notes what belongs to no trial, in order of time
 * @param links looks at the links of axes, in order of time; a record of an earlier version has none
 * @param snapshots parameters read from the drives, in order of time; a record of an earlier version has none
 * @param punch punch items that scripts raised, in the order of the plan; left out where there are none
 */
public record RunRecord(
        String format,
        Stamps stamps,
        Ended ended,
        String stopReason,
        Verdict verdict,
        List<Total> totals,
        RunSetup setup,
        List<PackedFile> files,
        List<TrialRecord> trials,
        List<TrialRecord.Stop> stops,
        List<Note> notes,
        List<LinkRecord> links,
        List<SnapshotRecord> snapshots,
        @JsonInclude(NON_EMPTY) List<PunchNote> punch) {

    /** The only format that this version writes and reads. */
    public static final String FORMAT = "axtrial-record-1";

    static final String FILE = "record.json";

    /** Whether a run ran to its end. */
    public enum Ended {
        COMPLETED,
        STOPPED
    }

    /**
     * What differs between two runs that came to the same.
     *
     * @param runId folder name
     * @param startedAt when the run began
     * @param finishedAt when it ended; for a killed run the last instant that its journal knows
     * @param journalHash hash of the last line of the journal, and by the chain of all before it
     */
    public record Stamps(String runId, Instant startedAt, Instant finishedAt, String journalHash) {}

    /** A file that was copied into the pack when the run began. */
    public record PackedFile(String name, String sha256, long size) {}

    /** Something worth keeping that belongs to no trial. */
    public record Note(Instant at, String text) {}

    /** How many trials came to a verdict. */
    public record Total(Verdict verdict, int trials) {}

    public RunRecord {
        if (!format.equals(FORMAT)) {
            throw new IllegalArgumentException(
                    "the record has the format \"" + format + "\"; this version reads \"" + FORMAT + "\"");
        }
        totals = List.copyOf(totals);
        files = List.copyOf(files);
        trials = List.copyOf(trials);
        stops = List.copyOf(stops);
        notes = List.copyOf(notes);
        links = listOrNone(links);
        snapshots = listOrNone(snapshots);
        punch = listOrNone(punch);
    }

    /** A record of an earlier version lacks the member, and the reader then hands over nothing. */
    static <T> List<T> listOrNone(@Nullable List<T> list) {
        return list == null ? List.of() : List.copyOf(list);
    }

    /** How many trials came to that verdict. */
    public int count(Verdict of) {
        return totals.stream()
                .filter(total -> total.verdict() == of)
                .mapToInt(Total::trials)
                .sum();
    }

    /** Whether every page must say that this was not the real thing. An unknown mode counts as not real. */
    public boolean simulated() {
        return setup.mode().map(mode -> mode != RunInfo.Mode.REAL).orElse(true)
                || setup.axes().stream().anyMatch(RunSetup.AxisUnderTest::simulated);
    }

    /**
     * The exit code of a command that made this record: 4 if the run was stopped, whatever was found until then; else
     * 1 if anything failed or broke, 0 if all was proven, 3 if nothing failed but not all was proven.
     */
    public int exitCode() {
        if (ended == Ended.STOPPED) {
            return 4;
        }
        return switch (verdict) {
            case ERROR, FAIL -> 1;
            case PASS -> 0;
            case BLOCKED, INCONCLUSIVE, NOT_RUN, NOT_APPLICABLE -> 3;
        };
    }

    /** The record without run id, times and hashes: equal for two rehearsals of the same scripts. */
    public RunRecord withoutStamps() {
        return new RunRecord(
                format,
                new Stamps("", Instant.EPOCH, Instant.EPOCH, ""),
                ended,
                stopReason,
                verdict,
                totals,
                setup,
                files.stream()
                        .map(file -> new PackedFile(file.name(), "", file.size()))
                        .toList(),
                trials.stream().map(TrialRecord::withoutStamps).toList(),
                stops.stream().map(TrialRecord.Stop::withoutStamps).toList(),
                notes.stream().map(note -> new Note(Instant.EPOCH, note.text())).toList(),
                links,
                snapshots,
                punch.stream().map(PunchNote::withoutStamps).toList());
    }

    /** The axis of a trial, if the record knows it. */
    public Optional<RunSetup.AxisUnderTest> axis(String name) {
        return setup.axes().stream().filter(axis -> axis.name().equals(name)).findFirst();
    }

    /**
     * Reads {@code record.json} of a pack.
     *
     * @throws EvidenceLostException if it is missing or not a record
     */
    public static RunRecord read(Path folder) {
        Path file = folder.resolve(FILE);
        try {
            return Json.MAPPER.readValue(Files.readAllBytes(file), RunRecord.class);
        } catch (NoSuchFileException e) {
            // Its own message is the path again, which says neither what is wrong nor what to do.
            throw new EvidenceLostException(
                    file + " does not exist. Name the folder of a run; if the run was cut off, rebuild the record from"
                            + " journal.jsonl",
                    e);
        } catch (IOException | JacksonException | IllegalArgumentException e) {
            throw new EvidenceLostException(
                    file + " cannot be read as a record: " + e.getMessage()
                            + ". If the run was cut off, rebuild it from journal.jsonl",
                    e);
        }
    }

    byte[] json() {
        return Json.MAPPER.writeValueAsBytes(Json.wellFormed(Json.MAPPER.valueToTree(this)));
    }
}
