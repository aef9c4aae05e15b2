package org.axtrial.evidence;

import java.text.Normalizer;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;

/** The names in an archive: each a plain path below one folder, and no two the same on any file system. */
final class ArchiveNames {

    private static final int LONGEST = 400;
    private static final String DEVICES = "(?i)(con|prn|aux|nul|com[0-9]|lpt[0-9])(\\..*)?";

    /** By a key that ignores case and the way of writing accents: the name, and whether it is a file. */
    private final Map<String, String> spellings = new HashMap<>();

    private final Map<String, Boolean> files = new HashMap<>();
    private Optional<String> root = Optional.empty();

    /** The one folder that holds all. */
    Optional<String> root() {
        return root;
    }

    /**
     * Takes up the name of a file.
     *
     * @throws EvidenceLostException if it could leave the folder or meet another name
     */
    void add(String name) {
        if (name.length() > LONGEST) {
            throw refused(name.substring(0, 40) + "…", "it is longer than " + LONGEST + " characters");
        }
        if (name.indexOf('\\') >= 0) {
            throw refused(name, "it holds a backslash");
        }
        if (name.startsWith("/")) {
            throw refused(name, "it is absolute");
        }
        if (name.codePoints().anyMatch(c -> Character.isISOControl(c) || c == 0xFFFD || "<>:\"|?*".indexOf(c) >= 0)) {
            throw refused(name, "it holds a character that not every system can write, such as a colon");
        }
        List<String> parts = List.of(name.split("/", -1));
        if (parts.size() < 2) {
            throw refused(name, "it does not lie in the folder of a pack");
        }
        parts.forEach(part -> check(name, part));
        if (root.isEmpty()) {
            root = Optional.of(parts.get(0));
        } else if (!root.get().equals(parts.get(0))) {
            throw refused(name, "it lies beside the folder " + root.get());
        }
        for (int depth = 1; depth <= parts.size(); depth++) {
            meet(name, String.join("/", parts.subList(0, depth)), depth == parts.size());
        }
    }

    private static void check(String name, String part) {
        if (part.isEmpty()) {
            throw refused(name, "it has an empty part");
        }
        if (part.equals(".") || part.equals("..")) {
            throw refused(name, "it holds \"" + part + "\"");
        }
        if (part.endsWith(".") || part.endsWith(" ") || part.matches(DEVICES)) {
            throw refused(name, "\"" + part + "\" is no plain file name on every system");
        }
    }

    private void meet(String name, String path, boolean file) {
        String key = Normalizer.normalize(path, Normalizer.Form.NFC)
                .toUpperCase(Locale.ROOT)
                .toLowerCase(Locale.ROOT);
        String other = spellings.putIfAbsent(key, path);
        Boolean wasFile = files.putIfAbsent(key, file);
        if (other == null || wasFile == null) {
            return;
        }
        if (file || wasFile || !other.equals(path)) {
            throw refused(name, "it meets \"" + other + "\", which is the same on some file systems");
        }
    }

    private static EvidenceLostException refused(String name, String why) {
        return new EvidenceLostException(
                "the name \"" + Json.wellFormed(name).replaceAll("\\p{Cntrl}", "?") + "\" is refused: " + why, null);
    }
}
