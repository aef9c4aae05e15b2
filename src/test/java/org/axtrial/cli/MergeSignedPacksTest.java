package org.axtrial.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Map;
import java.util.stream.Stream;
import org.axtrial.evidence.RunRecord;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

/** Signed packs put together: nothing of a signature is lost, and nothing of one is taken for another. */
@Timeout(300)
class MergeSignedPacksTest {

    private static final String FAILS = """
            const rest = axis.dwell(0.1, 's');
            t.check('Impossible', rest.drift(), nominal(1, 'rev').plusMinus(0.1, 'rev'));""";

    private static final String PASSES = """
            const rest = axis.dwell(0.1, 's');
            t.check('Drift', rest.drift(), atMost(0.1, 'rev'));""";

    @TempDir
    private Path folder;

    private CommandBench bench;
    private Path password;

    @BeforeEach
    void start() throws Exception {
        bench = CommandBench.start(folder);
        password = Files.writeString(folder.resolve("password"), "correct horse\n");
    }

    @AfterEach
    void end() throws Exception {
        bench.close();
    }

    private String at(String name) {
        return folder.resolve(name).toString();
    }

    /** Makes a key for a person whose role it is named after; the certificate lies beside it. */
    private void key(String role) {
        assertThat(bench.command(
                        "keygen",
                        "--name",
                        role + " Example",
                        "--out",
                        at(role + ".p12"),
                        "--password-file",
                        password.toString()))
                .as(bench.errors)
                .isZero();
    }

    private void sign(Path pack, String... roles) {
        for (String role : roles) {
            assertThat(bench.command(
                            "sign",
                            pack.toString(),
                            "--key",
                            at(role + ".p12"),
                            "--role",
                            role,
                            "--meaning",
                            "seen and agreed",
                            "--password-file",
                            password.toString()))
                    .as(bench.errors)
                    .isZero();
        }
    }

    private void agree(Path pack) {
        assertThat(bench.command(
                        "deviation",
                        pack.toString(),
                        "--trial",
                        "T-1",
                        "--reason",
                        "by letter",
                        "--agreed-by",
                        "C. Sample"))
                .isZero();
    }

    private int merge(String to, Path... packs) {
        return bench.command(
                Stream.concat(Stream.of("merge", "-o", at(to)), Stream.of(packs).map(Path::toString))
                        .toArray(String[]::new));
    }

    private Path copyOf(Path pack, String name) throws IOException {
        CommandBench.copy(pack, folder.resolve(name));
        return folder.resolve(name);
    }

    private static String idOf(Path pack) {
        return RunRecord.read(pack).stamps().runId();
    }

    private Path trusted(String... roles) throws IOException {
        StringBuilder pem = new StringBuilder();
        for (String role : roles) {
            pem.append(Files.readString(folder.resolve(role + ".pem")));
        }
        return Files.writeString(folder.resolve("trusted.pem"), pem);
    }

    @Test
    void everySignatureVerifiesInsideInEitherOrderOfTheSources() throws Exception {
        key("tester");
        key("customer");
        Path a = bench.runAs("a", FAILS, 1);
        Path b = bench.runAs("b", PASSES, 0);
        sign(a, "tester");
        agree(a);
        sign(a, "customer");
        sign(b, "customer", "tester");
        assertThat(merge("ab", a, b)).as(bench.errors).isZero();
        assertThat(merge("ba", b, a)).isZero();
        assertThat(merge("ab-b", folder.resolve("ab"), b)).isZero();
        Map<String, String> ab = CommandBench.files(folder.resolve("ab"));
        assertThat(CommandBench.files(folder.resolve("ba"))).isEqualTo(ab);
        assertThat(CommandBench.files(folder.resolve("ab-b"))).isEqualTo(ab);
        for (Path source : List.of(a, b)) {
            CommandBench.files(source)
                    .forEach(
                            (name, hash) -> assertThat(ab).containsEntry("sources/" + idOf(source) + "/" + name, hash));
        }
        assertThat(bench.command(
                        "verify",
                        at("ab"),
                        "--trust",
                        trusted("tester", "customer").toString()))
                .as(bench.output)
                .isZero();
        assertThat(bench.output.split("  holds   ", -1)).hasSize(1 + 4);
        assertThat(bench.output)
                .contains("1  holds   tester Example, tester", "2  holds   customer Example, customer")
                .contains("1  holds   customer Example, customer", "2  holds   tester Example, tester")
                .contains("and for 1 entry added after the run: ACCEPTED WITH DEVIATIONS");
        // Of whom only one is trusted, both packs have a signature of somebody else.
        assertThat(bench.command(
                        "verify", at("ab"), "--trust", trusted("tester").toString()))
                .isEqualTo(5);
        assertThat(bench.output).contains("sources/" + idOf(a) + ": does not verify", "sources/" + idOf(b));
        // A third party finds the pack inside as it was alone.
        String commands = "set -e\n"
                + DocumentedCommands.after("### Checking signatures without this program")
                        .replace("signer.pem", at("tester.pem"));
        assertThat(DocumentedCommands.run(folder.resolve("ab/sources").resolve(idOf(a)), commands))
                .contains("CMS Verification successful", "tester Example, tester", "exit 0");
    }

