package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Optional;
import picocli.CommandLine.Option;

/** The password of a key file: from a file, or typed unseen. Never an argument, which other users of the machine can read. */
final class Password {

    private static final int SHORTEST = 8;

    private static final long LARGEST_FILE = 1024;

    @Option(
            names = "--password-file",
            paramLabel = "FILE",
            description = "Reads the password from the first line of a file; otherwise it is asked at the terminal")
    private Optional<Path> file = Optional.empty();

    /** The password of a key file that exists. */
    char[] ask(Terminal terminal, Path key) {
        if (file.isPresent()) {
            return fromFile(file.get());
        }
        requireKeyboard(terminal);
        return terminal.askSecret("Password of " + key + ": ").orElseThrow(Password::nobody);
    }

    /** A new password, typed twice. */
    char[] choose(Terminal terminal) {
        char[] chosen;
        if (file.isPresent()) {
            chosen = fromFile(file.get());
        } else {
            requireKeyboard(terminal);
            chosen = terminal.askSecret("New password, " + SHORTEST + " characters or more: ")
                    .orElseThrow(Password::nobody);
            char[] again = terminal.askSecret("The same again: ").orElseThrow(Password::nobody);
            if (!Arrays.equals(chosen, again)) {
                throw new WrongUseException("the two passwords differ; nothing was written");
            }
        }
        if (chosen.length < SHORTEST) {
            throw new WrongUseException(
                    "a password has " + SHORTEST + " characters or more; whoever finds it can sign in your name");
        }
        return chosen;
    }

    private static void requireKeyboard(Terminal terminal) {
        if (!terminal.isInteractive()) {
            throw nobody();
        }
    }

    private static WrongUseException nobody() {
        return new WrongUseException("there is no terminal to ask for the password; give it by --password-file FILE");
    }

    private static char[] fromFile(Path file) {
        try {
            if (Files.size(file) > LARGEST_FILE) {
                throw new WrongUseException(file + " is too large for a file with a password");
            }
            return Files.readString(file).lines().findFirst().orElse("").toCharArray();
        } catch (IOException e) {
            throw new WrongUseException("the password file " + file + " cannot be read: " + e.getMessage());
        }
    }
}
