package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileSystem;
import java.nio.file.FileSystems;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.TimeZone;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import java.util.zip.ZipOutputStream;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** Packs as one file and back, and archives that mean harm. */
class PackArchiveTest {

    @TempDir
    private Path folder;

    private Path pack = Path.of("");
    private Path zip = Path.of("");
    private Path into = Path.of("");

    @BeforeEach
    void aPack() throws IOException {
        pack = Files.createDirectories(folder.resolve("run-1"));
        Files.createDirectory(pack.resolve("traces"));
        Files.writeString(pack.resolve("record.json"), "{}");
        Files.writeString(pack.resolve("traces/größe.csv"), "time [s]\n0\n");
        Manifest.write(pack);
        zip = folder.resolve("a.zip");
        into = folder.resolve("in");
    }

    private static Map<String, String> files(Path root) throws IOException {
        Map<String, String> files = new TreeMap<>();
        try (Stream<Path> all = Files.walk(root)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                files.put(root.relativize(file).toString(), Sha256.of(file));
            }
        }
        return files;
    }

    /** An archive with these entries, after those of a good pack; the writer of Java refuses only equal names. */
    private void hostile(Map<String, byte[]> more) throws IOException {
        try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(zip), StandardCharsets.UTF_8)) {
            Map<String, byte[]> all = new LinkedHashMap<>();
            try (Stream<Path> walk = Files.walk(pack)) {
                for (Path file : walk.filter(Files::isRegularFile).sorted().toList()) {
                    all.put("run-1/" + pack.relativize(file).toString().replace('\\', '/'), Files.readAllBytes(file));
                }
            }
            all.putAll(more);
            for (Map.Entry<String, byte[]> entry : all.entrySet()) {
                out.putNextEntry(new ZipEntry(entry.getKey()));
                out.write(entry.getValue());
                out.closeEntry();
            }
        }
    }

    /** Replaces bytes of the same length wherever they stand in the archive. */
    private void patch(String from, String to) throws IOException {
        String text = Files.readString(zip, StandardCharsets.ISO_8859_1);
        assertThat(text).contains(from);
        Files.writeString(zip, text.replace(from, to), StandardCharsets.ISO_8859_1);
    }

    private void refused(String why) throws IOException {
        assertThatThrownBy(() -> ArchiveImport.read(zip, into))
                .isInstanceOf(EvidenceLostException.class)
                .hasMessageContaining(why);
        assertThat(into).doesNotExist();
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactlyInAnyOrder(pack, zip);
        }
    }

    @Test
    void thePackComesBackByteForByte() throws IOException {
        PackArchive.write(pack, zip);
        Path back = ArchiveImport.read(zip, into);
        assertThat(back).isEqualTo(into.resolve("run-1"));
        assertThat(files(back)).isEqualTo(files(pack)).hasSize(3);
        try (Stream<Path> left = Files.list(into)) {
            assertThat(left).containsExactly(back);
        }
    }

    @Test
    void theSamePackGivesTheSameBytesInEveryZone() throws IOException {
        PackArchive.write(pack, zip);
        TimeZone before = TimeZone.getDefault();
        try {
            TimeZone.setDefault(TimeZone.getTimeZone("Asia/Tokyo"));
            PackArchive.write(pack, folder.resolve("b.zip"));
        } finally {
            TimeZone.setDefault(before);
        }
        assertThat(folder.resolve("b.zip")).hasSameBinaryContentAs(zip);
    }

    @Test
    void theZipFileSystemOfJavaReadsIt() throws IOException {
        PackArchive.write(pack, zip);
        try (FileSystem other = FileSystems.newFileSystem(zip)) {
            assertThat(Files.readString(other.getPath("run-1/traces/größe.csv")))
                    .isEqualTo("time [s]\n0\n");
        }
        try (ZipFile file = new ZipFile(zip.toFile())) {
            assertThat(file.stream().map(ZipEntry::getName))
                    .containsExactly("run-1/manifest.json", "run-1/record.json", "run-1/traces/größe.csv");
        }
    }

    @Test
    void aPackThatDoesNotVerifyIsNotArchived() throws IOException {
        Files.writeString(pack.resolve("record.json"), "{ }");
        assertThatThrownBy(() -> PackArchive.write(pack, zip)).hasMessageContaining("ALTERED record.json");
        assertThat(zip).doesNotExist();
    }

    @Test
    void aPackThatIsThereIsNotReplaced() throws IOException {
        PackArchive.write(pack, zip);
        assertThatThrownBy(() -> ArchiveImport.read(zip, folder)).hasMessageContaining("already there");
        assertThat(files(pack)).hasSize(3);
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "run-1/../../out.txt",
                "../out.txt",
                "/etc/out.txt",
                "C:/out.txt",
                "run-1/C:out.txt",
                "run-1\\out.txt",
                "run-1/..\\..\\out.txt",
                "run-1/./out.txt",
                "run-1//out.txt",
                "out.txt",
                "other/out.txt",
                "run-1/nul.txt",
                "run-1/record.json.",
                "run-1/line\nfeed",
                "run-1/RECORD.json",
                "run-1/Traces/other.csv",
                "run-1/record.json/below",
                "run-1/../",
                "run-1/traces/gro\u0308ße.csv"
            })
    void namesThatPlayTricksAreRefused(String name) throws IOException {
        hostile(Map.of(name, name.endsWith("/") ? new byte[0] : new byte[] {1}));
        refused("is refused");
    }

    @Test
    void equalNamesAreRefused() throws IOException {
        hostile(Map.of("run-1/recorx.json", new byte[] {1}));
        patch("run-1/recorx.json", "run-1/record.json");
        refused("is refused");
    }

    @Test
    void aLinkIsRefused() throws IOException {
        hostile(Map.of());
        byte[] bytes = Files.readAllBytes(zip);
        for (int i = 0; i + 46 < bytes.length; i++) {
            if (bytes[i] == 'P' && bytes[i + 1] == 'K' && bytes[i + 2] == 1 && bytes[i + 3] == 2) {
                // Made on Unix, mode 0120777: a symbolic link.
                bytes[i + 5] = 3;
                bytes[i + 40] = (byte) 0xFF;
                bytes[i + 41] = (byte) 0xA1;
                break;
            }
        }
        Files.write(zip, bytes);
        refused("a link or a device");
    }

    @Test
    void whatUnpacksToFarMoreThanItsSizeIsRefused() throws IOException {
        hostile(Map.of("run-1/zeros", new byte[64 << 20]));
        refused("200 times its own size");
    }

    @Test
    void tooManyFilesAndTooManyBytesAreRefused() throws IOException {
        PackArchive.write(pack, zip);
        assertThatThrownBy(() -> ArchiveImport.read(zip, into, new ArchiveImport.Limits(2, 1000, 200)))
                .hasMessageContaining("3 files, 2 are allowed");
        assertThatThrownBy(() -> ArchiveImport.read(zip, into, new ArchiveImport.Limits(9, 10, 200)))
                .hasMessageContaining("more than 10 bytes");
        assertThat(into).doesNotExist();
    }

    @Test
    void aFileThatTheManifestDoesNotKnowIsRefused() throws IOException {
        hostile(Map.of("run-1/added.txt", new byte[] {1}));
        refused("ADDED added.txt");
    }

    @Test
    void whatIsNoArchiveIsRefused() throws IOException {
        try (OutputStream out = Files.newOutputStream(zip)) {
            out.write(new byte[100]);
        }
        refused("no archive that can be read");
        Files.write(zip, List.of());
        refused("no archive that can be read");
    }
}
