package org.axtrial.cli;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.PrintStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.SampleRun;
import org.axtrial.report.PdfPrinter.Paper;

/** A small pack of the invented run on disk, keys beside it, and the command line. */
final class SignedPackBench {

    static final String MEANING = "I ran these trials and the record is true";

    final Path folder;
    final Path pack;
    final Path passwordFile;
    String output = "";

    SignedPackBench(Path folder) throws IOException {
        this.folder = folder;
        Path site = Files.writeString(folder.resolve("site.yaml"), "job: { id: INVENTED }\n");
        EvidencePack writer = EvidencePack.create(
                folder.resolve("reports"), SampleRun.RUN_ID, List.of(new EvidencePack.SourceFile("site.yaml", site)));
        SampleRun.small().forEach(writer::accept);
        PackReport.write(writer.folder(), writer.finish(), Paper.A4);
        pack = writer.folder();
        passwordFile = Files.writeString(folder.resolve("password"), "correct horse\n");
    }

    int axtrial(String... words) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        PrintStream stream = new PrintStream(out, true, StandardCharsets.UTF_8);
        int code = Main.run(Terminal.on(stream, stream), words);
        output = out.toString(StandardCharsets.UTF_8);
        return code;
    }

    int verify(String... more) {
        List<String> words = new ArrayList<>(List.of("verify", pack.toString()));
        words.addAll(List.of(more));
        return axtrial(words.toArray(String[]::new));
    }

    /** Makes a key of that name and returns its file. */
    Path key(String name, String kind) {
        Path file = folder.resolve(name.replaceAll("\\W", "") + ".p12");
        int code = axtrial(
                "keygen",
                "--name",
                name,
                "--kind",
                kind,
                "--out",
                file.toString(),
                "--password-file",
                passwordFile.toString());
        if (code != 0) {
            throw new IllegalStateException(output);
        }
        return file;
    }

    int sign(Path key, String role, String... more) {
        List<String> words = new ArrayList<>(List.of(
                "sign",
                pack.toString(),
                "--key",
                key.toString(),
                "--role",
                role,
                "--meaning",
                MEANING,
                "--password-file",
                passwordFile.toString()));
        words.addAll(List.of(more));
        return axtrial(words.toArray(String[]::new));
    }

    /** Adds an item to the punch list. */
    int punch(String text, String grade) {
        return axtrial("punch", pack.toString(), "--add", text, "--class", grade, "--by", "A. Sample");
    }

    static Path pem(Path key) {
        return key.resolveSibling(key.getFileName().toString().replace(".p12", ".pem"));
    }
}
