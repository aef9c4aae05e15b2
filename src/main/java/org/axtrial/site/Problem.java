package org.axtrial.site;

import java.nio.file.Path;

/**
 * One thing that is wrong in a site file or a drive description.
 *
 * @param file the file it stands in
 * @param path the YAML path, for example {@code axes[1].envelope.speed}; empty for the file as a whole
 * @param line line in the file, from 1; 0 if the file could not be read at all
 * @param column column in the line, from 1; 0 if unknown
 * @param message what was found, what was expected and, where it can be told, what to do
 */
public record Problem(Path file, String path, int line, int column, String message) {

    /** As an editor or a terminal can jump to it: {@code site.yaml:12:7: axes[1].envelope.speed: …}. */
    @Override
    public String toString() {
        String place = line == 0 ? file.toString() : file + ":" + line + ":" + column;
        return place + ": " + (path.isEmpty() ? "" : path + ": ") + message;
    }
}
