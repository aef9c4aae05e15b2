package org.axtrial.cli;

import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.signing.KeyMaker;
import org.axtrial.signing.SigningException;
import org.axtrial.signing.SigningKey;
import org.axtrial.time.SystemTime;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Makes a key for signing. */
@Command(
        name = "keygen",
        mixinStandardHelpOptions = true,
        description = {
            "Makes a key for signing packs, with a certificate that vouches for itself. Use a key of your company's or your",
            "customer's PKI instead, if there is one.",
            "",
            "Such a key proves that signatures come from the same key. It proves whose key it is only to those who have its",
            "fingerprint from you by a way that nobody else can use: in person, on paper that you signed by hand."
        })
final class KeygenCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Option(names = "--name", required = true, paramLabel = "NAME", description = "Your printed name")
    private String name = "";

    @Option(names = "--organisation", paramLabel = "NAME", description = "Whom you work for")
    private Optional<String> organisation = Optional.empty();

    @Option(names = "--out", required = true, paramLabel = "FILE.p12", description = "The new key file")
    private Path out = Path.of("");

    @Option(
            names = "--kind",
            paramLabel = "KIND",
            description =
                    "p256 (known to all readers of PDF and CMS) or ed25519 (not to most); default ${DEFAULT-VALUE}")
    private String kind = "p256";

    @Option(names = "--years", paramLabel = "N", description = "How long it may be used; default ${DEFAULT-VALUE}")
    private int years = 3;

    @Mixin
    private Password password = new Password();

    KeygenCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws SigningException {
        KeyMaker.Kind chosen = switch (kind.toLowerCase(Locale.ROOT)) {
            case "p256" -> KeyMaker.Kind.P256;
            case "ed25519" -> KeyMaker.Kind.ED25519;
            default -> throw new WrongUseException("--kind must be p256 or ed25519, got \"" + kind + "\"");
        };
        SigningKey key;
        try {
            key = KeyMaker.make(chosen, name, organisation, SystemTime.INSTANCE.instant(), years);
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        }
        Path certificate = KeyMaker.write(key, out, password.choose(terminal));
        terminal.line("Key file      " + out);
        terminal.line("              Keep it and its password to yourself: who has both signs in your name.");
        terminal.line("Certificate   " + certificate);
        terminal.line("              Give it to everybody who checks your signatures.");
        terminal.line(
                "Valid         " + key.facts().from() + " to " + key.facts().until());
        terminal.line("Fingerprint   (SHA-256 of the certificate)");
        terminal.line("  " + key.facts().fingerprint());
        terminal.line("");
        terminal.line("This certificate vouches for itself: it says your name because it was told to.");
        terminal.line("Before the first signature counts, hand the fingerprint over by a way on which");
        terminal.line("nobody can change it: in person, or on paper with your handwritten signature,");
        terminal.line("for example in the minutes of the acceptance meeting.");
        return ExitCode.PASSED.code();
    }
}