    @Test
    void aSignatureTakenOutOfAMergedFolderIsFound() throws Exception {
        key("tester");
        Path a = bench.runAs("a", PASSES, 0);
        sign(a, "tester");
        assertThat(merge("m", a)).isZero();
        Path inside = folder.resolve("m/sources").resolve(idOf(a));
        for (String name : List.of("01-tester.json", "01-tester.p7s", "report-signed.pdf")) {
            Files.delete(inside.resolve("signatures").resolve(name));
        }
        assertThat(bench.command("verify", at("m"))).isEqualTo(5);
        assertThat(bench.output).contains("sources/" + idOf(a) + "/signatures/01-tester.json", "MISSING");
    }

    /** Two copies of one run that differ in who signed, in which order, or in what was agreed: nobody guesses which counts. */
    @Test
    void copiesOfOneRunThatDifferAreRefusedInEitherOrder() throws Exception {
        key("tester");
        key("witness");
        Path a = bench.runAs("a", FAILS, 1);
        Path signed = copyOf(a, "signed");
        sign(signed, "tester", "witness");
        Path otherOrder = copyOf(a, "other-order");
        sign(otherOrder, "witness", "tester");
        Path agreed = copyOf(signed, "agreed");
        agree(agreed);
        refused(a, signed, "signatures/01-tester.json");
        refused(signed, otherOrder, "signatures/01-witness.json");
        refused(signed, agreed, "after/ledger.jsonl");
        // Each alone, and each with itself, is taken.
        assertThat(merge("twice", signed, copyOf(signed, "again")))
                .as(bench.errors)
                .isZero();
        assertThat(bench.command("verify", at("twice"))).isZero();
        assertThat(bench.output.split("  holds   ", -1)).hasSize(1 + 2);
    }

    private void refused(Path one, Path other, String file) {
        for (List<Path> order : List.of(List.of(one, other), List.of(other, one))) {
            assertThat(merge("m", order.toArray(Path[]::new))).isEqualTo(5);
            assertThat(bench.errors)
                    .contains("are both run " + idOf(one) + " and differ in ", file, "merge that one alone");
            assertThat(folder.resolve("m")).doesNotExist();
        }
    }

    /** What was agreed to for one run says nothing of a later one. */
    @Test
    void aDeviationCountsOnlyInTheRunThatDecides() throws Exception {
        key("customer");
        Path a = bench.runAs("a", FAILS, 1);
        Path b = bench.runAs("b", FAILS, 1);
        Path first = copyOf(a, "first");
        for (Path agreed : List.of(first, copyOf(b, "second"))) {
            agree(agreed);
            sign(agreed, "customer");
        }
        assertThat(merge("earlier", first, b)).isZero();
        assertThat(bench.output).startsWith("NOT ACCEPTED");
        assertThat(merge("earlier-turned", b, first)).isZero();
        assertThat(bench.output).startsWith("NOT ACCEPTED");
        assertThat(CommandBench.files(folder.resolve("earlier-turned")))
                .isEqualTo(CommandBench.files(folder.resolve("earlier")));
        assertThat(merge("later", a, folder.resolve("second"))).isZero();
        assertThat(bench.output).startsWith("ACCEPTED WITH DEVIATIONS");
    }
}
