package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.acceptance.MergedFolder;
import org.axtrial.evidence.ArchiveImport;
import org.axtrial.signing.SigningException;
import org.axtrial.signing.Trust;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Checks a pack and tells who signed it. */
@Command(
        name = "verify",
        mixinStandardHelpOptions = true,
        description = {
            "Checks an evidence pack with the pack alone: every file against the manifest, the chain of the journal, every",
            "value of the record and every trace against the journal, the reports, and the signatures. Says what was changed,",
            "who signed what, and what is not signed. A merged folder is checked with every pack inside.",
            "An archive is unpacked aside by the rules of import. Nothing is written into the pack and no server is asked.",
            "",
            "Exit code 0 if the pack verifies, 5 if it does not. A pack nobody signed can verify; it then shows no change,",
            "and not who wrote it."
        })
final class VerifyCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(
            paramLabel = "PACK",
            description = "Folder of the run, for example reports/20260101-080000-DEMO-1, or its archive as .zip")
    private Path folder = Path.of("");

    @Option(
            names = "--trust",
            paramLabel = "FILE.pem",
            description =
                    "Certificates that you trust (PEM): roots of the customer's PKI, or self-made ones whose fingerprint you"
                            + " have compared. The pack then verifies only if it is signed, and every signature leads to one of"
                            + " them.")
    private Optional<Path> trust = Optional.empty();

    @Option(
            names = "--out",
            paramLabel = "FILE",
            description = "Also writes what was found into a new file outside of the pack, as HTML if it ends in .html")
    private Optional<Path> out = Optional.empty();

    VerifyCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() throws SigningException {
        boolean archive = Files.isRegularFile(folder) && isArchive(folder);
        if (!archive && !MergedFolder.is(folder)) {
            RunFolder.require(folder);
        }
        out.ifPresent(this::requireOutside);
        Trust trusted = trust.isPresent() ? Trust.read(trust.get()) : Trust.NONE;
        Told told = archive ? ArchiveImport.aside(folder, inside -> unpacked(inside, trusted)) : told(folder, trusted);
        terminal.text(told.lines());
        out.ifPresent(file -> write(file, told.lines()));
        return (told.verifies() ? ExitCode.PASSED : ExitCode.EVIDENCE_BROKEN).code();
    }

    /** What is to be told of a pack. */
    private record Told(List<String> lines, boolean verifies) {}

    private static boolean isArchive(Path file) {
        return String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT).endsWith(".zip");
    }

    /** The folder it was unpacked to is gone when this is read, so it is called by the name of the archive. */
    private Told unpacked(Path inside, Trust trusted) {
        if (!MergedFolder.is(inside)) {
            requirePack(inside);
        }
        Told told = told(inside, trusted);
        return new Told(
                told.lines().stream()
                        .map(line -> line.replace(inside.toString(), folder.toString()))
                        .toList(),
                told.verifies());
    }

    private void requirePack(Path inside) {
        if (!Files.isRegularFile(inside.resolve("journal.jsonl"))) {
            throw new WrongUseException(folder + " holds no evidence pack: there is no journal.jsonl in its folder "
                    + inside.getFileName());
        }
    }

    private static Told told(Path folder, Trust trusted) {
        if (MergedFolder.is(folder)) {
            MergedVerification found = MergedVerification.of(folder, trusted);
            return new Told(found.lines(folder), found.verifies());
        }
        PackVerification found = PackVerification.of(folder, trusted);
        return new Told(VerificationText.of(folder, found), found.verifies());
    }

    private void requireOutside(Path file) {
        Path absolute = file.toAbsolutePath().normalize();
        if (absolute.startsWith(folder.toAbsolutePath().normalize())) {
            throw new WrongUseException("--out " + file + " lies in the pack, where it would be an added file");
        }
        if (Files.exists(absolute)) {
            throw new WrongUseException("--out " + file + " is already there; give a new name");
        }
    }

    private static void write(Path file, List<String> lines) {
        String text = String.join("\n", lines) + "\n";
        try {
            Files.writeString(file, file.toString().endsWith(".html") ? page(text) : text);
        } catch (IOException e) {
            throw new WrongUseException("--out " + file + " cannot be written: " + e);
        }
    }

    private static String page(String text) {
        String escaped = text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
        return """
                <!DOCTYPE html>
                <html lang="en"><head><meta charset="utf-8"><title>Verification of an evidence pack</title>
                <style>body { margin: 2em; } pre { font: 10pt/1.4 monospace; white-space: pre-wrap; }</style></head>
                <body><h1>Verification of an evidence pack</h1>
                <pre>%s</pre></body></html>
                """.formatted(escaped);
    }
}
