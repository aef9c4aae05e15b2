package org.axtrial.site;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Collects problems over all files of one load. The same problem is kept once. */
final class Problems {

    private final List<Path> files = new ArrayList<>();
    private final Set<Problem> found = new LinkedHashSet<>();

    /** Files are told in the order in which they were first opened. */
    void open(Path file) {
        if (!files.contains(file)) {
            files.add(file);
        }
    }

    void add(Path file, String path, YamlPlace place, String message) {
        open(file);
        found.add(new Problem(file, path, place.line(), place.column(), message));
    }

    boolean isEmpty() {
        return found.isEmpty();
    }

    List<Problem> sorted() {
        return found.stream()
                .sorted(Comparator.<Problem>comparingInt(problem -> files.indexOf(problem.file()))
                        .thenComparingInt(Problem::line)
                        .thenComparingInt(Problem::column))
                .toList();
    }
}
