package org.axtrial.engine;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.MessageDigest;
import java.util.HexFormat;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import org.axtrial.script.People;
import org.axtrial.script.Readings;
import org.axtrial.site.How;
import org.axtrial.site.Site;
import org.axtrial.site.SiteFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * A rehearsal comes to the same result to the bit, however often, on every Java and on every machine: all steps, checks,
 * uncertainties, and by their hashes all samples. The digest is committed; after an intended change of the simulation, of
 * a measurement or of the scripts {@code -Dsame.write=true} writes it anew.
 */
@Timeout(120)
class SameEverywhereTest {

    private static final Path SITE = Path.of("test-scripts/acceptance/site.yaml");
    private static final Path DIGEST = Path.of("src/test/resources/org/axtrial/engine/rehearsal.sha256");

    /** A trial of every kind; all of them would take minutes. */
    private static final List<Path> SCRIPTS = Stream.of(
                    "before-motion/inputs.js",
                    "reference/enable.js",
                    "reference/creep.js",
                    "reference/hardware-limits.js",
                    "positioning/lost-motion.js",
                    "dynamic/settling.js",
                    "dynamic/speed-step.js",
                    "stops/link-loss.js",
                    "stops/emergency-stop.js",
                    "endurance/friction.js")
            .map(SITE.resolveSibling("")::resolve)
            .toList();

    @TempDir
    Path folder;

    private String digest(String run) throws Exception {
        Site site = SiteFile.load(SITE);
        Path reports = folder.resolve(run);
        try (SiteSession session = SiteSession.open(
                site,
                How.REHEARSAL,
                SiteSession.scripts(site, SCRIPTS),
                reports,
                "nobody",
                new SiteSession.Answering(Readings.NONE, People.REHEARSED, Retests.NONE, Optional.empty()))) {
            assertThat(AcceptanceRun.of(session.session()).problems()).isEmpty();
            session.pack().finish();
        }
        try (Stream<Path> packs = Files.list(reports)) {
            Path record = packs.findFirst().orElseThrow().resolve("record.json");
            JsonNode trials =
                    new JsonMapper().readTree(Files.readAllBytes(record)).path("trials");
            assertThat(trials.size()).isPositive();
            byte[] hash = MessageDigest.getInstance("SHA-256")
                    .digest(trials.toString().getBytes(StandardCharsets.UTF_8));
            return HexFormat.of().formatHex(hash);
        }
    }

    @Test
    void twoRehearsalsAreEqualToTheBitAndEqualToTheCommittedOne() throws Exception {
        String first = digest("first");
        assertThat(digest("second")).isEqualTo(first);
        if (Boolean.getBoolean("same.write")) {
            Files.createDirectories(DIGEST.getParent());
            Files.writeString(DIGEST, first + "\n");
            return;
        }
        assertThat(first).isEqualTo(Files.readString(DIGEST).strip());
    }
}
