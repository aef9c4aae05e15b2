package org.axtrial.peer;

import java.io.BufferedReader;
import java.io.EOFException;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;

/** A program from outside while it runs; told to end by the end of its standard input, and ended if it does not. */
final class Outside implements AutoCloseable {

    private final Process process;
    private final BufferedReader output;

    Outside(List<String> command) throws IOException {
        process = new ProcessBuilder(command).redirectErrorStream(true).start();
        output = new BufferedReader(new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8));
    }

    /** Reads on until a line contains the text, and returns that line. */
    String await(String text) throws IOException {
        List<String> said = new ArrayList<>();
        for (String line = output.readLine(); line != null; line = output.readLine()) {
            said.add(line);
            if (line.contains(text)) {
                return line;
            }
        }
        throw new EOFException("ended without \"" + text + "\"; it said " + said);
    }

    /** Everything up to its end, which must be a good one. */
    List<String> rest() throws IOException, InterruptedException {
        List<String> said = output.lines().toList();
        if (process.waitFor() != 0) {
            throw new IOException("exit code " + process.exitValue() + "; it said " + said);
        }
        return said;
    }

    @Override
    public void close() {
        process.destroy();
        try {
            process.waitFor();
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }
}
