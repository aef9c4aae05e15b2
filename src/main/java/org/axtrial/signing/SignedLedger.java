package org.axtrial.signing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import org.axtrial.evidence.PackFolder;
import org.axtrial.evidence.Sha256;
import org.jspecify.annotations.Nullable;

/**
 * What had been added after the run when somebody signed. The ledger only grows, so a signature stands for its first
 * lines, and later ones do not touch it.
 *
 * @param file the ledger, path in the pack
 * @param entries how many entries it had, 1 or more
 * @param sha256 hash of the lines of so many entries, with their line feeds
 * @param acceptance how the acceptance stood by these entries, as printed
 */
public record SignedLedger(String file, int entries, String sha256, String acceptance) {

    public SignedLedger {
        if (file == null || !PackFolder.isName(file)) {
            throw new IllegalArgumentException("\"" + file + "\" is no name of a file in a pack");
        }
        if (entries < 1) {
            throw new IllegalArgumentException("a signed ledger has 1 entry or more, got " + entries);
        }
        Statement.requireHash(sha256);
        Statement.requireText("acceptance", acceptance);
    }

    /**
     * What stands in the first lines of a ledger.
     *
     * @throws SigningException if it cannot be read or has fewer entries
     */
    public static SignedLedger of(Path folder, String file, int entries, String acceptance) throws SigningException {
        try {
            byte[] first = first(PackFolder.read(folder, file), entries);
            if (first == null) {
                throw new SigningException(file + " has fewer than " + entries + " entries");
            }
            return new SignedLedger(file, entries, Sha256.of(first), acceptance);
        } catch (IOException e) {
            throw new SigningException(file + " cannot be read: " + e.getMessage(), e);
        }
    }

    /** What is wrong with the ledger of a pack; empty if its first entries are what was signed. */
    Optional<String> differs(Path folder, String by) {
        byte[] now;
        try {
            now = first(PackFolder.read(folder, file), entries);
        } catch (IOException e) {
            return Optional.of("had " + counted() + " when " + by + " was made, and cannot be read: " + e.getMessage());
        }
        if (now == null) {
            return Optional.of(
                    "had " + counted() + " when " + by + " was made, and has fewer now: entries were" + " taken out");
        }
        return Sha256.of(now).equals(sha256)
                ? Optional.empty()
                : Optional.of("is not what " + by + " was made for: "
                        + (entries == 1 ? "its first entry" : "one of its first " + entries + " entries")
                        + " was altered");
    }

    /** Its entries in words, for example {@code 1 entry}. */
    public String counted() {
        return entries + (entries == 1 ? " entry" : " entries");
    }

    private static byte @Nullable [] first(byte[] text, int lines) {
        int end = 0;
        for (int i = 0; i < lines; i++) {
            while (end < text.length && text[end] != '\n') {
                end++;
            }
            if (end == text.length) {
                return null;
            }
            end++;
        }
        return Arrays.copyOf(text, end);
    }
}
