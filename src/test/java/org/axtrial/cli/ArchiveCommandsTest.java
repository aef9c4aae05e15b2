package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Map;
import java.util.TreeMap;
import java.util.stream.Stream;
import java.util.zip.CRC32;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.axtrial.evidence.Sha256;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** The commands archive, import, export, and verify of an archive. Layout of ZIP files: APPNOTE.TXT 6.3 of PKWARE, 4.3. */
@Timeout(120)
class ArchiveCommandsTest {

    private static final int CENTRAL_HEADER = 0x02014b50;

    @TempDir
    private Path folder;

    private Path pack = Path.of("");
    private Path zip = Path.of("");
    private Path into = Path.of("");

    @BeforeEach
    void aPack() {
        pack = new TrendPacks(folder.resolve("packs")).day(0, 1.0);
        zip = folder.resolve("a.zip");
        into = folder.resolve("in");
    }

    private static Called call(Object... words) {
        return Called.with(Arrays.stream(words).map(String::valueOf).toArray(String[]::new));
    }

    private void archive() {
        Called called = call("archive", pack, "--out", zip);
        assertThat(called.code()).as(called.err()).isZero();
    }

    private static Map<String, String> files(Path root) throws IOException {
        Map<String, String> files = new TreeMap<>();
        try (Stream<Path> all = Files.walk(root)) {
            for (Path file : all.filter(Files::isRegularFile).toList()) {
                files.put(root.relativize(file).toString().replace('\\', '/'), Sha256.of(file));
            }
        }
        return files;
    }

