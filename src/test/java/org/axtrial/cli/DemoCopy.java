package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.stream.Stream;

/** A copy of the demonstration that a test may change. */
final class DemoCopy {

    private DemoCopy() {}

    /** Copies scripts, site file and drive descriptions into a folder; gives the site file. */
    static Path into(Path folder) throws IOException {
        for (String name : new String[] {"demo", "drives"}) {
            Path from = Path.of("test-scripts", name);
            try (Stream<Path> files = Files.walk(from)) {
                for (Path file : files.toList()) {
                    Files.copy(
                            file,
                            folder.resolve(name).resolve(from.relativize(file).toString()));
                }
            }
        }
        return folder.resolve("demo/site.yaml");
    }
}
