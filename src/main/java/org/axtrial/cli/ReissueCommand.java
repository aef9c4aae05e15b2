package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.Callable;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.LedgerEntry.ReportReissued;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunRecord.PackedFile;
import org.axtrial.evidence.Sha256;
import org.axtrial.report.HtmlReport;
import org.axtrial.report.Reissued;
import org.axtrial.time.SystemTime;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** Issues the report of a run again with what came after the run. */
@Command(
        name = "reissue",
        mixinStandardHelpOptions = true,
        description = {
            "Issues the report again as a revision that names what it takes the place of, with the punch list and the deviations",
            "as they stand. The first report and the results stay as they are."
        })
final class ReissueCommand implements Callable<Integer> {

    private final Terminal terminal;

    @Mixin
    private FinishedPack pack = new FinishedPack();

    @Mixin
    private FinishedPack.Person person = new FinishedPack.Person();

    @Option(names = "--reason", required = true, paramLabel = "TEXT", description = "Why the report is issued again")
    private String reason = "";

    ReissueCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        RunRecord record = pack.record();
        Ledger ledger = Ledger.read(pack.folder, record);
        Standing standing = Standing.of(record, ledger);
        int revision = standing.nextRevision();
        String name = Ledger.FOLDER + "/report-revision-" + revision + ".html";
        Path file = pack.folder.resolve(name);
        if (Files.exists(file)) {
            throw new WrongUseException(file + " is there already but the ledger does not know it; take it away first");
        }
        Instant now = SystemTime.INSTANCE.instant();
        try {
            ReportReissued issue = new ReportReissued(
                    revision, reason, List.of(), replaced(standing), person.name);
            Files.createDirectories(file.getParent());
            HtmlReport.reissue(pack.folder, record, file, standing, new Reissued(now, issue));
            ReportReissued issued = new ReportReissued(
                    revision, reason, List.of(packed(name)), issue.replaces(), person.name);
            Ledger after = ledger.add(pack.folder, now, issued);
            FinishedPack.print(terminal, record, Standing.of(record, after));
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        } catch (IOException e) {
            throw new EvidenceLostException(file + " cannot be written: " + e, e);
        }
        terminal.line("");
        terminal.line("Report: " + file);
        return ExitCode.PASSED.code();
    }

    /** What the last issue was made of. */
    private List<PackedFile> replaced(Standing standing) throws IOException {
        return standing.reissues().isEmpty()
                ? List.of(packed("report.html"))
                : standing.reissues()
                        .get(standing.reissues().size() - 1)
                        .issued()
                        .files();
    }

    private PackedFile packed(String name) throws IOException {
        Path file = pack.folder.resolve(name);
        if (!Files.isRegularFile(file)) {
            throw new WrongUseException(file + " is missing; make it again first: axtrial report " + pack.folder);
        }
        return new PackedFile(name, Sha256.of(file), Files.size(file));
    }
}
