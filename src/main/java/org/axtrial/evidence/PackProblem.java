package org.axtrial.evidence;

import java.util.Arrays;
import java.util.Optional;

/**
 * What is wrong with, or to be said of, a file of a pack.
 *
 * @param file path in the pack, with slashes
 * @param detail what was expected and what is there
 */
public record PackProblem(String file, String detail) {

    /**
     * A report that can be made from the record, held against the one in the pack.
     *
     * @return empty if they have the same bytes
     */
    public static Optional<PackProblem> remade(String file, byte[] expected, byte[] found) {
        int at = Arrays.mismatch(expected, found);
        return at < 0
                ? Optional.empty()
                : Optional.of(new PackProblem(
                        file, "is not what this program makes of the record; it differs from byte " + at + " on"));
    }

    /** A report that another version wrote in another form, so that nothing can be said by making it again. */
    public static PackProblem otherVersion(String file, String tool) {
        return new PackProblem(
                file,
                "has another form than this program gives it; the run was made by " + tool
                        + ", compare it with that version. The manifest knows it");
    }

    @Override
    public String toString() {
        return file + ": " + detail;
    }
}
