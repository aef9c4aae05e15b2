package org.axtrial.evidence;

import java.util.List;
import java.util.Optional;

/**
 * A snapshot of parameters as the record keeps it; the values stand in its file.
 *
 * @param state as found, as left, or not said
 * @param file its name in the pack
 * @param sha256 hash of the file
 * @param parameters how many were read
 * @param unreadable how many were not
 * @param against what it was held against; empty if nothing
 * @param differences where the two differ; empty list if they agree or nothing was compared
 */
public record SnapshotRecord(
        Optional<Snapshot.State> state,
        String file,
        String sha256,
        int parameters,
        int unreadable,
        Optional<String> against,
        List<Difference> differences) {

    /** How two sets of parameters differ in one of them. */
    public enum Kind {
        CHANGED,
        /** Only in the snapshot. */
        ADDED,
        /** Only in what it is held against. */
        MISSING
    }

    /**
     * One difference.
     *
     * @param was value and unit in what the snapshot is held against; empty string if not there
     * @param is value and unit in the snapshot; empty string if not there
     */
    public record Difference(Kind kind, String axis, String parameter, String was, String is) {}

    public SnapshotRecord {
        differences = List.copyOf(differences);
    }
}
