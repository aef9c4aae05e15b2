package org.axtrial.signing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.Base64;
import java.util.List;
import java.util.Optional;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.PackCheck;
import org.axtrial.evidence.RunEvent;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.SampleRun;
import org.axtrial.peer.Peers;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;

@Timeout(120)
class PackSignerTest {

    private static final OffsetDateTime NOW = OffsetDateTime.parse("2031-06-01T10:00:00+02:00");

    @TempDir
    private Path folder;

    private Path pack;
    private Pki pki;

    @BeforeEach
    void writePack() throws Exception {
        pki = new Pki();
        pack = pack("whole", SampleRun.small(), false);
    }

    private Path pack(String name, List<RunEvent> events, boolean pdf) throws IOException {
        EvidencePack writer = EvidencePack.create(folder.resolve(name), SampleRun.RUN_ID, List.of());
        events.forEach(writer::accept);
        writer.finish();
        if (pdf) {
            try (PDDocument document = new PDDocument()) {
                document.addPage(new PDPage());
                document.save(writer.folder().resolve("report.pdf").toFile());
            }
        }
        Manifest.write(writer.folder());
        return writer.folder();
    }

    private SignatureCheck check(Trust trust) {
        return SignatureCheck.of(pack, Optional.of(RunRecord.read(pack)), trust);
    }

    private PackSigner.Done sign(SigningKey key, Role role, OffsetDateTime at, Optional<Timestamp.Authority> authority)
            throws SigningException {
        return PackSigner.of(pack, PackCheck.of(pack, "Axtrial 0.1.0"), check(Trust.NONE), Optional.empty())
                .sign(new PackSigner.Order(role, key.facts().name(), "seen and agreed", at), key, authority);
    }

    private Path pem(java.security.cert.X509Certificate certificate) throws Exception {
        String text = Base64.getMimeEncoder(64, new byte[] {'\n'}).encodeToString(certificate.getEncoded());
        return Files.writeString(
                folder.resolve("root.pem"), "-----BEGIN CERTIFICATE-----\n" + text + "\n-----END CERTIFICATE-----\n");
    }

