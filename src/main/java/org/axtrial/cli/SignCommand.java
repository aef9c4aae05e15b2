package org.axtrial.cli;

import java.nio.file.Path;
import java.time.OffsetDateTime;
import java.time.ZoneId;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.RunRecord;
import org.axtrial.signing.HttpAuthority;
import org.axtrial.signing.PackSigner;
import org.axtrial.signing.Role;
import org.axtrial.signing.SignedLedger;
import org.axtrial.signing.SigningException;
import org.axtrial.signing.SigningKey;
import org.axtrial.signing.Timestamp;
import org.axtrial.signing.Trust;
import org.axtrial.time.SystemTime;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Puts a person's signature to a pack. */
@Command(
        name = "sign",
        mixinStandardHelpOptions = true,
        description = {
            "Adds a person's signature to an evidence pack: printed name, role, meaning and time, bound to every file of the",
            "pack, to what was added after the run until now, and to the signatures before it. A pack that does not verify is",
            "not signed.",
            "",
            "Exit code 3 if a time stamp was wanted and did not come; the signature then stands without it."
        })
final class SignCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(
            paramLabel = "RUN-FOLDER",
            description = "Folder of the run, for example reports/20260101-080000-DEMO-1")
    private Path folder = Path.of("");

    @Option(names = "--key", required = true, paramLabel = "FILE.p12", description = "Your key file (PKCS#12)")
    private Path key = Path.of("");

    @Option(names = "--alias", paramLabel = "NAME", description = "Which key, if the file has several")
    private Optional<String> alias = Optional.empty();

    @Option(
            names = "--role",
            required = true,
            paramLabel = "ROLE",
            description = "As what you sign: tester, witness, customer or approver")
    private String role = "";

    @Option(
            names = "--name",
            paramLabel = "NAME",
            description = "Your printed name; without it, the name in the certificate")
    private Optional<String> name = Optional.empty();

    @Option(
            names = "--meaning",
            required = true,
            paramLabel = "TEXT",
            description = "What your signature means, for example \"I ran these trials and the record is true\"")
    private String meaning = "";

    @Option(
            names = "--timestamp",
            paramLabel = "URL",
            description = "Has the signature stamped by this time-stamping authority (RFC 3161)")
    private Optional<String> timestamp = Optional.empty();

    @Mixin
    private Password password = new Password();

    SignCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws SigningException {
        RunFolder.require(folder);
        Role as = Role.of(role)
                .orElseThrow(() -> new WrongUseException("--role must be one of "
                        + Arrays.stream(Role.values()).map(Role::word).collect(Collectors.joining(", ")) + ", got \""
                        + role + "\""));
        Optional<Timestamp.Authority> authority =
                timestamp.isPresent() ? Optional.of(HttpAuthority.at(timestamp.get())) : Optional.empty();
        PackVerification found = PackVerification.of(folder, Trust.NONE);
        if (!found.verifies()) {
            terminal.text(VerificationText.of(folder, found));
            terminal.error("The pack does not verify, so it is not signed.");
            return ExitCode.EVIDENCE_BROKEN.code();
        }
        PackSigner signer = PackSigner.of(folder, found.pack(), found.signatures(), added(found));
        SigningKey with = SigningKey.load(key, password.ask(terminal, key), alias);
        PackSigner.Done done = signer.sign(order(as, with), with, authority);
        tell(done, with);
        return (done.stampMissing() ? ExitCode.NOT_PROVEN : ExitCode.PASSED).code();
    }

    private Optional<SignedLedger> added(PackVerification found) throws SigningException {
        RunRecord record = found.pack().record().orElseThrow();
        Ledger ledger = found.ledger().orElseThrow();
        if (ledger.entries().isEmpty()) {
            return Optional.empty();
        }
        String acceptance = Standing.of(record, ledger).state().printed();
        return Optional.of(SignedLedger.of(folder, Ledger.NAME, ledger.entries().size(), acceptance));
    }

    private PackSigner.Order order(Role as, SigningKey with) {
        OffsetDateTime now =
                SystemTime.INSTANCE.instant().atZone(ZoneId.systemDefault()).toOffsetDateTime();
        String printed = name.orElse(with.facts().name());
        try {
            return new PackSigner.Order(as, printed, meaning, now);
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        }
    }

    private void tell(PackSigner.Done done, SigningKey with) {
        PackVerification after = PackVerification.of(folder, Trust.NONE);
        terminal.text(List.of("Signed: " + String.join(", ", done.files())));
        done.missing().forEach(terminal::error);
        if (with.facts().selfMade()) {
            terminal.text(List.of(
                    "Your certificate is self-made. Who checks this signature compares its fingerprint with what you"
                            + " gave them:",
                    "  " + with.facts().fingerprint()));
        }
        terminal.line("");
        terminal.text(VerificationText.of(folder, after));
    }
}
