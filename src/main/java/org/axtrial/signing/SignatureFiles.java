package org.axtrial.signing;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.PackFolder;
import org.axtrial.evidence.PackProblem;

/**
 * The names below {@code signatures}, put in order.
 *
 * @param stems for each number what its files begin with, for example {@code signatures/01-tester}
 * @param names every plain file
 * @param problems names that cannot be there
 */
record SignatureFiles(Map<Integer, String> stems, Set<String> names, List<PackProblem> problems) {

    private static final Pattern FILE =
            Pattern.compile("(signatures/(\\d{2})-(tester|witness|customer|approver))\\.(json|p7s|tsr)");

    static SignatureFiles of(Path folder) throws IOException {
        TreeMap<Integer, String> stems = new TreeMap<>();
        TreeSet<String> names = new TreeSet<>();
        List<PackProblem> problems = new ArrayList<>();
        for (Map.Entry<String, Long> entry : PackFolder.list(folder).entrySet()) {
            String name = entry.getKey();
            if (!name.startsWith(Manifest.SIGNATURES)) {
                continue;
            }
            Matcher file = FILE.matcher(name);
            if (entry.getValue() < 0) {
                problems.add(new PackProblem(name, "is a link or no plain file"));
            } else if (name.equals(SignedPdf.FILE)) {
                names.add(name);
            } else if (!file.matches()) {
                problems.add(new PackProblem(name, "does not belong to any signature"));
            } else {
                names.add(name);
                String before = stems.putIfAbsent(Integer.valueOf(file.group(2)), file.group(1));
                if (before != null && !before.equals(file.group(1))) {
                    problems.add(new PackProblem(name, "has the number of " + before));
                }
            }
        }
        SignatureFiles files = new SignatureFiles(stems, names, problems);
        files.requireWhole(stems);
        return files;
    }

    private void requireWhole(TreeMap<Integer, String> stems) {
        int expected = 1;
        for (Map.Entry<Integer, String> stem : stems.entrySet()) {
            if (stem.getKey() != expected) {
                problems.add(new PackProblem(
                        stem.getValue() + ".json",
                        "has the number " + stem.getKey() + " where " + expected
                                + " must follow; a signature was taken out"));
            }
            expected = stem.getKey() + 1;
            for (String end : List.of(".json", ".p7s")) {
                if (!names.contains(stem.getValue() + end)) {
                    problems.add(new PackProblem(
                            stem.getValue() + end,
                            "is missing; it was taken out, or signing was cut off. In the second case delete the other"
                                    + " files of this signature and sign again"));
                }
            }
        }
    }

    /** Files of all signatures before one, sorted. */
    List<String> before(int number) {
        return names.stream()
                .filter(name -> stems.entrySet().stream()
                        .anyMatch(stem -> stem.getKey() < number && name.startsWith(stem.getValue() + ".")))
                .toList();
    }
}
