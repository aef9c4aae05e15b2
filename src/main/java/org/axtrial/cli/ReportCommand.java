package org.axtrial.cli;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.axtrial.evidence.EvidencePack;
import org.axtrial.evidence.RunRecord;
import org.axtrial.report.PdfPrinter.Paper;
import org.axtrial.report.PdfReport;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** Rebuilds the report of a run from its evidence. */
@Command(
        name = "report",
        mixinStandardHelpOptions = true,
        description = {
            "Rebuilds record and reports of a run from its journal and traces.",
            "A run that was cut off is finished as STOPPED; nothing that it had completed is lost."
        })
final class ReportCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Parameters(
            paramLabel = "RUN-FOLDER",
            description = "Folder of the run, for example reports/20260101-080000-DEMO-1")
    private Path folder = Path.of("");

    @Option(
            names = "--paper",
            paramLabel = "SIZE",
            converter = PaperOption.class,
            description = "Paper that report.pdf is laid out for: A4 or Letter. Default: that of the run")
    @Nullable
    private Paper paper;

    ReportCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        RunFolder.require(folder);
        if (Files.exists(folder.resolve("signatures"))) {
            throw new WrongUseException(folder
                    + " is signed, and signatures hold for the files as they are. To make its report anew, copy the folder"
                    + " without signatures/");
        }
        RunRecord record = EvidencePack.recover(folder);
        PackReport.write(folder, record, paper == null ? PdfReport.paper(record) : paper);
        new Summary(terminal).print(record, folder);
        return Acceptance.exitCode(record).code();
    }
}
