package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What a rehearsal says about the time that the trials will take. */
class ExpectedTimeTest {

    @TempDir
    private Path folder;

    private static String told(ExpectedTime time) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PrintStream screen = new PrintStream(out, true, StandardCharsets.UTF_8);
        time.tell(Terminal.on(screen, screen));
        return out.toString(StandardCharsets.UTF_8);
    }

    @ParameterizedTest
    @CsvSource({"0,1 s", "59400,59 s", "59600,1 min 0 s", "192000,3 min 12 s", "3600000,1 h 0 min", "9000000,2 h 30 min"
    })
    void theTimeIsToldAsAPersonWould(long millis, String words) {
        assertThat(told(new ExpectedTime(Duration.ofMillis(millis), false, Duration.ZERO)))
                .contains("about " + words + ", one trial after the other; what people do comes on top");
    }

    @Test
    void axesSideBySideTakeAsLongAsTheLongest() {
        assertThat(told(new ExpectedTime(Duration.ofSeconds(90), true, Duration.ofSeconds(40))))
                .contains("about 40 s, all axes side by side");
    }

    @Test
    void aRehearsalAndItsProcedureExpectTheSame() throws Exception {
        String site = "test-scripts/acceptance/site.yaml";
        String script = "test-scripts/acceptance/dynamic/ripple.js";
        Called rehearsal = Called.with("rehearse", site, script, "--reports", folder.toString());
        Called procedure = Called.with(
                "procedure", site, script, "--out", folder.resolve("p").toString());

        assertThat(line(rehearsal))
                .matches("Expected on the machine: about \\d+ s, all axes side by side; .*")
                .isEqualTo(line(procedure));
    }

    private static String line(Called called) {
        return called.out()
                .lines()
                .filter(line -> line.startsWith("Expected"))
                .findFirst()
                .orElse(called.out() + called.err());
    }
}
