package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.axtrial.peer.Peers;

/** The shell commands of docs/evidence.md, for a third party who has only common tools. */
final class DocumentedCommands {

    private static final Pattern BLOCK = Pattern.compile("```sh\n(.*?)```", Pattern.DOTALL);

    private DocumentedCommands() {}

    /** The first block of commands after these words. */
    static String after(String words) throws IOException {
        String text = Files.readString(Path.of("docs/evidence.md"));
        int at = text.indexOf(words);
        assertThat(at).as(words).isNotNegative();
        Matcher block = BLOCK.matcher(text.substring(at));
        assertThat(block.find()).isTrue();
        return block.group(1);
    }

    /** What commands print in a folder, their exit code in the last line. */
    static String run(Path folder, String commands) throws IOException, InterruptedException {
        for (String program : List.of("openssl", "jq", "sha256sum")) {
            if (!Files.isExecutable(Path.of("/usr/bin", program))) {
                Peers.absent(program + " is needed to check signatures as a third party would; install it");
            }
        }
        Process process = new ProcessBuilder("bash", "-c", "(" + commands + "\n) 2>&1; echo exit $?")
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .start();
        String output = new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        process.waitFor();
        return output;
    }
}
