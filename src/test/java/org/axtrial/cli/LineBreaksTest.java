package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.AlphaChars;
import net.jqwik.api.constraints.Chars;
import net.jqwik.api.constraints.IntRange;
import net.jqwik.api.constraints.StringLength;
import org.axtrial.signing.Trust;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class LineBreaksTest {

    @TempDir
    private Path folder;

    @Test
    void aLineThatFitsStaysAsItIs() {
        assertThat(LineBreaks.fit("  files      9 beside the manifest", 40))
                .containsExactly("  files      9 beside the manifest");
        assertThat(LineBreaks.fit("", 40)).containsExactly("");
    }

    @Test
    void whatIsTooLongGoesOnBelowItsText() {
        assertThat(LineBreaks.fit("  recorded   5 traces, snapshots and files", 30))
                .containsExactly("  recorded   5 traces,", "             snapshots and", "             files");
        assertThat(LineBreaks.fit("     meaning: I ran these trials", 20))
                .containsExactly("     meaning: I ran", "       these trials");
    }

    @Test
    void aHashIsNeverBroken() {
        String hash = "0123456789abcdef".repeat(4);
        assertThat(LineBreaks.fit("  journal    9 lines, last hash " + hash + " proven", 60))
                .containsExactly("  journal    9 lines, last hash", "             " + hash, "             proven");
        assertThat(LineBreaks.fit(hash, 20)).containsExactly(hash);
        assertThat(LineBreaks.fit("     00:11:22:33:44:55:66:77", 20))
                .containsExactly("     00:11:22:33:44:", "       55:66:77");
    }

    @Property
    void nothingIsLostAndOnlyLongWordsReachOver(
            @ForAll @AlphaChars @Chars(' ') @StringLength(max = 300) String text,
            @ForAll @IntRange(min = 1, max = 120) int columns) {
        List<String> lines = LineBreaks.fit(text, columns);
        assertThat(String.join("", lines).replace(" ", "")).isEqualTo(text.replace(" ", ""));
        for (String line : lines) {
            // Only one long word reaches over, after its label at the most.
            assertThat(line.length() <= columns || line.lastIndexOf(' ') <= columns / 2)
                    .as(line)
                    .isTrue();
        }
    }

    /** A tablet shows 80 columns; a pipe gets each line whole, for scripts. */
    @Test
    void verificationFitsATabletAndStaysWholeForScripts() throws IOException {
        SignedPackBench bench = new SignedPackBench(folder);
        assertThat(bench.sign(bench.key("R. Example", "p256"), "tester")).isZero();
        assertThat(bench.punch("Label the cabinet", "C")).isZero();
        assertThat(bench.sign(bench.key("C. Example", "p256"), "customer")).isZero();
        Files.writeString(bench.pack.resolve("site.yaml"), "job: { id: ALTERED }\n");
        // The name of the folder is not ours to shorten.
        List<String> lines = VerificationText.of(Path.of("reports/run"), PackVerification.of(bench.pack, Trust.NONE));
        assertThat(lines).anyMatch(line -> line.length() > 80);
        assertThat(lines.stream()
                        .flatMap(line -> LineBreaks.fit(line, 80).stream())
                        .filter(line -> line.length() > 80))
                .isEmpty();
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output.lines().skip(1)).containsAll(lines.subList(1, lines.size()));
    }
}
