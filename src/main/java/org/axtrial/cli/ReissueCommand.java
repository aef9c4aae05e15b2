package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.stream.Stream;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.LedgerEntry.ReportReissued;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.RunRecord.PackedFile;
import org.axtrial.evidence.Sha256;
import org.axtrial.report.HtmlReport;
import org.axtrial.report.PdfPrinter.Paper;
import org.axtrial.report.PdfReport;
import org.axtrial.report.Reissued;
import org.axtrial.signing.Signature;
import org.axtrial.time.SystemTime;
import org.jspecify.annotations.Nullable;
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

    @Option(
            names = "--paper",
            paramLabel = "PAPER",
            converter = PaperOption.class,
            description = "Paper that the PDF is laid out for: A4 or Letter. Default: that of the run")
    @Nullable
    private Paper paper;

    ReissueCommand(Terminal terminal) {
        this.terminal = terminal;
    }

    @Override
    public Integer call() {
        RunRecord record = pack.record();
        List<Signature> signatures = pack.signatures(record);
        Ledger ledger = Ledger.read(pack.folder, record);
        Standing standing = Standing.of(record, ledger);
        int revision = standing.nextRevision();
        List<String> names = Stream.of(".html", ".pdf")
                .map(ending -> Ledger.FOLDER + "/report-revision-" + revision + ending)
                .toList();
        names.stream()
                .map(pack.folder::resolve)
                .filter(Files::exists)
                .findFirst()
                .ifPresent(file -> {
                    throw new WrongUseException(
                            file + " is there already but the ledger does not know it; take it away first");
                });
        Paper sheet = paper == null ? PdfReport.paper(record) : paper;
        Instant now = SystemTime.INSTANCE.instant();
        try {
            ReportReissued issue = new ReportReissued(revision, reason, List.of(), replaced(standing), person.name);
            Reissued reissued = new Reissued(
                    now, issue, signatures.stream().map(ReissueCommand::signer).toList());
            Path page = pack.folder.resolve(names.get(0));
            Files.createDirectories(page.getParent());
            HtmlReport.reissue(pack.folder, record, page, standing, reissued);
            PdfReport.reissue(pack.folder, record, sheet, pack.folder.resolve(names.get(1)), standing, reissued);
            ReportReissued issued = new ReportReissued(revision, reason, packed(names), issue.replaces(), person.name);
            Ledger after = ledger.add(pack.folder, now, issued);
            FinishedPack.print(terminal, record, Standing.of(record, after));
        } catch (IllegalArgumentException e) {
            throw new WrongUseException(String.valueOf(e.getMessage()));
        } catch (IOException e) {
            throw new EvidenceLostException("the report of " + pack.folder + " cannot be issued: " + e, e);
        }
        terminal.line("");
        names.forEach(name -> terminal.line("Report: " + pack.folder.resolve(name)));
        return ExitCode.PASSED.code();
    }

    private static Reissued.Signer signer(Signature signature) {
        return new Reissued.Signer(
                signature.number(),
                signature.name(),
                signature.role().word(),
                signature.signedAt().replace('T', ' '),
                signature.meaning(),
                "record.json, verdict " + signature.verdict()
                        + signature
                                .ledger()
                                .map(signed ->
                                        ", and " + signed.counted() + " added after the run: " + signed.acceptance())
                                .orElse(""));
    }

    /** What the last issue was made of. */
    private List<PackedFile> replaced(Standing standing) throws IOException {
        return standing.reissues().isEmpty()
                ? packed(List.of("report.html", "report.pdf"))
                : standing.reissues()
                        .get(standing.reissues().size() - 1)
                        .issued()
                        .files();
    }

    private List<PackedFile> packed(List<String> names) throws IOException {
        List<PackedFile> files = new ArrayList<>();
        for (String name : names) {
            Path file = pack.folder.resolve(name);
            if (!Files.isRegularFile(file)) {
                throw new WrongUseException(file + " is missing; make it again first: axtrial report " + pack.folder);
            }
            files.add(new PackedFile(name, Sha256.of(file), Files.size(file)));
        }
        return files;
    }
}
