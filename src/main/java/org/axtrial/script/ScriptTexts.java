package org.axtrial.script;

import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ConcurrentSkipListMap;
import java.util.stream.Stream;

/**
 * The texts of the scripts folder. Each file is read once, so that what runs, what error messages quote and what goes
 * into the evidence is the same text even if somebody saves the file meanwhile.
 */
final class ScriptTexts {

    /** More than any sensible script; a larger file is a mistake in the command line. */
    private static final long MAX_BYTES = 1_000_000;

    private final Path folder;
    private final Map<Path, String> texts = new ConcurrentSkipListMap<>();

    ScriptTexts(Path folder) {
        try {
            this.folder = folder.toRealPath();
        } catch (IOException e) {
            throw new IllegalArgumentException("the scripts folder " + folder + " does not exist", e);
        }
        if (!Files.isDirectory(this.folder)) {
            throw new IllegalArgumentException("the scripts folder " + folder + " is not a folder");
        }
    }

    Path folder() {
        return folder;
    }

    /** The name of a file in records and messages: relative, with slashes. */
    String nameOf(Path file) {
        return folder.relativize(file).toString().replace('\\', '/');
    }

    /**
     * The real file behind a name under the scripts folder.
     *
     * @throws ScriptMistake if there is none, or if it lies outside the folder
     */
    Path locate(String name) {
        Path path;
        try {
            path = Path.of(name);
        } catch (InvalidPathException e) {
            throw new ScriptMistake("\"" + name + "\" is not a file name: " + e.getReason());
        }
        return inside(folder.resolve(path), name);
    }

    /** The real path of an absolute one. The name is only for messages. */
    Path inside(Path absolute, String name) {
        Path normal = absolute.normalize();
        if (!normal.startsWith(folder)) {
            throw new ScriptMistake(
                    "\"" + name + "\" lies outside the scripts folder; scripts may only import from it");
        }
        Path real;
        try {
            real = normal.toRealPath();
        } catch (IOException e) {
            throw new ScriptMistake("there is no file \"" + nameOf(normal) + "\" in the scripts folder");
        }
        if (!real.startsWith(folder)) {
            throw new ScriptMistake(
                    "\"" + name + "\" is a link that leads out of the scripts folder; copy the file into it");
        }
        if (!Files.isRegularFile(real)) {
            throw new ScriptMistake("\"" + nameOf(normal) + "\" is not a file; name the file with its ending .js");
        }
        return real;
    }

    /** The text of a file that {@link #inside} has accepted. */
    String read(Path real) {
        String known = texts.get(real);
        if (known != null) {
            return known;
        }
        try {
            long size = Files.size(real);
            if (size > MAX_BYTES) {
                throw new ScriptMistake(
                        "\"" + nameOf(real) + "\" has " + size + " bytes; a script has at most " + MAX_BYTES);
            }
            byte[] bytes = Files.readAllBytes(real);
            String text = StandardCharsets.UTF_8
                    .newDecoder()
                    .decode(ByteBuffer.wrap(bytes))
                    .toString();
            String other = texts.putIfAbsent(real, text);
            return other == null ? text : other;
        } catch (CharacterCodingException e) {
            throw new ScriptMistake("\"" + nameOf(real) + "\" is not UTF-8 text; save it as UTF-8");
        } catch (IOException e) {
            throw new ScriptMistake("\"" + nameOf(real) + "\" cannot be read: " + e.getMessage());
        }
    }

    /** Every file read so far, sorted. */
    List<Path> filesRead() {
        return List.copyOf(texts.keySet());
    }

    /** Scripts under a folder, sorted. Files and folders that begin with {@code _} hold modules, not scripts. */
    List<String> scriptsUnder(Path directory) {
        List<String> names = new ArrayList<>();
        try (Stream<Path> files = Files.walk(directory.toRealPath())) {
            files.filter(Files::isRegularFile)
                    .filter(file -> file.startsWith(folder))
                    .map(this::nameOf)
                    .filter(name -> name.endsWith(".js") && !("/" + name).contains("/_"))
                    .sorted()
                    .forEach(names::add);
        } catch (IOException e) {
            throw new IllegalArgumentException("cannot list the folder " + directory + ": " + e.getMessage(), e);
        }
        return names;
    }
}
