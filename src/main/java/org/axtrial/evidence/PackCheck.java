package org.axtrial.evidence;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.LinkOption;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * What a pack alone says about itself: its files against the manifest, the chain of the journal, the record against the
 * journal, and the files that the journal knows against their hashes. Nothing is written.
 *
 * @param record what the journal comes to; empty if the journal is not proven
 * @param files number of files in the pack that the manifest ought to know
 * @param lines number of journal lines that are proven
 * @param recorded number of traces, snapshots and files as used whose hash is in the journal
 * @param problems why the pack does not verify; empty if it does
 * @param remarks what a reader ought to know, although it is no fault
 */
public record PackCheck(
        Optional<RunRecord> record,
        int files,
        int lines,
        int recorded,
        List<PackProblem> problems,
        List<PackProblem> remarks) {

    /** Files that every pack may have and the journal does not name. */
    private static final Set<String> OWN =
            Set.of(Journal.FILE, RunRecord.FILE, JunitXml.FILE, Manifest.FILE, "report.html", "report.pdf");

    public PackCheck {
        problems = List.copyOf(problems);
        remarks = List.copyOf(remarks);
    }

    /**
     * Checks a pack.
     *
     * @param tool this program with its version, as {@link RunSetup} has it: what another version made may have had
     *     another form
     * @throws EvidenceLostException if the folder holds no pack at all
     */
    public static PackCheck of(Path folder, String tool) {
        if (!Files.isDirectory(folder) || !Files.exists(folder.resolve(Journal.FILE), LinkOption.NOFOLLOW_LINKS)) {
            throw new EvidenceLostException(folder + " holds no " + Journal.FILE + ", so it is not a pack", null);
        }
        return new Checker(folder, tool).check();
    }

    /** Whether something is wrong with one of these files. */
    public boolean concerns(String... names) {
        return problems.stream().anyMatch(problem -> List.of(names).contains(problem.file()));
    }

    /** One check at work. */
    private static final class Checker {

        private final Path folder;
        private final String tool;
        private final List<PackProblem> problems = new ArrayList<>();
        private final List<PackProblem> remarks = new ArrayList<>();
        private final Set<String> known = new LinkedHashSet<>();
        private int files;
        private int lines;

        Checker(Path folder, String tool) {
            this.folder = folder;
            this.tool = tool;
        }

        PackCheck check() {
            manifest();
            Optional<RunRecord> record = journal();
            record.ifPresent(this::filesOfTheJournal);
            record.ifPresent(this::record);
            record.ifPresent(this::junit);
            record.ifPresent(this::strangers);
            return new PackCheck(record, files, lines, known.size(), problems, remarks);
        }

        private void problem(String file, String detail) {
            problems.add(new PackProblem(file, detail));
        }

        private void manifest() {
            try {
                files = (int) PackFolder.list(folder).keySet().stream()
                        .filter(name -> !name.equals(Manifest.FILE) && !Manifest.madeLater(name))
                        .count();
                if (!Files.exists(folder.resolve(Manifest.FILE), LinkOption.NOFOLLOW_LINKS)) {
                    problem(
                            Manifest.FILE,
                            "is missing. If the run was cut off, finish its pack with: axtrial report " + folder);
                    return;
                }
                Manifest.verify(folder).forEach(d -> problem(d.file(), d.kind() + ", " + d.detail()));
            } catch (IOException | EvidenceLostException e) {
                problem(Manifest.FILE, String.valueOf(e.getMessage()));
            }
        }

        private Optional<RunRecord> journal() {
            Path file = folder.resolve(Journal.FILE);
            try {
                Journal journal = Journal.read(PackFolder.plain(folder, Journal.FILE, 1L << 30));
                lines = journal.lines().size();
                if (!journal.finished()) {
                    problem(
                            Journal.FILE,
                            "does not tell the end of the run, which was cut off; finish its pack with: axtrial report "
                                    + folder);
                }
                return Optional.of(RunRecordFold.fold(runIdWithoutJournal(), journal.lines()));
            } catch (EvidenceLostException e) {
                problem(Journal.FILE, String.valueOf(e.getMessage()).replace(file + ": ", ""));
            } catch (IOException e) {
                problem(Journal.FILE, String.valueOf(e.getMessage()));
            } catch (RuntimeException e) {
                // Whoever writes a chain of his own can put anything into its lines; no run ends up here.
                problem(Journal.FILE, "has a chain that holds and content that makes no run: " + e);
            }
            return Optional.empty();
        }

        /** Stands for the run id where the journal was cut off in its first line; the folder may have been renamed. */
        private String runIdWithoutJournal() {
            try {
                return RunRecord.read(folder).stamps().runId();
            } catch (EvidenceLostException e) {
                return String.valueOf(folder.toAbsolutePath().normalize().getFileName());
            }
        }

        private void filesOfTheJournal(RunRecord record) {
            record.files().forEach(file -> proven(file.name(), file.sha256()));
            record.snapshots().forEach(snapshot -> proven(snapshot.file(), snapshot.sha256()));
            record.trials().stream()
                    .flatMap(trial -> trial.attempts().stream())
                    .flatMap(attempt -> attempt.traces().stream())
                    .forEach(trace -> proven(trace.file(), trace.sha256()));
        }

        private void proven(String name, String sha256) {
            known.add(name);
            try {
                String found = Sha256.of(PackFolder.plain(folder, name, Long.MAX_VALUE));
                if (!found.equals(sha256)) {
                    problem(name, "is not what the journal recorded: SHA-256 " + found + ", recorded was " + sha256);
                }
            } catch (IOException e) {
                problem(name, "is recorded in the journal and cannot be read: " + e.getMessage());
            }
        }

        private void record(RunRecord record) {
            byte[] found = bytes(RunRecord.FILE);
            if (found != null) {
                ValueDifference.between(record.json(), found)
                        .forEach(difference -> problem(RunRecord.FILE, difference.toString()));
            }
        }

        private void junit(RunRecord record) {
            byte[] found = bytes(JunitXml.FILE);
            if (found != null) {
                remade(JunitXml.FILE, record, JunitXml.bytes(record), found).ifPresent(problems::add);
            }
        }

        private Optional<PackProblem> remade(String file, RunRecord record, byte[] expected, byte[] found) {
            Optional<PackProblem> difference = PackProblem.remade(file, expected, found);
            if (difference.isPresent() && !tool.equals(record.setup().tool())) {
                remarks.add(PackProblem.otherVersion(file, record.setup().tool()));
                return Optional.empty();
            }
            return difference;
        }

        private byte @Nullable [] bytes(String file) {
            try {
                return PackFolder.read(folder, file);
            } catch (IOException e) {
                problem(file, "cannot be read: " + e.getMessage());
                return null;
            }
        }

        /** What nobody put there during the run proves nothing, whatever the manifest says. */
        private void strangers(RunRecord record) {
            try {
                for (String name : PackFolder.list(folder).keySet()) {
                    if (!known.contains(name) && !OWN.contains(name) && !Manifest.madeLater(name)) {
                        boolean cutOff = record.ended() == RunRecord.Ended.STOPPED && name.startsWith("traces/");
                        remarks.add(new PackProblem(
                                name,
                                cutOff
                                        ? "stands in no line of the journal: the run ended before it was recorded"
                                        : "stands in no line of the journal, so it is no evidence of this run"));
                    }
                }
            } catch (IOException e) {
                problem(".", String.valueOf(e.getMessage()));
            }
        }
    }
}
