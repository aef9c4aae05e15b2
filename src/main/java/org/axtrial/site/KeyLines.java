package org.axtrial.site;

import java.nio.file.Path;
import java.util.Optional;

/** Where the keys of a YAML file stand, for messages that show a line to change. */
public final class KeyLines {

    private final Optional<YamlDocument> document;

    private KeyLines(Optional<YamlDocument> document) {
        this.document = document;
    }

    /** Reads a file; one that cannot be read has no keys. */
    public static KeyLines read(Path file) {
        return new KeyLines(YamlSource.read(file, new Problems()));
    }

    /**
     * The line of a value.
     *
     * @param path keys joined by dots, list positions in brackets
     * @return from 1; empty if the file does not have it
     */
    public Optional<Integer> line(String path) {
        return document.flatMap(found -> found.place(path)).map(YamlPlace::line);
    }

    /** The value as it is written, numbers in decimal; empty string for a block or a value that is not there. */
    public String text(String path) {
        return document.map(found -> found.text(path)).orElse("");
    }
}