    private String run(String... command) throws Exception {
        if (!Files.isExecutable(Path.of("/usr/bin", command[0]))) {
            Peers.absent(command[0] + " is needed to check signatures as a third party would; install it");
        }
        Process process = new ProcessBuilder(command)
                .directory(pack.toFile())
                .redirectErrorStream(true)
                .start();
        return new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8) + " exit "
                + process.waitFor();
    }

    @Test
    void aKeyOfAPkiIsTrustedByItsRootHereAndInOpenssl() throws Exception {
        sign(pki.key("C. Example"), Role.CUSTOMER, NOW, Optional.empty());
        Path root = pem(pki.root);

        SignatureCheck found = check(Trust.read(root));
        assertThat(found.problems()).isEmpty();
        assertThat(found.signatures().get(0).trust()).isEqualTo(Trust.Verdict.TRUSTED);
        assertThat(check(Trust.NONE).signatures().get(0).trust()).isEqualTo(Trust.Verdict.UNKNOWN_ISSUER);
        // Independent peer: OpenSSL, at the time of signing.
        String at = Long.toString(NOW.toEpochSecond());
        assertThat(run(
                        "openssl",
                        "cms",
                        "-verify",
                        "-binary",
                        "-inform",
                        "DER",
                        "-in",
                        "signatures/01-customer.p7s",
                        "-content",
                        "signatures/01-customer.json",
                        "-CAfile",
                        root.toString(),
                        "-attime",
                        at,
                        "-out",
                        "/dev/null"))
                .contains("Verification successful");
    }

    @Test
    void anExpiredCertificateAClockSetBackAndASecondSignatureAreRefused() throws Exception {
        SigningKey key = pki.key("C. Example");
        assertThatThrownBy(() -> sign(key, Role.CUSTOMER, NOW.plusYears(5), Optional.empty()))
                .hasMessageContaining("is valid from")
                .hasMessageContaining("sign with a valid one");
        sign(key, Role.CUSTOMER, NOW, Optional.empty());
        assertThatThrownBy(() -> sign(pki.key("A. Example"), Role.APPROVER, NOW.minusDays(1), Optional.empty()))
                .hasMessageContaining("set the clock");
        assertThatThrownBy(() -> sign(key, Role.CUSTOMER, NOW.plusDays(1), Optional.empty()))
                .hasMessageContaining("has signed as customer");
        assertThat(check(Trust.NONE).signatures()).hasSize(1);
    }

    @Test
    void aStoppedRunIsSignedAsStopped() throws Exception {
        List<RunEvent> events = SampleRun.small();
        pack = pack("stopped", events.subList(0, 4), false);
        sign(pki.key("C. Example"), Role.CUSTOMER, NOW, Optional.empty());
        assertThat(check(Trust.NONE).signatures().get(0).ended()).isEqualTo("STOPPED");
        assertThat(check(Trust.NONE).problems()).isEmpty();
    }

    /** Over HTTP, with a local authority; then held against OpenSSL, an independent peer. */
    @Test
    void aTimeStampIsKeptAndCheckedHereAndInOpenssl() throws Exception {
        Instant stamped = NOW.toInstant().plusSeconds(3);
        Timestamp.Authority authority = pki.authority(stamped);
        HttpServer server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/", exchange -> {
            byte[] reply = authority.ask(exchange.getRequestBody().readAllBytes());
            exchange.getResponseHeaders().add("Content-Type", "application/timestamp-reply");
            exchange.sendResponseHeaders(200, reply.length);
            exchange.getResponseBody().write(reply);
            exchange.close();
        });
        server.start();
        try {
            HttpAuthority http =
                    HttpAuthority.at("http://127.0.0.1:" + server.getAddress().getPort() + "/");
            PackSigner.Done done = sign(pki.key("C. Example"), Role.CUSTOMER, NOW, Optional.of(http));
            assertThat(done.stampMissing()).as(done.missing().toString()).isFalse();
        } finally {
            server.stop(0);
        }
        Path root = pem(pki.root);
        Timestamp stamp =
                check(Trust.read(root)).signatures().get(0).timestamp().orElseThrow();
        assertThat(stamp.at()).isEqualTo(stamped);
        assertThat(stamp.trust()).isEqualTo(Trust.Verdict.TRUSTED);
        assertThat(run(
                        "openssl",
                        "ts",
                        "-verify",
                        "-data",
                        "signatures/01-customer.p7s",
                        "-in",
                        "signatures/01-customer.tsr",
                        "-CAfile",
                        root.toString(),
                        "-attime",
                        Long.toString(stamped.getEpochSecond())))
                .contains("Verification: OK");
        Files.write(pack.resolve("signatures/01-customer.tsr"), new byte[] {0x30, 0});
        assertThat(check(Trust.NONE).problems()).extracting("file").containsExactly("signatures/01-customer.tsr");
    }

    @Test
    void anAuthorityThatIsSilentOrAnswersForSomethingElseLeavesTheSignatureWithoutStamp() throws Exception {
        Timestamp.Authority other = pki.authority(NOW.toInstant());
        byte[] foreign = Timestamp.obtain(new byte[] {1}, other);
        PackSigner.Done wrong = sign(pki.key("C. Example"), Role.CUSTOMER, NOW, Optional.of(request -> foreign));
        assertThat(wrong.stampMissing()).isTrue();
        assertThat(wrong.missing().toString()).contains("does not match the request");
        PackSigner.Done silent = sign(pki.key("A. Example"), Role.APPROVER, NOW, Optional.of(request -> {
            throw new IOException("nobody is there");
        }));
        assertThat(silent.missing().toString()).contains("no time stamp came", "nobody is there");
        assertThat(check(Trust.NONE).signatures()).hasSize(2).allMatch(Signature::holds);
        assertThatThrownBy(() -> HttpAuthority.at("ftp://clock")).hasMessageContaining("no address of http");
    }

    /** Independent peer: pdfsig of Poppler. */
    @Test
    void theSignedPdfHoldsEachSignatureHereAndInAPdfReader() throws Exception {
        pack = pack("pdf", SampleRun.small(), true);
        byte[] before = Files.readAllBytes(pack.resolve("report.pdf"));
        sign(pki.key("C. Example"), Role.CUSTOMER, NOW, Optional.empty());
        sign(pki.key("A. Example"), Role.APPROVER, NOW.plusMinutes(1), Optional.empty());
        SigningKey edwards = KeyMaker.make(KeyMaker.Kind.ED25519, "W. Example", Optional.empty(), Pki.FROM, 2);
        assertThat(sign(edwards, Role.WITNESS, NOW.plusMinutes(2), Optional.empty())
                        .missing()
                        .toString())
                .contains("PDF readers do not know");

        assertThat(check(Trust.NONE).problems()).isEmpty();
        assertThat(check(Trust.NONE).signatures()).extracting(Signature::inPdf).containsExactly(true, true, false);
        Path signed = pack.resolve("signatures/report-signed.pdf");
        assertThat(Files.readAllBytes(signed)).startsWith(before);
        String seen = run("pdfsig", "-nocert", signed.toString());
        assertThat(seen).contains("C. Example", "A. Example", "ETSI.CAdES.detached");
        assertThat(seen.split("Signature is Valid", -1)).hasSize(3);

        byte[] bytes = Files.readAllBytes(signed);
        bytes[before.length + 200] ^= 1;
        Files.write(signed, bytes);
        assertThat(check(Trust.NONE).problems()).extracting("file").contains("signatures/report-signed.pdf");
    }
}
