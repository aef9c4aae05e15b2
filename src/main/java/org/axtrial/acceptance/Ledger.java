package org.axtrial.acceptance;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.axtrial.evidence.ChainedLine;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunRecord.PackedFile;
import org.axtrial.evidence.Sha256;

/**
 * What was added to a pack after its run, in {@code after/ledger.jsonl}: one line for each entry, chained by hashes from
 * the last hash of the run's journal on. Nothing in it is ever rewritten.
 *
 * @param entries all of them, first one first
 * @param head hash of the last line; that of the journal if there is none
 */
public record Ledger(List<Dated> entries, String head) {

    /** Folder of all that comes after the run. */
    public static final String FOLDER = "after";

    private static final String FILE = "ledger.jsonl";

    /** Its name in a pack. */
    public static final String NAME = FOLDER + "/" + FILE;

    /**
     * A file beside the ledger that is not as the ledger tells.
     *
     * @param name in the pack
     * @param what is wrong with it
     */
    public record Stranger(String name, String what) {

        @Override
        public String toString() {
            return name + " " + what;
        }
    }

    /** An entry, when it was made, and the hash of its line. */
    public record Dated(Instant at, LedgerEntry entry, String hash) {}

    public Ledger {
        entries = List.copyOf(entries);
    }

    /**
     * Reads and proves the ledger of a pack; a pack without one has an empty ledger.
     *
     * @throws EvidenceLostException if it cannot be read, or a line does not follow from the line before it
     */
    public static Ledger read(Path pack, RunRecord record) {
        Path file = pack.resolve(FOLDER).resolve(FILE);
        String head = record.stamps().journalHash();
        List<Dated> entries = new ArrayList<>();
        if (!Files.exists(file)) {
            return new Ledger(entries, head);
        }
        String text = text(file);
        if (!text.isEmpty() && !text.endsWith("\n")) {
            throw new EvidenceLostException(file + " does not end with a whole line: it was cut off", null);
        }
        for (String line : text.lines().toList()) {
            Optional<ChainedLine> read = ChainedLine.read(line.getBytes(StandardCharsets.UTF_8), entries.size(), head);
            Optional<LedgerEntry> entry = read.flatMap(chained ->
                    Optional.ofNullable(LedgerEntry.TYPES.get(chained.type())).flatMap(chained::dataAs));
            if (entry.isEmpty()) {
                throw new EvidenceLostException(
                        file + ": line " + (entries.size() + 1)
                                + " does not follow from the line before it: it was altered, moved or taken out",
                        null);
            }
            head = read.orElseThrow().hash();
            entries.add(new Dated(read.orElseThrow().at(), entry.get(), head));
        }
        return new Ledger(entries, head);
    }

    private static String text(Path file) {
        try {
            return Files.readString(file);
        } catch (IOException e) {
            throw new EvidenceLostException(file + " cannot be read: " + e, e);
        }
    }

    /**
     * Adds an entry. The old file stays whole until the new one is on the disk.
     *
     * @return the ledger with it
     * @throws EvidenceLostException if it cannot be written
     */
    public Ledger add(Path pack, Instant at, LedgerEntry entry) {
        Path folder = pack.resolve(FOLDER);
        Path file = folder.resolve(FILE);
        ChainedLine.Written line =
                ChainedLine.write(entries.size(), at, entry.getClass().getSimpleName(), entry, head);
        try {
            Files.createDirectories(folder);
            String before = Files.exists(file) ? Files.readString(file) : "";
            EvidencePack.replace(file, (before + line.text() + "\n").getBytes(StandardCharsets.UTF_8));
        } catch (IOException e) {
            throw new EvidenceLostException(file + " cannot be written: " + e + ". Nothing was added.", e);
        }
        return new Ledger(
                Stream.concat(entries.stream(), Stream.of(new Dated(at, entry, line.hash())))
                        .toList(),
                line.hash());
    }

    /**
     * The ledger as it was after so many entries.
     *
     * @param count 1 or more, and no more than there are
     */
    public Ledger first(int count) {
        return new Ledger(entries.subList(0, count), entries.get(count - 1).hash());
    }

    /** The entries of one form with their times, first one first. */
    public <T extends LedgerEntry> List<Dated> of(Class<T> form) {
        return entries.stream().filter(each -> form.isInstance(each.entry())).toList();
    }

    /**
     * What is in the folder of this ledger and should not be, or is not as it was issued.
     *
     * @throws EvidenceLostException if the folder cannot be read
     */
    public List<Stranger> strangers(Path pack) {
        Path folder = pack.resolve(FOLDER);
        List<PackedFile> issued = entries.stream()
                .flatMap(each -> each.entry() instanceof LedgerEntry.ReportReissued reissue
                        ? reissue.files().stream()
                        : Stream.empty())
                .toList();
        List<Stranger> problems = new ArrayList<>();
        try {
            for (PackedFile file : issued) {
                Path path = pack.resolve(file.name());
                if (!Files.isRegularFile(path)) {
                    problems.add(new Stranger(file.name(), "was issued and is missing"));
                } else if (!Sha256.of(path).equals(file.sha256())) {
                    problems.add(new Stranger(file.name(), "is not as it was issued"));
                }
            }
            if (Files.isDirectory(folder)) {
                List<String> names = Stream.concat(
                                Stream.of(NAME), issued.stream().map(PackedFile::name))
                        .toList();
                try (Stream<Path> found = Files.walk(folder)) {
                    found.filter(path -> !Files.isDirectory(path))
                            .map(path -> pack.relativize(path).toString().replace('\\', '/'))
                            .filter(name -> !names.contains(name))
                            .sorted()
                            .forEach(name -> problems.add(new Stranger(name, "is not named by the ledger")));
                }
            }
        } catch (IOException e) {
            throw new EvidenceLostException(folder + " cannot be read: " + e, e);
        }
        return problems.stream().distinct().collect(Collectors.toList());
    }
}
