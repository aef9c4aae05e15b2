package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.List;
import java.util.Optional;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.LedgerEntry;
import org.axtrial.evidence.PunchClass;
import org.axtrial.evidence.RunRecord;
import org.axtrial.signing.PackSigner;
import org.axtrial.signing.Role;
import org.axtrial.signing.SignedLedger;
import org.axtrial.signing.SigningKey;
import org.axtrial.signing.Trust;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** Signatures over what came after the run. */
@Timeout(120)
class SignedLedgerTest {

    private static final String SECOND = "signatures/02-customer.json";

    @TempDir
    private Path folder;

    private SignedPackBench bench;
    private Path customer;

    @BeforeEach
    void aPackThatTheTesterSigned() throws IOException {
        bench = new SignedPackBench(folder);
        customer = bench.key("C. Example", "p256");
        assertThat(bench.sign(bench.key("R. Example", "p256"), "tester")).isZero();
    }

    private Path ledger() {
        return bench.pack.resolve(Ledger.NAME);
    }

    private List<String> lines() throws IOException {
        return Files.readAllLines(ledger());
    }

    private void keep(List<String> lines) throws IOException {
        Files.writeString(ledger(), String.join("\n", lines) + "\n");
    }

    private int state() {
        return bench.axtrial("state", bench.pack.toString());
    }

    /** One item that bars nothing and one that bars acceptance, both under the signature of the customer. */
    private void signedWithTwoItems() {
        assertThat(bench.punch("Label the cabinet", "C")).as(bench.output).isZero();
        assertThat(bench.punch("Guard is missing", "A")).isZero();
        assertThat(bench.sign(customer, "customer")).as(bench.output).isZero();
    }

    @Test
    void aLaterSignatureStandsForTheLedgerAndAnEarlierOneStaysAsItWas() throws IOException {
        signedWithTwoItems();
        JsonMapper json = JsonMapper.shared();
        JsonNode first = json.readTree(Files.readAllBytes(bench.pack.resolve("signatures/01-tester.json")));
        assertThat(first.has("ledger")).isFalse();
        JsonNode signed =
                json.readTree(Files.readAllBytes(bench.pack.resolve(SECOND))).get("ledger");
        assertThat(signed.get("entries").asInt()).isEqualTo(2);
        assertThat(signed.get("acceptance").stringValue()).isEqualTo("NOT ACCEPTED");
        assertThat(bench.verify()).as(bench.output).isZero();
        assertThat(bench.output)
                .contains(
                        "2 entries added after the run, last hash",
                        "and for 2 entries added after the run: NOT ACCEPTED")
                .doesNotContain("was added after signature");
    }

    @Test
    void whatIsAddedLaterIsToldAndBreaksNothing() {
        signedWithTwoItems();
        assertThat(bench.axtrial(
                        "punch",
                        bench.pack.toString(),
                        "--close",
                        "2",
                        "--evidence",
                        "photograph 9",
                        "--by",
                        "A. Sample"))
                .isZero();
        assertThat(bench.verify()).as(bench.output).isZero();
        assertThat(bench.output).contains("entry 3 was added after signature 2: PunchClosed by A. Sample");
        assertThat(state()).isZero();
        assertThat(bench.output)
                .startsWith("ACCEPTED WITH DEVIATIONS")
                .contains("after/ledger.jsonl: entry 3 was added after signature 2");
        // The same person signs again in the same role, because something came since; but not twice for the same.
        assertThat(bench.sign(customer, "customer")).as(bench.output).isZero();
        assertThat(bench.output).contains("and for 3 entries added after the run: ACCEPTED WITH DEVIATIONS");
        assertThat(bench.sign(customer, "customer")).isEqualTo(2);
        assertThat(bench.output).contains("has signed as customer", "nothing was added since");
    }

    /** Without the last entry the run would be ACCEPTED WITH DEVIATIONS, without both ACCEPTED. */
    @Test
    void anAcceptanceIsNotForgedByTakingSignedEntriesOut() throws IOException {
        signedWithTwoItems();
        List<String> all = lines();
        keep(all.subList(0, 1));
        broken("has fewer now: entries were taken out");
        Files.delete(ledger());
        broken("when signature 2 (customer, C. Example) was made");
        Files.delete(ledger().getParent());
        broken("when signature 2 (customer, C. Example) was made");
        Files.createDirectory(ledger().getParent());
        Files.writeString(ledger(), "");
        broken("has fewer now: entries were taken out");
        keep(all);
        assertThat(bench.verify()).as(bench.output).isZero();
        assertThat(state()).isEqualTo(1);
    }

