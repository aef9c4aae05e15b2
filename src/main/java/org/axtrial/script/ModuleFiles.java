package org.axtrial.script;

import java.io.IOException;
import java.net.URI;
import java.nio.channels.SeekableByteChannel;
import java.nio.charset.StandardCharsets;
import java.nio.file.AccessMode;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.LinkOption;
import java.nio.file.NoSuchFileException;
import java.nio.file.OpenOption;
import java.nio.file.Path;
import java.nio.file.attribute.FileAttribute;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.graalvm.polyglot.io.FileSystem;

/**
 * All the files that a script can see: the modules of the scripts folder, read-only, and the built-in module
 * {@code axtrial}. One instance serves one context. What it refuses it also remembers, because the language runtime
 * passes on neither reason nor place.
 */
final class ModuleFiles implements FileSystem {

    /** The name in {@code import … from "axtrial"}. */
    static final String BUILT_IN = "axtrial";

    private static final Path BUILT_IN_PATH = Path.of(BUILT_IN);

    private final ScriptTexts texts;
    private final byte[] builtIn;
    private final List<Refusal> refusals = new ArrayList<>();

    /**
     * An import that was refused.
     *
     * @param asked as the runtime asked for it: an absolute path, a bare name or an address
     * @param message why
     */
    record Refusal(String asked, String message) {}

    ModuleFiles(ScriptTexts texts, String builtIn) {
        this.texts = texts;
        this.builtIn = builtIn.getBytes(StandardCharsets.UTF_8);
    }

    /** The refusal that a message of the runtime speaks of, if any. */
    Optional<Refusal> refusalIn(String message) {
        return refusals.stream()
                .filter(refused -> !refused.asked.isEmpty()
                        && (message.contains(refused.asked) || message.contains(refused.message)))
                .findFirst();
    }

    @Override
    public Path parsePath(URI uri) {
        throw refuse(
                uri.toString(),
                "\"" + uri + "\" is an address; scripts import only \"" + BUILT_IN
                        + "\" and files of the scripts folder such as \"./name.js\"");
    }

    @Override
    public Path parsePath(String path) {
        try {
            return Path.of(path);
        } catch (InvalidPathException e) {
            throw refuse(path, "\"" + path + "\" is not a file name");
        }
    }

    @Override
    public void checkAccess(Path path, Set<? extends AccessMode> modes, LinkOption... options) throws IOException {
        if (modes.contains(AccessMode.WRITE) || modes.contains(AccessMode.EXECUTE)) {
            throw readOnly();
        }
        realModule(path);
    }

    @Override
    public Path toAbsolutePath(Path path) {
        return path.equals(BUILT_IN_PATH) || path.toString().isEmpty()
                ? path
                : texts.folder().resolve(path);
    }

    @Override
    public Path toRealPath(Path path, LinkOption... options) throws IOException {
        return realModule(path);
    }

    @Override
    public SeekableByteChannel newByteChannel(
            Path path, Set<? extends OpenOption> options, FileAttribute<?>... attributes) throws IOException {
        if (options.stream().anyMatch(option -> !option.toString().equals("READ"))) {
            throw readOnly();
        }
        Path real = realModule(path);
        if (real.equals(BUILT_IN_PATH)) {
            return new TextChannel(builtIn);
        }
        try {
            return new TextChannel(texts.read(real).getBytes(StandardCharsets.UTF_8));
        } catch (ScriptMistake e) {
            throw refused(path.toString(), e);
        }
    }

    @Override
    public Map<String, Object> readAttributes(Path path, String attributes, LinkOption... options) throws IOException {
        Path real = realModule(path);
        if (real.equals(BUILT_IN_PATH)) {
            throw new NoSuchFileException(BUILT_IN);
        }
        return Files.readAttributes(real, attributes, options);
    }

    @Override
    public void createDirectory(Path directory, FileAttribute<?>... attributes) {
        throw readOnly();
    }

    @Override
    public void delete(Path path) {
        throw readOnly();
    }

    @Override
    public DirectoryStream<Path> newDirectoryStream(Path directory, DirectoryStream.Filter<? super Path> filter) {
        throw new SecurityException("scripts cannot list folders");
    }

    private Path realModule(Path path) throws IOException {
        if (path.equals(BUILT_IN_PATH)) {
            return path;
        }
        String asked = path.toString();
        if (!path.isAbsolute()) {
            throw refused(
                    asked,
                    new ScriptMistake("there is no module \"" + asked + "\"; scripts import only \"" + BUILT_IN
                            + "\" and files of the scripts folder, whose names begin with \"./\" or \"../\""));
        }
        try {
            return texts.inside(path, asked);
        } catch (ScriptMistake e) {
            throw refused(asked, e);
        }
    }

    private IOException refused(String asked, ScriptMistake mistake) {
        String message = String.valueOf(mistake.getMessage());
        remember(asked, message);
        return new NoSuchFileException(asked, null, message);
    }

    private SecurityException refuse(String asked, String message) {
        remember(asked, message);
        return new SecurityException(message);
    }

    private void remember(String asked, String message) {
        refusals.add(new Refusal(asked, message));
    }

    private static SecurityException readOnly() {
        return new SecurityException("scripts cannot write files");
    }
}
