package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardWatchEventKinds;
import java.nio.file.WatchKey;
import java.nio.file.WatchService;
import java.util.List;
import java.util.concurrent.TimeUnit;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.condition.DisabledOnOs;
import org.junit.jupiter.api.condition.OS;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The procedure command as a process of its own, ended from outside in the middle of its rehearsal. */
@Timeout(120)
@DisabledOnOs(value = OS.WINDOWS, disabledReason = "signals of POSIX")
class StoppedRehearsalTest {

    /** A day of virtual time, which takes longer than the signal needs. */
    private static final String LONG = """
            import { trial } from "axtrial";
            trial("Long", { id: "T-1", axes: "INFEED", limit: [1440, "min"] }, (axis, t) => {
              for (let i = 0; i < 80000; i++) axis.dwell(1, "s");
            });
            """;

    @TempDir
    private Path folder;

    @ParameterizedTest
    @ValueSource(strings = {"INT", "TERM", "HUP"})
    void aSignalLeavesNothingBehind(String signal) throws Exception {
        Path temporary = Files.createDirectory(folder.resolve("temporary"));
        Path out = folder.resolve("out");
        Path site = site();
        try (WatchService watch = FileSystems.getDefault().newWatchService()) {
            temporary.register(watch, StandardWatchEventKinds.ENTRY_CREATE);
            Process program = program(temporary, site, out);
            WatchKey made = watch.poll(60, TimeUnit.SECONDS);
            assertThat(made).as("the rehearsal has begun").isNotNull();

            Process kill = new ProcessBuilder("kill", "-" + signal, Long.toString(program.pid())).start();
            assertThat(kill.waitFor()).isZero();

            String told = new String(program.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
            assertThat(program.waitFor(60, TimeUnit.SECONDS)).isTrue();
            assertThat(told).contains("Stopped.", "nothing was written", "Nothing real has moved");
            assertThat(program.exitValue()).isEqualTo(ExitCode.STOPPED.code());
        }
        assertThat(temporary).isEmptyDirectory();
        assertThat(out).doesNotExist();
    }

    private Path site() throws IOException {
        Path site = Files.createDirectory(folder.resolve("site")).resolve("site.yaml");
        String drives = Path.of("test-scripts/drives").toAbsolutePath().toString();
        Files.writeString(
                site, Files.readString(Path.of("test-scripts/demo/site.yaml")).replace("../drives", drives));
        Files.writeString(site.resolveSibling("long.js"), LONG);
        return site;
    }

    private Process program(Path temporary, Path site, Path out) throws IOException {
        List<String> command = List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Djava.io.tmpdir=" + temporary,
                "-XX:-UsePerfData",
                "-cp",
                System.getProperty("surefire.test.class.path", System.getProperty("java.class.path")),
                Main.class.getName(),
                "procedure",
                site.toString(),
                "--out",
                out.toString());
        return new ProcessBuilder(command)
                .redirectErrorStream(true)
                .redirectInput(Files.createFile(folder.resolve("nothing")).toFile())
                .start();
    }
}
