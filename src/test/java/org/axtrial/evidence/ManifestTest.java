package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.groups.Tuple.tuple;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.axtrial.evidence.Manifest.Difference.Kind;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(60)
class ManifestTest {

    @TempDir
    private Path reports;

    private Path folder;

    @BeforeEach
    void writePack() {
        EvidencePack pack = EvidencePack.create(reports, SampleRun.RUN_ID, List.of());
        SampleRun.small().forEach(pack::accept);
        pack.finish();
        folder = pack.folder();
        Manifest.write(folder);
    }

    @Test
    void untouchedPackDiffersInNothing() {
        assertThat(Manifest.verify(folder)).isEmpty();
    }

    @Test
    void writingTwiceGivesTheSameBytes() throws IOException {
        byte[] first = Files.readAllBytes(folder.resolve("manifest.json"));
        Manifest.write(folder);
        assertThat(Files.readAllBytes(folder.resolve("manifest.json"))).isEqualTo(first);
    }

    @Test
    void everyFileIsListedWithItsHash() throws IOException {
        String manifest = Files.readString(folder.resolve("manifest.json"));
        assertThat(manifest)
                .contains(
                        "journal.jsonl",
                        "record.json",
                        "junit.xml",
                        "traces/",
                        Sha256.of(folder.resolve("record.json")))
                .doesNotContain("\"manifest.json\"");
    }

    @Test
    void missingAddedAndAlteredFilesAreNamed() throws IOException {
        Files.delete(folder.resolve("junit.xml"));
        Files.writeString(folder.resolve("new.txt"), "x");
        Path record = folder.resolve("record.json");
        Files.writeString(record, Files.readString(record).replace("PASS", "FAIL"));
        Files.createDirectory(folder.resolve("signatures"));
        Files.writeString(folder.resolve("signatures/one.jws"), "later");
        assertThat(Manifest.verify(folder))
                .extracting(Manifest.Difference::file, Manifest.Difference::kind)
                .containsExactly(
                        tuple("junit.xml", Kind.MISSING),
                        tuple("new.txt", Kind.ADDED),
                        tuple("record.json", Kind.ALTERED));
    }

    @Test
    void missingOrDamagedManifestIsAnError() throws IOException {
        Files.writeString(folder.resolve("manifest.json"), "{");
        assertThatThrownBy(() -> Manifest.verify(folder)).isInstanceOf(EvidenceLostException.class);
        Files.delete(folder.resolve("manifest.json"));
        assertThatThrownBy(() -> Manifest.verify(folder))
                .isInstanceOf(EvidenceLostException.class)
                .hasMessageContaining("manifest.json");
    }
}
