package org.axtrial.cli;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;

/**
 * A call of the program with nobody at the terminal.
 *
 * @param code exit code
 * @param out what it told
 * @param err what it refused
 */
record Called(int code, String out, String err) {

    static Called with(String... words) {
        ByteArrayOutputStream told = new ByteArrayOutputStream();
        ByteArrayOutputStream refused = new ByteArrayOutputStream();
        int code = Main.run(
                Terminal.on(
                        new PrintStream(told, true, StandardCharsets.UTF_8),
                        new PrintStream(refused, true, StandardCharsets.UTF_8)),
                words);
        return new Called(code, told.toString(StandardCharsets.UTF_8), refused.toString(StandardCharsets.UTF_8));
    }
}
