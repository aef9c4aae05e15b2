package org.axtrial.cli;

import java.nio.file.Files;
import java.nio.file.Path;

/** Refuses what is no folder of a run, and says what it is instead. */
final class RunFolder {

    private static final String EXAMPLE = "name the folder of a run, for example reports/20260101-080000-DEMO-1";

    private RunFolder() {}

    /**
     * The folder of a run that is over, with its record.
     *
     * @throws WrongUseException if it is not
     */
    static void requireFinished(Path folder) {
        require(folder);
        if (!Files.isRegularFile(folder.resolve("record.json"))) {
            throw new WrongUseException(folder + " holds no record.json, so it is not the folder of a finished run;"
                    + " if the run was cut off, finish it first: axtrial report " + folder);
        }
    }

    /**
     * The folder of a run, finished or cut off.
     *
     * @throws WrongUseException if it is not
     */
    static void require(Path folder) {
        if (Files.isRegularFile(folder)) {
            throw new WrongUseException(folder + " is a file; " + EXAMPLE);
        }
        if (!Files.isDirectory(folder)) {
            throw new WrongUseException("there is no folder " + folder + "; " + EXAMPLE);
        }
        if (!Files.exists(folder.resolve("journal.jsonl"))) {
            throw new WrongUseException(
                    folder + " holds no journal.jsonl, so it is not the folder of a run; " + EXAMPLE);
        }
    }
}
