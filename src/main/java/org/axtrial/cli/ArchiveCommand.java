package org.axtrial.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.evidence.PackArchive;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Makes one file of a pack. */
@Command(
        name = "archive",
        mixinStandardHelpOptions = true,
        description = {
            "Makes one ZIP file of an evidence pack that verifies. The pack itself is not touched.",
            "",
            "Exit codes: 0 it is written; 2 wrong use; 5 the pack does not verify, and nothing is written."
        })
final class ArchiveCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(paramLabel = "PACK", description = "Folder of the run")
    private Path pack = Path.of("");

    @Option(names = "--out", paramLabel = "FILE", description = "The file to make, by default PACK.zip")
    private Optional<Path> out = Optional.empty();

    ArchiveCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        Path folder = pack.toAbsolutePath().normalize();
        RunFolder.requireFinished(pack);
        Path zip = out.orElse(folder.resolveSibling(folder.getFileName() + ".zip"));
        if (Files.exists(zip)) {
            throw new WrongUseException(zip + " is already there; name another file with --out");
        }
        PackArchive.write(folder, zip);
        terminal.line("Archive: " + zip);
        return ExitCode.PASSED.code();
    }
}