    private void broken(String why) throws IOException {
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output).contains(Ledger.NAME, why);
        assertThat(state()).isEqualTo(5);
        assertThat(bench.output).contains("what was signed does not hold").doesNotContain("ACCEPTED");
        boolean there = Files.exists(ledger());
        String before = there ? Files.readString(ledger()) : "";
        assertThat(bench.punch("One more", "C")).isEqualTo(5);
        assertThat(Files.exists(ledger())).isEqualTo(there);
        if (there) {
            assertThat(ledger()).hasContent(before);
        }
        assertThat(bench.sign(bench.folder.resolve("RExample.p12"), "approver")).isEqualTo(5);
        assertThat(bench.axtrial("merge", "-o", bench.folder.resolve("merged").toString(), bench.pack.toString()))
                .isEqualTo(5);
        assertThat(bench.folder.resolve("merged")).doesNotExist();
    }

    /** The new chain holds in itself, so only the signature knows. */
    @Test
    void aLedgerThatWasWrittenAnewDoesNotStandUnderTheSignature() throws IOException {
        signedWithTwoItems();
        Files.delete(ledger());
        RunRecord record = RunRecord.read(bench.pack);
        Instant at = Instant.parse("2031-03-05T08:00:00Z");
        Ledger forged = Ledger.read(bench.pack, record);
        for (int number = 1; number <= 3; number++) {
            forged = forged.add(bench.pack, at, item(number));
        }
        broken("one of its first 2 entries was altered");
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output).contains("signature 2 says NOT ACCEPTED");
    }

    private static LedgerEntry item(int number) {
        return new LedgerEntry.PunchOpened(
                number, "Forged", PunchClass.C, "", Optional.empty(), Optional.empty(), Optional.empty(), "F. Example");
    }

    @Test
    void aSignatureThatTellsOfAnotherAcceptanceIsTold() throws Exception {
        assertThat(bench.punch("Guard is missing", "A")).isZero();
        PackVerification found = PackVerification.of(bench.pack, Trust.NONE);
        SigningKey key = SigningKey.load(
                customer, Files.readAllLines(bench.passwordFile).get(0).toCharArray(), Optional.empty());
        SignedLedger other = SignedLedger.of(bench.pack, Ledger.NAME, 1, "ACCEPTED");
        PackSigner.Order order = new PackSigner.Order(
                Role.CUSTOMER,
                "C. Example",
                "accepted",
                OffsetDateTime.parse(found.signatures().signatures().get(0).signedAt()));
        PackSigner.of(bench.pack, found.pack(), found.signatures(), Optional.of(other))
                .sign(order, key, Optional.empty());
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output).contains("comes to NOT ACCEPTED with its first 1 entry; signature 2 says ACCEPTED");
    }

    @Test
    void aReissuedReportStandsUnderTheSignatureByTheLedger() throws IOException {
        assertThat(bench.axtrial("reissue", bench.pack.toString(), "--reason", "name", "--by", "A. Sample"))
                .as(bench.output)
                .isZero();
        assertThat(bench.sign(customer, "customer")).isZero();
        Path page = bench.pack.resolve("after/report-revision-2.html");
        Files.writeString(page, Files.readString(page).replace("POS-01", "POS-02"));
        assertThat(bench.verify()).isEqualTo(5);
        assertThat(bench.output).contains("after/report-revision-2.html", "is not as it was issued");
    }

    /** The commands of docs/evidence.md for what was added after the run, as a third party would run them. */
    @Test
    void theCommandsOfTheDocumentHoldAndFindAChange() throws Exception {
        assertThat(bench.punch("Label the cabinet", "C")).isZero();
        assertThat(bench.axtrial("reissue", bench.pack.toString(), "--reason", "name", "--by", "A. Sample"))
                .isZero();
        assertThat(bench.sign(customer, "customer")).isZero();
        String commands = "set -e -o pipefail\n" + DocumentedCommands.after("What was added after the run, if the");
        assertThat(DocumentedCommands.run(bench.pack, commands))
                .contains("2 entries: ACCEPTED WITH DEVIATIONS", "after/report-revision-2.pdf: OK", "exit 0");
        // Entries that came later are no matter of this signature.
        assertThat(bench.punch("Oil the guide", "C")).isZero();
        assertThat(DocumentedCommands.run(bench.pack, commands)).contains("exit 0");
        List<String> all = lines();
        keep(all.subList(0, 1));
        assertThat(DocumentedCommands.run(bench.pack, commands)).doesNotContain("exit 0");
        keep(all);
        Files.writeString(ledger(), Files.readString(ledger()).replace("Label the cabinet", "Paint the cabinet"));
        assertThat(DocumentedCommands.run(bench.pack, commands)).doesNotContain("exit 0");
    }
}
