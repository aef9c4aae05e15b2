package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import java.util.stream.Stream;
import org.axtrial.evidence.Manifest;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

@Timeout(300)
class SigningCommandsTest {

    private static final String TESTER = "signatures/01-tester.json";

    @TempDir
    private Path folder;

    private SignedPackBench bench;

    @BeforeEach
    void writePack() throws IOException {
        bench = new SignedPackBench(folder);
    }

    private Path file(String name) {
        return bench.pack.resolve(name);
    }

    private void replace(String name, String what, String by) throws IOException {
        String text = Files.readString(file(name));
        assertThat(text).contains(what);
        Files.writeString(file(name), text.replace(what, by));
    }

    @Test
    void aPackAsWrittenVerifiesAndSaysThatNobodySigned() {
        assertThat(bench.verify()).as(bench.output).isZero();
        assertThat(bench.output).contains("Nobody has signed", "The pack verifies.");
    }

    @Test
    void anAlteredValueOfTheRecordIsNamedWithBothValues() throws IOException {
        replace("record.json", "1.00002", "1.00003");
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output)
                .contains(
                        "$.trials[0].attempts[0].checks[0].measured.value",
                        "POS-01 on T",
                        "the journal says 1.00002, the file says 1.00003")
                .contains("DOES NOT VERIFY");
    }

    @Test
    void anAlteredRecordIsFoundEvenIfTheManifestWasMadeToFit() throws IOException {
        replace("record.json", "1.00002", "1.00003");
        Manifest.write(bench.pack);
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output).contains("the file says 1.00003");
    }

    @Test
    void missingAddedAndAlteredFilesAndALinkAreNamed() throws IOException {
        Files.delete(file("junit.xml"));
        Files.writeString(file("added.txt"), "x");
        Files.writeString(file("site.yaml"), "job: { id: INVENTEE }\n");
        Files.createSymbolicLink(file("link.txt"), Path.of("/etc/hostname"));
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output)
                .contains("MISSING", "junit.xml", "ADDED", "added.txt", "ALTERED", "site.yaml", "link.txt", "a link");
    }

    @Test
    void aManifestThatReachesOutOfThePackIsRefused() throws IOException {
        replace("manifest.json", "\"site.yaml\"", "\"../../site.yaml\"");
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output).contains("../../site.yaml", "no name of a file in the pack");
    }

    @Test
    void aSizeThatNoRunWritesIsNotRead() throws IOException {
        try (var channel =
                java.nio.channels.FileChannel.open(file("journal.jsonl"), java.nio.file.StandardOpenOption.WRITE)) {
            channel.position(3L << 30);
            channel.write(java.nio.ByteBuffer.wrap(new byte[] {'\n'}));
        }
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output).contains("journal.jsonl", "more than any run writes");
    }

    /** 21 CFR 11.50 (a): printed name, date and time, meaning; 11.70: linked to the record. Source: text of the regulation. */
    @Test
    void aSignatureHasNameTimeMeaningAndIsLinkedToTheRecord() throws IOException {
        Path key = bench.key("R. Example", "p256");
        assertThat(bench.sign(key, "tester")).as(bench.output).isZero();

        JsonNode statement = JsonMapper.shared().readTree(Files.readAllBytes(file(TESTER)));
        assertThat(statement.get("name").stringValue()).isEqualTo("R. Example");
        assertThat(statement.get("meaning").stringValue()).isEqualTo(SignedPackBench.MEANING);
        assertThat(statement.get("signedAt").stringValue())
                .matches("\\d{4}-\\d{2}-\\d{2}T\\d{2}:\\d{2}:\\d{2}(Z|[+-]\\d{2}:\\d{2})");
        assertThat(statement.get("files").findValuesAsString("file")).containsExactly("manifest.json", "record.json");
        assertThat(bench.verify()).isZero();
        assertThat(bench.output)
                .contains("holds   R. Example, tester", SignedPackBench.MEANING, "self-made")
                .contains("Not signed as: witness, customer, approver.");
        assertThat(bench.verify("--trust", SignedPackBench.pem(key).toString())).isZero();
        assertThat(bench.output).contains("CN=R. Example, trusted");
        Path other = bench.key("Other", "p256");
        assertThat(bench.verify("--trust", SignedPackBench.pem(other).toString()))
                .isEqualTo(5);
        assertThat(bench.output).contains("none of the trusted ones vouches for");
    }

    @Test
    void aSignatureTakenOutOrMovedToAnotherPackDoesNotHold() throws IOException {
        Path tester = bench.key("R. Example", "p256");
        Path witness = bench.key("W. Example", "ed25519");
        assertThat(bench.sign(tester, "tester")).isZero();
        assertThat(bench.sign(witness, "witness")).as(bench.output).isZero();
        assertThat(bench.verify()).isZero();

        Path aside = folder.resolve("aside.json");
        Files.move(file(TESTER), aside);
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output).contains(TESTER, "was there when signature 2");
        Files.move(aside, file(TESTER));

        SignedPackBench second = new SignedPackBench(Files.createDirectory(folder.resolve("second")));
        replaceIn(second);
        Files.createDirectory(second.pack.resolve("signatures"));
        for (String name : List.of(TESTER, "signatures/01-tester.p7s")) {
            Files.copy(file(name), second.pack.resolve(name));
        }
        assertThat(second.verify()).isEqualTo(5);
        assertThat(second.output)
                .contains("manifest.json", "is not what signature 1 (tester, R. Example) was made for");
    }

    /** Another pack: one remark more in its folder. */
    private static void replaceIn(SignedPackBench other) throws IOException {
        Files.writeString(other.pack.resolve("remark.txt"), "other");
        Manifest.write(other.pack);
    }

    @Test
    void wrongUseIsRefusedAndLeavesThePackAsItWas() throws IOException {
        Path key = bench.key("R. Example", "p256");
        Path wrong = Files.writeString(folder.resolve("wrong"), "wrong horse\n");
        assertThat(bench.axtrial(
                        "sign",
                        bench.pack.toString(),
                        "--key",
                        key.toString(),
                        "--role",
                        "tester",
                        "--meaning",
                        "x",
                        "--password-file",
                        wrong.toString()))
                .isEqualTo(2);
        assertThat(bench.output).contains("the password does not open");
        assertThat(bench.sign(bench.passwordFile, "tester")).isEqualTo(2);
        assertThat(bench.output).contains("is no PKCS#12 key file");
        assertThat(bench.sign(folder.resolve("none.p12"), "tester")).isEqualTo(2);
        assertThat(bench.output).contains("there is no key file");
        assertThat(bench.sign(key, "president")).isEqualTo(2);
        assertThat(bench.output).contains("tester, witness, customer, approver");
        assertThat(bench.axtrial(
                        "sign", bench.pack.toString(), "--key", key.toString(), "--role", "tester", "--meaning", "x"))
                .isEqualTo(2);
        assertThat(bench.output).contains("--password-file");
        assertThat(bench.axtrial("verify", bench.pack.toString(), bench.pack.toString()))
                .isEqualTo(2);
        assertThat(bench.axtrial("verify", folder.toString())).isEqualTo(2);
        assertThat(bench.output).contains("holds no journal.jsonl");
        assertThat(bench.axtrial("verify", folder.resolve("nothing").toString()))
                .isEqualTo(2);
        assertThat(file("signatures")).doesNotExist();

        assertThat(bench.sign(key, "tester")).isZero();
        assertThat(bench.sign(key, "tester")).isEqualTo(2);
        assertThat(bench.output).contains("has signed as tester");
        assertThat(bench.axtrial("report", bench.pack.toString())).isEqualTo(2);
        assertThat(bench.output).contains("is signed");
        replace("record.json", "1.00002", "1.00003");
        assertThat(bench.sign(key, "approver")).isEqualTo(5);
        assertThat(bench.output).contains("is not signed");
        assertThat(bench.verify()).isEqualTo(5);
    }

    @Test
    void theSheetIsWrittenOutsideOfThePackOnly() throws IOException {
        Path sheet = folder.resolve("sheet.html");
        assertThat(bench.verify("--out", sheet.toString())).isZero();
        assertThat(sheet).content().contains("<!DOCTYPE html>", "The pack verifies.");
        assertThat(bench.verify("--out", file("sheet.html").toString())).isEqualTo(2);
    }

    /**
     * Every file of a small signed pack in turn, with signatures, printed reports and what came after the run, an entry
     * under no signature among it; and a value for every change in the record.
     */
    @Test
    void aThousandChangedBytesAreAllFoundAndTheirFileNamed() throws IOException {
        assertThat(bench.sign(bench.key("R. Example", "p256"), "tester")).isZero();
        assertThat(bench.punch("Label the cabinet", "C")).isZero();
        assertThat(bench.axtrial("reissue", bench.pack.toString(), "--reason", "item added", "--by", "A. Sample"))
                .isZero();
        assertThat(bench.sign(bench.key("W. Example", "ed25519"), "witness")).isZero();
        assertThat(bench.punch("Oil the guide", "C")).isZero();
        assertThat(bench.verify()).as(bench.output).isZero();
        List<Path> files;
        try (Stream<Path> all = Files.walk(bench.pack)) {
            files = all.filter(Files::isRegularFile).sorted().toList();
        }
        assertThat(files)
                .extracting(path -> bench.pack.relativize(path).toString())
                .contains(
                        "record.json",
                        "journal.jsonl",
                        "manifest.json",
                        "junit.xml",
                        "report.html",
                        "report.pdf",
                        "signatures/01-tester.json",
                        "signatures/01-tester.p7s",
                        "signatures/02-witness.json",
                        "signatures/02-witness.p7s",
                        "signatures/report-signed.pdf",
                        "after/ledger.jsonl",
                        "after/report-revision-2.html",
                        "after/report-revision-2.pdf");
        Random random = new Random(20260101);
        List<String> missed = new ArrayList<>();
        for (int i = 0; i < 1000; i++) {
            Path file = files.get(i % files.size());
            String name = bench.pack.relativize(file).toString();
            byte[] before = Files.readAllBytes(file);
            byte[] after = before.clone();
            int at = random.nextInt(after.length);
            after[at] ^= (byte) (1 + random.nextInt(255));
            Files.write(file, after);
            PackVerification found = PackVerification.of(bench.pack, org.axtrial.signing.Trust.NONE);
            boolean named = found.problems().stream().anyMatch(p -> p.file().equals(name));
            boolean value = !name.equals("record.json")
                    || found.problems().stream()
                            .anyMatch(p -> p.file().equals(name) && p.detail().startsWith("$"));
            if (found.verifies() || !named || !value) {
                missed.add(name + " byte " + at + " " + before[at] + " -> " + after[at] + ": " + found.problems());
            }
            Files.write(file, before);
        }
        assertThat(missed).isEmpty();
        assertThat(bench.verify()).isZero();
    }

    /** The commands of docs/evidence.md, as a third party would run them. */
    @Test
    void theCommandsOfTheDocumentHoldAndFindAChange() throws Exception {
        Path key = bench.key("R. Example", "p256");
        assertThat(bench.sign(key, "tester")).isZero();
        Files.copy(SignedPackBench.pem(key), folder.resolve("signer.pem"));
        String commands = "set -e\n"
                + DocumentedCommands.after("### Checking signatures without this program")
                        .replace("signer.pem", folder.resolve("signer.pem").toString());
        String good = DocumentedCommands.run(bench.pack, commands);
        assertThat(good).contains("CMS Verification successful", "R. Example, tester", "record.json: OK", "exit 0");
        replace(TESTER, "the record is true", "the record is good");
        assertThat(DocumentedCommands.run(bench.pack, commands))
                .contains("erification failure")
                .doesNotContain("exit 0");
    }
}
