package org.axtrial.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import org.axtrial.evidence.OpenTestXml;
import org.axtrial.evidence.ResultsCsv;
import org.axtrial.evidence.RunRecord;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Gives out the results of a run in other forms. */
@Command(
        name = "export",
        mixinStandardHelpOptions = true,
        description = {
            "Writes the results of a run for other programs. The pack itself is not touched.",
            "",
            "Exit codes: 0 it is written; 2 wrong use; 5 the record cannot be read."
        })
final class ExportCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(paramLabel = "PACK", description = "Folder of the run")
    private Path pack = Path.of("");

    @Option(names = "--csv", description = "A table for spreadsheet programs")
    private boolean csv;

    @Option(names = "--xml", description = "Events of Open Test Reporting, for tools that show test results")
    private boolean xml;

    @Option(
            names = "--locale",
            paramLabel = "TAG",
            description =
                    "With --csv: decimal sign and separator as used there, for example de-DE; by default ${DEFAULT-VALUE}")
    private String locale = TableLocale.DEFAULT;

    @Option(
            names = "--out",
            paramLabel = "FILE",
            description = "The file to make, by default PACK.csv or PACK.xml beside the pack")
    private Optional<Path> out = Optional.empty();

    ExportCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        if (csv == xml) {
            throw new WrongUseException("name one form to write: --csv or --xml");
        }
        Path folder = pack.toAbsolutePath().normalize();
        Path file = out.orElse(folder.resolveSibling(folder.getFileName() + (csv ? ".csv" : ".xml")));
        Locale known = TableLocale.of(locale);
        RunFolder.requireFinished(pack);
        if (file.toAbsolutePath().normalize().startsWith(folder)) {
            throw new WrongUseException("--out " + file + " lies inside the pack, which would no longer verify");
        }
        if (Files.exists(file)) {
            throw new WrongUseException(file + " is already there; name another file with --out");
        }
        if (csv) {
            ResultsCsv.write(RunRecord.read(folder), known, file);
            terminal.line("Table: " + file);
        } else {
            OpenTestXml.write(RunRecord.read(folder), file);
            terminal.line("Events: " + file);
        }
        return ExitCode.PASSED.code();
    }
}