    /** An archive of the pack with one more entry, as a stranger could have made it. */
    private void hostile(String name, byte[] bytes) throws IOException {
        try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(zip), StandardCharsets.UTF_8)) {
            for (String file : files(pack).keySet()) {
                out.putNextEntry(new ZipEntry("day-00/" + file));
                out.write(Files.readAllBytes(pack.resolve(file)));
                out.closeEntry();
            }
            out.putNextEntry(new ZipEntry(name));
            out.write(bytes);
            out.closeEntry();
        }
    }

    /** Import and verify refuse it with the same reason, and nothing is left of it. */
    private void refused(String why) throws IOException {
        for (Called called : new Called[] {call("import", zip, "--into", into), call("verify", zip)}) {
            assertThat(called.code()).as(called.out()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
            assertThat(called.err()).contains(zip.toString(), why);
            assertThat(called.out()).isEmpty();
        }
        nothingLeft();
    }

    private void nothingLeft() throws IOException {
        assertThat(into).doesNotExist();
        try (Stream<Path> left = Files.list(folder)) {
            assertThat(left).containsExactlyInAnyOrder(folder.resolve("packs"), zip);
        }
    }

    @Test
    void aPackGoesIntoOneFileAndComesBack() throws IOException {
        Map<String, String> before = files(pack);
        Called archived = call("archive", pack);
        Path beside = pack.resolveSibling("day-00.zip");
        assertThat(archived).isEqualTo(new Called(0, "Archive: " + beside.toAbsolutePath() + "\n", ""));
        Called imported = call("import", beside, "--into", into);
        assertThat(imported).isEqualTo(new Called(0, "Pack: " + into.resolve("day-00") + "\n", ""));
        assertThat(files(into.resolve("day-00"))).isEqualTo(before).isEqualTo(files(pack));
        assertThat(call("verify", into.resolve("day-00")).code()).isZero();
    }

    @Test
    void whatIsThereAlreadyIsNotReplaced() throws IOException {
        archive();
        byte[] bytes = Files.readAllBytes(zip);
        Called again = call("archive", pack, "--out", zip);
        assertThat(again.code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(again.err()).contains("is already there; name another file with --out");
        assertThat(zip).hasBinaryContent(bytes);

        Files.createDirectories(into.resolve("day-00"));
        Files.writeString(into.resolve("day-00/mine.txt"), "mine");
        Called imported = call("import", zip, "--into", into);
        assertThat(imported.code()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        assertThat(imported.err()).contains("is already there; nothing was imported");
        assertThat(files(into)).containsOnlyKeys("day-00/mine.txt");
    }

    @Test
    void whatCannotBeArchivedIsRefused() throws IOException {
        Called inside = call("archive", pack, "--out", pack.resolve("a.zip"));
        assertThat(inside.code()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        assertThat(inside.err()).contains("lies inside the pack, which would no longer verify");
        Called none = call("archive", folder.resolve("none"));
        assertThat(none.code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(none.err()).contains("there is no folder");
        Files.writeString(pack.resolve("site.yaml"), "altered");
        Called altered = call("archive", pack, "--out", zip);
        assertThat(altered.code()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        assertThat(altered.err()).contains("ALTERED site.yaml", "nothing was archived");
        Files.delete(pack.resolve("record.json"));
        Called unfinished = call("archive", pack, "--out", zip);
        assertThat(unfinished.code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(unfinished.err()).contains("finish it first: axtrial report");
        assertThat(zip).doesNotExist();
        assertThat(pack.resolve("a.zip")).doesNotExist();
    }

    @ParameterizedTest
    @CsvSource({
        "day-00/../../out.txt, holds \"..\"",
        "../out.txt, holds \"..\"",
        "/etc/out.txt, is absolute",
        "C:/out.txt, colon",
        "day-00/C:out.txt, colon",
        "day-00\\..\\out.txt, backslash",
        "other/out.txt, beside the folder",
        "out.txt, does not lie in the folder",
        "day-00/RECORD.json, the same on some file systems",
        "DAY-00/record.json, beside the folder",
        "day-00/nul, no plain file name",
    })
    void namesThatPlayTricksAreRefused(String name, String why) throws IOException {
        hostile(name, new byte[] {1});
        refused(why);
        assertThat(folder.resolveSibling("out.txt")).doesNotExist();
    }

    @Test
    void oneNameTwiceIsRefused() throws IOException {
        hostile("day-00/recorx.json", new byte[] {1});
        String text = Files.readString(zip, StandardCharsets.ISO_8859_1);
        Files.writeString(zip, text.replace("day-00/recorx.json", "day-00/record.json"), StandardCharsets.ISO_8859_1);
        refused("is refused: it meets");
    }

    @Test
    void aLinkIsRefused() throws IOException {
        archive();
        byte[] bytes = Files.readAllBytes(zip);
        int header = central(bytes);
        // 4.4.2 and 4.4.15: made on Unix, mode 0120777, a symbolic link.
        bytes[header + 5] = 3;
        bytes[header + 40] = (byte) 0xFF;
        bytes[header + 41] = (byte) 0xA1;
        Files.write(zip, bytes);
        refused("a link or a device");
    }

    private static int central(byte[] zip) {
        ByteBuffer all = ByteBuffer.wrap(zip).order(ByteOrder.LITTLE_ENDIAN);
        for (int at = 0; at + 4 <= zip.length; at++) {
            if (all.getInt(at) == CENTRAL_HEADER) {
                return at;
            }
        }
        throw new AssertionError("no central directory");
    }

    @Test
    void whatUnpacksToFarMoreThanItsSizeIsRefused() throws IOException {
        hostile("day-00/zeros", new byte[64 << 20]);
        refused("200 times its own size");
    }

    @Test
    void aSizeThatLiesInTheDirectoryHelpsNobody() throws IOException {
        hostile("day-00/zeros", new byte[64 << 20]);
        byte[] bytes = Files.readAllBytes(zip);
        ByteBuffer all = ByteBuffer.wrap(bytes).order(ByteOrder.LITTLE_ENDIAN);
        int changed = 0;
        for (int at = 0; at + 46 <= bytes.length; at++) {
            // 4.3.12: the uncompressed size stands 24 bytes after the signature.
            if (all.getInt(at) == CENTRAL_HEADER && all.getInt(at + 24) == 64 << 20) {
                all.putInt(at + 24, 10);
                changed++;
            }
        }
        assertThat(changed).isEqualTo(1);
        Files.write(zip, bytes);
        refused(zip.toString());
    }

    @Test
    void tooManyFilesAreRefused() throws IOException {
        Files.write(zip, emptyFiles(100_001));
        refused("100001 files, 100000 are allowed");
    }

    /** An archive of so many empty files, written by hand since a general writer would take too long over each. */
    private static byte[] emptyFiles(int number) throws IOException {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        try (ZipOutputStream zip = new ZipOutputStream(out)) {
            zip.setMethod(ZipOutputStream.STORED);
            for (int i = 0; i < number; i++) {
                ZipEntry entry = new ZipEntry("day-00/" + i);
                entry.setSize(0);
                entry.setCrc(new CRC32().getValue());
                zip.putNextEntry(entry);
                zip.closeEntry();
            }
        }
        return out.toByteArray();
    }

    @ParameterizedTest
    @ValueSource(doubles = {0, 0.001, 0.3, 0.6, 0.9, 0.999})
    void anArchiveThatWasCutOffIsRefused(double share) throws IOException {
        archive();
        byte[] bytes = Files.readAllBytes(zip);
        Files.write(zip, Arrays.copyOf(bytes, (int) (share * bytes.length)));
        refused("no archive that can be read");
    }

    @Test
    void aDamagedArchiveLeavesNothingBehind() throws IOException {
        archive();
        byte[] bytes = Files.readAllBytes(zip);
        // Near the end of the data of the last file, so that all before it has been unpacked by then.
        int at = central(bytes) - 40;
        bytes[at] ^= 0x55;
        Files.write(zip, bytes);
        Called imported = call("import", zip, "--into", into);
        assertThat(imported.code()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        nothingLeft();
        assertThat(call("verify", zip).code()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        nothingLeft();
    }

    @Test
    void aPlaceThatIsAFileIsLeftAsItIs() throws IOException {
        archive();
        Files.writeString(into, "mine");
        Called imported = call("import", zip, "--into", into);
        assertThat(imported.code()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        assertThat(imported.err()).contains(zip + " cannot be imported", into.toString());
        assertThat(into).hasContent("mine");
    }

    @Test
    void aPackThatWasAlteredInsideIsRefusedByImportAndExplainedByVerify() throws IOException {
        hostile("day-00/added.txt", new byte[] {1});
        Called imported = call("import", zip, "--into", into);
        assertThat(imported.code()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        assertThat(imported.err()).contains("ADDED added.txt", "nothing was imported");
        Called verified = call("verify", zip);
        assertThat(verified.code()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        assertThat(verified.out()).contains("Pack " + zip, "added.txt");
        nothingLeft();
    }

    @Test
    void verifyOfAnArchiveTellsWhatVerifyOfTheFolderTells() throws IOException {
        archive();
        Called ofFolder = call("verify", pack);
        Called ofArchive = call("verify", zip);
        assertThat(ofArchive.code()).isZero();
        assertThat(ofArchive.out()).isEqualTo(ofFolder.out().replace(pack.toString(), zip.toString()));
        nothingLeft();
        Path report = folder.resolve("found.html");
        assertThat(call("verify", zip, "--out", report).code()).isZero();
        assertThat(report).content().contains("Pack " + zip);
    }

    @Test
    void anArchiveWithoutAPackIsNoPack() throws IOException {
        try (ZipOutputStream out = new ZipOutputStream(Files.newOutputStream(zip))) {
            out.putNextEntry(new ZipEntry("letters/note.txt"));
            out.write('x');
            out.closeEntry();
        }
        Called verified = call("verify", zip);
        assertThat(verified.code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(verified.err()).contains("holds no evidence pack", "no journal.jsonl in its folder letters");
        Called imported = call("import", zip, "--into", into);
        assertThat(imported.code()).isEqualTo(ExitCode.EVIDENCE_BROKEN.code());
        nothingLeft();
    }

    @Test
    void whatIsNotThereIsRefused() {
        assertThat(call("import", folder.resolve("none.zip")).code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(call("import", folder.resolve("none.zip")).err()).contains("there is no such file");
        Called verified = call("verify", folder.resolve("none.zip"));
        assertThat(verified.code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(verified.err()).contains("there is no folder");
        assertThat(call("archive").code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(call("import").code()).isEqualTo(ExitCode.WRONG_USE.code());
    }

    @Test
    void theResultsAreGivenOutByTheLocale() throws IOException {
        Path csv = folder.resolve("r.csv");
        Called german = call("export", pack, "--csv", "--locale", "de-DE", "--out", csv);
        assertThat(german).isEqualTo(new Called(0, "Table: " + csv + "\n", ""));
        assertThat(csv)
                .content()
                .startsWith("\uFEFFrun;axis;")
                .contains(";deg;0,04;")
                .doesNotContain("0.04");
        Called english = call("export", pack, "--csv");
        assertThat(english.code()).isZero();
        assertThat(pack.resolveSibling("day-00.csv")).content().contains("run,axis,", ",deg,0.04,");
        Called events = call("export", pack, "--xml");
        assertThat(events.out()).startsWith("Events: ");
        assertThat(pack.resolveSibling("day-00.xml")).content().contains("WEAR-01");
        assertThat(call("verify", pack).code()).isZero();
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "                            | name one form to write: --csv or --xml",
                "--csv --xml                 | name one form to write: --csv or --xml",
                "--csv --locale zz-QQ        | --locale zz-QQ is not known",
                "--csv --out packs/day-00/x  | lies inside the pack",
                "--csv --out old.csv         | is already there; name another file with --out",
            })
    void aWrongExportIsRefused(String options, String why) throws IOException {
        Path old = Files.writeString(folder.resolve("old.csv"), "mine");
        String[] words = options == null
                ? new String[0]
                : options.replace("--out ", "--out " + folder + "/").split(" ", -1);
        Called called = Called.with(Stream.concat(Stream.of("export", pack.toString()), Arrays.stream(words))
                .toArray(String[]::new));
        assertThat(called.code()).isEqualTo(ExitCode.WRONG_USE.code());
        assertThat(called.err()).contains(why);
        assertThat(old).hasContent("mine");
        assertThat(call("verify", pack).code()).isZero();
    }
}
