package org.axtrial.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.axtrial.evidence.ArchiveImport;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Takes a pack out of an archive. */
@Command(
        name = "import",
        mixinStandardHelpOptions = true,
        description = {
            "Takes an evidence pack out of a ZIP file made by archive. Names that could leave the folder or meet each other,",
            "links, and archives that unpack to too much are refused, and so is a pack that does not verify.",
            "",
            "Exit codes: 0 the pack is there and verifies; 2 wrong use; 5 it was refused, and nothing is left of it."
        })
final class ImportCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(paramLabel = "ZIP", description = "The archive")
    private Path zip = Path.of("");

    @Option(names = "--into", paramLabel = "DIR", description = "Where to put the pack, by default ${DEFAULT-VALUE}")
    private Path into = Path.of("reports");

    ImportCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (!Files.isRegularFile(zip)) {
            throw new WrongUseException(zip + ": there is no such file");
        }
        terminal.line("Pack: " + ArchiveImport.read(zip, into));
        return ExitCode.PASSED.code();
    }
}
