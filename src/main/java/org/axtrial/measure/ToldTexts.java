package org.axtrial.measure;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Collectors;
import org.axtrial.quantity.Unit;

/** Texts that a drive tells of itself against those of an equipment list. */
public final class ToldTexts {

    private ToldTexts() {}

    /**
     * How many listed texts the drive tells otherwise or not at all. Letters count, and so do their case and blanks.
     *
     * @param listed texts of the list by name, not empty
     * @param told texts that the drive has told; what is not listed does not count
     * @throws IllegalArgumentException if nothing is listed
     */
    public static Measurement differing(Map<String, String> listed, Map<String, String> told) {
        if (listed.isEmpty()) {
            throw new IllegalArgumentException("no text is listed, so none can differ");
        }
        List<String> names = names(listed, told);
        String which = names.isEmpty() ? "" : ": " + String.join(", ", names);
        return new Draft(
                        "texts that differ",
                        "Texts of the device identification that are not as listed, of " + listed.size() + which + ".",
                        Unit.ONE)
                .source(Source.DRIVE)
                .value(names.size());
    }

    /** The names of those texts, in the order of the alphabet. */
    private static List<String> names(Map<String, String> listed, Map<String, String> told) {
        return new TreeMap<>(listed)
                .entrySet().stream()
                        .filter(text -> !text.getValue().equals(told.get(text.getKey())))
                        .map(text -> text.getKey() + " is "
                                + (told.containsKey(text.getKey()) ? "\"" + told.get(text.getKey()) + "\"" : "not told")
                                + " instead of \"" + text.getValue() + "\"")
                        .collect(Collectors.toList());
    }
}
