package org.axtrial.evidence;

import java.io.FileOutputStream;
import java.io.IOException;
import java.nio.channels.FileChannel;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.nio.file.StandardOpenOption;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.function.Consumer;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The folder of one run, written while it runs. Every event is on the disk, hashed and chained, before {@link #accept}
 * returns. Safe for use by several threads.
 */
public final class EvidencePack implements EvidenceSink, AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(EvidencePack.class);

    /** Why a run that was killed counts as stopped. */
    static final String KILLED = "the program ended without finishing the run";

    /**
     * A file to keep with the evidence.
     *
     * @param nameInPack relative path with slashes, for example {@code scripts/positioning.js}
     * @param path where it is now
     */
    public record SourceFile(String nameInPack, Path path) {

        public SourceFile {
            if (!nameInPack.matches("[^/\\\\:\\p{Cntrl}]+(/[^/\\\\:\\p{Cntrl}]+)*")
                    || List.of(nameInPack.split("/")).stream().anyMatch(part -> part.matches("\\.{1,2}"))) {
                throw new IllegalArgumentException(
                        "a name in the pack is a relative path with slashes and without \"..\", got \"" + nameInPack
                                + "\"");
            }
            if (nameInPack.matches(
                    "(?i)(journal\\.jsonl|record\\.json|manifest\\.json|snapshot.*\\.json|junit\\.xml|report\\..*|(traces|signatures|after)/.*)")) {
                throw new IllegalArgumentException(
                        "\"" + nameInPack + "\" is a name that the pack uses itself; give the file another one");
            }
        }
    }

    private final Path folder;
    private final String runId;
    private final List<RunRecord.PackedFile> files;
    private final JournalWriter journal;
    private final List<Consumer<RunEvent>> listeners = new CopyOnWriteArrayList<>();
    private boolean begun;
    private boolean over;

    private EvidencePack(Path folder, String runId, List<RunRecord.PackedFile> files, JournalWriter journal) {
        this.folder = folder;
        this.runId = runId;
        this.files = files;
        this.journal = journal;
    }

    /**
     * Makes the folder {@code reportsFolder/runId} with an empty journal and copies the sources into it.
     *
     * @param runId letters, digits, dot, underscore and hyphen, beginning with a letter or digit
     * @throws EvidenceLostException if the folder is already there or cannot be written, or a source cannot be read
     */
    public static EvidencePack create(Path reportsFolder, String runId, List<SourceFile> sources) {
        if (!runId.matches("[A-Za-z0-9][A-Za-z0-9._-]{0,99}")) {
            throw new IllegalArgumentException(
                    "a run id has up to 100 letters, digits, dots, underscores and hyphens, got \"" + runId + "\"");
        }
        Path folder = reportsFolder.resolve(runId);
        try {
            Files.createDirectories(reportsFolder);
            Files.createDirectory(folder);
            Files.createDirectory(folder.resolve(TraceFile.FOLDER));
            List<RunRecord.PackedFile> files = new ArrayList<>();
            for (SourceFile source : sources) {
                files.add(copy(source, folder));
            }
            JournalWriter journal = new JournalWriter(folder.resolve(Journal.FILE), 0, Sha256.NOTHING_BEFORE);
            syncFolder(folder);
            syncFolder(reportsFolder);
            return new EvidencePack(folder, runId, files, journal);
        } catch (IOException e) {
            throw new EvidenceLostException(
                    "the evidence folder " + folder + " cannot be made: " + e
                            + ". Nothing has moved; give a folder that can be written and a run id that is new.",
                    e);
        }
    }

    private static RunRecord.PackedFile copy(SourceFile source, Path folder) throws IOException {
        byte[] bytes = Files.readAllBytes(source.path());
        Path target = folder.resolve(source.nameInPack());
        Files.createDirectories(folder.resolve(source.nameInPack()).getParent());
        writeForced(target, bytes);
        return new RunRecord.PackedFile(source.nameInPack(), Sha256.of(bytes), bytes.length);
    }

    /** Calls the listener after each event that is safe on disk, on the thread that told it. */
    public void listen(Consumer<RunEvent> listener) {
        listeners.add(listener);
    }

    /** The folder of the run. */
    public Path folder() {
        return folder;
    }

    /**
     * {@inheritDoc}
     *
     * @throws IllegalStateException if the first event is not RunStarted, or if one comes after RunFinished
     */
    @Override
    public void accept(RunEvent event) {
        JournalEntry entry = entry(event);
        append(event, entry);
        for (Consumer<RunEvent> listener : listeners) {
            try {
                listener.accept(event);
            } catch (RuntimeException e) {
                // What is shown may fail; what is recorded stands, and the run goes on.
                LOG.warn("a listener failed on {}", event.getClass().getSimpleName(), e);
            }
        }
    }

    private synchronized void append(RunEvent event, JournalEntry entry) {
        boolean first = entry instanceof JournalEntry.RunStarted;
        if (over) {
            throw new IllegalStateException("the run " + runId + " is over; nothing can be added: " + event);
        }
        if (first == begun) {
            throw new IllegalStateException("a run begins with one RunStarted, got "
                    + event.getClass().getSimpleName() + (begun ? " again" : " first"));
        }
        journal.append(event.at(), entry);
        begun = true;
        over = entry instanceof JournalEntry.RunFinished;
    }

    private JournalEntry entry(RunEvent event) {
        if (event instanceof RunEvent.RunStarted e) {
            if (!e.info().runId().equals(runId)) {
                throw new IllegalArgumentException(
                        "this pack is for run " + runId + ", got " + e.info().runId());
            }
            return new JournalEntry.RunStarted(
                    runId, RunSetup.of(e.info()), e.info().plan(), files);
        } else if (event instanceof RunEvent.TrialStarted e) {
            return new JournalEntry.TrialStarted(e.key(), e.retestReason());
        } else if (event instanceof RunEvent.StepDone e) {
            return new JournalEntry.StepDone(e.key(), e.text(), e.place(), e.person());
        } else if (event instanceof RunEvent.TraceTaken e) {
            return new JournalEntry.TraceTaken(e.key(), keep(e));
        } else if (event instanceof RunEvent.PositioningMeasured e) {
            return new JournalEntry.PositioningMeasured(e.key(), PositioningRecord.of(e));
        } else if (event instanceof RunEvent.CheckJudged e) {
            return new JournalEntry.CheckJudged(e.key(), CheckRecord.of(e));
        } else if (event instanceof RunEvent.TrialBroken e) {
            return new JournalEntry.TrialBroken(e.key(), e.verdict(), e.message(), e.place());
        } else if (event instanceof RunEvent.AxisStopped e) {
            return new JournalEntry.AxisStopped(
                    e.axis(), e.reason(), e.ordered(), e.standstill(), e.seconds(), e.detail());
        } else if (event instanceof RunEvent.ParameterChanging e) {
            return new JournalEntry.ParameterChanging(e.axis(), e.name(), e.unit(), e.found(), e.written(), e.kept());
        } else if (event instanceof RunEvent.ParameterPutBack e) {
            return new JournalEntry.ParameterPutBack(e.axis(), e.name(), e.trouble());
        } else if (event instanceof RunEvent.TrialFinished e) {
            return new JournalEntry.TrialFinished(e.key(), e.verdict(), e.reason());
        } else if (event instanceof RunEvent.LinkChecked e) {
            return new JournalEntry.LinkChecked(e.link());
        } else if (event instanceof RunEvent.SnapshotTaken e) {
            return new JournalEntry.SnapshotTaken(keep(e));
        } else if (event instanceof RunEvent.PunchRaised e) {
            return new JournalEntry.PunchRaised(e.item());
        } else if (event instanceof RunEvent.Noted e) {
            return new JournalEntry.Noted(e.text());
        } else if (event instanceof RunEvent.RunFinished e) {
            return new JournalEntry.RunFinished(e.stopped(), Optional.empty());
        }
        throw new IllegalStateException("not an event: " + event);
    }

    /** Writes the samples before the line that names them, so that a line never points at nothing. */
    private TraceRecord keep(RunEvent.TraceTaken e) {
        String name = TraceFile.nameOf(e.key(), e.name());
        byte[] bytes = TraceFile.bytes(e.trace());
        try {
            writeForced(folder.resolve(name), bytes);
            syncFolder(folder.resolve(TraceFile.FOLDER));
        } catch (FileAlreadyExistsException x) {
            throw new IllegalArgumentException("the trace name \"" + e.name() + "\" was used before in " + e.key(), x);
        } catch (IOException x) {
            throw new EvidenceLostException(folder.resolve(name) + " cannot be written: " + x, x);
        }
        return new TraceRecord(
                e.at(),
                e.name(),
                e.title(),
                name,
                Sha256.of(bytes),
                e.trace().size(),
                e.trace().orderedPeriod(),
                e.trace().worstPeriod(),
                e.trace().channels().stream()
                        .map(c -> new TraceRecord.Column(c.name(), c.unit(), c.quantum()))
                        .toList(),
                e.trace().latched().stream()
                        .map(peak -> new TraceRecord.Peak(
                                peak.of().name(), peak.of().unit(), peak.of().quantum(), peak.cleared(), peak.value()))
                        .toList());
    }

    /** Writes the values before the line that names their file. */
    private SnapshotRecord keep(RunEvent.SnapshotTaken e) {
        Snapshot snapshot = e.snapshot();
        byte[] bytes = snapshot.json();
        Path file = folder.resolve(snapshot.fileName());
        try {
            writeForced(file, bytes);
            syncFolder(folder);
        } catch (FileAlreadyExistsException x) {
            throw new IllegalArgumentException("this pack has a " + snapshot.fileName() + " already", x);
        } catch (IOException x) {
            throw new EvidenceLostException(file + " cannot be written: " + x, x);
        }
        List<Snapshot.Value> values =
                snapshot.axes().stream().flatMap(axis -> axis.values().stream()).toList();
        int unreadable =
                (int) values.stream().filter(value -> value.value().isEmpty()).count();
        return new SnapshotRecord(
                snapshot.state(),
                snapshot.fileName(),
                Sha256.of(bytes),
                values.size() - unreadable,
                unreadable,
                e.against(),
                e.differences());
    }

    /**
     * Closes the journal and writes {@code record.json} and {@code junit.xml} from what it holds. A run that did not
     * tell its end is finished as stopped.
     */
    public RunRecord finish() {
        close();
        return recover(folder);
    }

    @Override
    public synchronized void close() {
        over = true;
        try {
            journal.close();
        } catch (IOException e) {
            throw new EvidenceLostException(folder.resolve(Journal.FILE) + " cannot be closed: " + e, e);
        }
    }

    /**
     * Finishes a pack from its journal: adds the end of the run if the journal has none, and writes {@code record.json}
     * and {@code junit.xml}. What is in the journal is not touched. Doing it again changes nothing.
     *
     * @throws EvidenceLostException if the journal is missing or was altered, or the folder cannot be written
     */
    public static RunRecord recover(Path folder) {
        Path file = folder.resolve(Journal.FILE);
        Journal journal = Journal.read(file);
        try {
            if (!journal.finished()) {
                finishJournal(file, journal);
                journal = Journal.read(file);
            }
            String name = folder.toAbsolutePath().normalize().getFileName().toString();
            RunRecord record = RunRecordFold.fold(name, journal.lines());
            replace(folder.resolve(RunRecord.FILE), record.json());
            replace(folder.resolve(JunitXml.FILE), JunitXml.bytes(record));
            return record;
        } catch (IOException e) {
            throw new EvidenceLostException("the pack " + folder + " cannot be finished: " + e, e);
        }
    }

    private static void finishJournal(Path file, Journal journal) throws IOException {
        List<JournalLine> lines = journal.lines();
        // The run's own clock is gone, so the last instant that it told stands for its end.
        Instant at = lines.isEmpty()
                ? Files.getLastModifiedTime(file).toInstant()
                : lines.get(lines.size() - 1).at();
        byte[] before = new byte[0];
        Optional<JournalEntry.Torn> torn = Optional.empty();
        if (journal.torn().isPresent()) {
            byte[] end = Files.readAllBytes(file);
            int from = end.length - journal.torn().get().bytes();
            before = new byte[] {Journal.RECORD_SEPARATOR, '\n'};
            byte[] closed = Arrays.copyOfRange(end, from, end.length + before.length);
            System.arraycopy(before, 0, closed, end.length - from, before.length);
            torn = Optional.of(new JournalEntry.Torn(closed.length, Sha256.of(closed)));
        } else if (!journal.endsInLineFeed()) {
            before = new byte[] {'\n'};
        }
        try (JournalWriter writer = new JournalWriter(file, lines.size(), journal.head())) {
            writer.append(before, at, new JournalEntry.RunFinished(Optional.of(KILLED), torn));
        }
    }

    private static void writeForced(Path file, byte[] bytes) throws IOException {
        Files.createFile(file);
        try (FileOutputStream out = new FileOutputStream(file.toFile())) {
            out.write(bytes);
            out.getFD().sync();
        }
    }

    /** Puts a file in the place of an older one; whatever happens, one of the two stands there whole. */
    public static void replace(Path file, byte[] bytes) throws IOException {
        Path fresh = file.resolveSibling(file.getFileName() + ".part");
        Files.deleteIfExists(fresh);
        writeForced(fresh, bytes);
        Files.move(fresh, file, StandardCopyOption.REPLACE_EXISTING, StandardCopyOption.ATOMIC_MOVE);
    }

    /** Makes new names in a folder survive a power cut where the system lets a folder be forced; Windows does not. */
    private static void syncFolder(Path folder) {
        try (FileChannel channel = FileChannel.open(folder, StandardOpenOption.READ)) {
            channel.force(true);
        } catch (IOException e) {
            LOG.debug("{} cannot be forced to the disk as a folder", folder, e);
        }
    }
}
