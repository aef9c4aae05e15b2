package org.axtrial.evidence;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import org.axtrial.quantity.Unit;
import tools.jackson.core.JacksonException;

/**
 * The parameters of the drives of a site at one time.
 *
 * @param format {@link #FORMAT}
 * @param takenAt UTC
 * @param state whether it shows the machine as found or as left; empty if neither was said
 * @param axes one entry for each axis, in the order of the site file
 */
public record Snapshot(String format, Instant takenAt, Optional<State> state, List<AxisValues> axes) {

    /** The only format that this version writes and reads. */
    public static final String FORMAT = "axtrial-snapshot-1";

    /** When in the life of a job it was taken. */
    public enum State {
        FOUND,
        LEFT
    }

    /**
     * The parameters of one drive.
     *
     * @param axis name
     * @param driveType from the drive description
     * @param peer host, port, unit
     * @param values in the order of the drive description
     */
    public record AxisValues(String axis, String driveType, String peer, List<Value> values) {

        public AxisValues {
            values = List.copyOf(values);
        }
    }

    /**
     * One parameter.
     *
     * @param name from the drive description
     * @param value scaled, in {@code unit}; empty if it could not be read or is no number, and then {@code trouble} says why
     * @param raw the register words in the order of their addresses, hexadecimal; empty string if not read
     * @param trouble empty string if it was read
     */
    public record Value(String name, OptionalDouble value, Unit unit, String raw, String trouble) {}

    public Snapshot {
        if (!format.equals(FORMAT)) {
            throw new IllegalArgumentException(
                    "the snapshot has the format \"" + format + "\"; this version reads \"" + FORMAT + "\"");
        }
        axes = List.copyOf(axes);
    }

    /** How the snapshot file is named in a pack. */
    String fileName() {
        return switch (state.map(Enum::name).orElse("")) {
            case "FOUND" -> "snapshot-as-found.json";
            case "LEFT" -> "snapshot-as-left.json";
            default -> "snapshot.json";
        };
    }

    byte[] json() {
        return Json.MAPPER.writeValueAsBytes(Json.wellFormed(Json.MAPPER.valueToTree(this)));
    }

    /**
     * Reads a snapshot file.
     *
     * @throws EvidenceLostException if it is missing or no snapshot
     */
    public static Snapshot read(Path file) {
        try {
            return Json.MAPPER.readValue(Files.readAllBytes(file), Snapshot.class);
        } catch (IOException | JacksonException | IllegalArgumentException e) {
            throw new EvidenceLostException(file + " cannot be read as a snapshot: " + e.getMessage(), e);
        }
    }
}
