package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.Stream;
import org.axtrial.acceptance.Ledger;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.PackCheck;
import org.axtrial.evidence.PackFolder;
import org.axtrial.evidence.PackProblem;
import org.axtrial.evidence.RunRecord;
import org.axtrial.report.HtmlReport;
import org.axtrial.signing.SignatureCheck;
import org.axtrial.signing.Trust;

/**
 * Everything that can be checked of a pack, with the pack alone.
 *
 * @param pack files, journal, record and reports
 * @param signatures who signed, and whether it holds
 */
record PackVerification(PackCheck pack, SignatureCheck signatures) {

    static PackVerification of(Path folder, Trust trust) {
        PackCheck check = withLedger(folder, withReport(folder, PackCheck.of(folder, SiteSession.TOOL)));
        return new PackVerification(check, SignatureCheck.of(folder, check.record(), trust));
    }

    /** The report is a pure function of record and traces, so it is made again only where those are proven. */
    private static PackCheck withReport(Path folder, PackCheck check) {
        if (check.record().isEmpty() || !check.problems().isEmpty()) {
            return check;
        }
        RunRecord record = check.record().get();
        List<PackProblem> problems = new ArrayList<>(check.problems());
        List<PackProblem> remarks = new ArrayList<>(check.remarks());
        try {
            byte[] found = PackFolder.read(folder, HtmlReport.FILE);
            PackProblem.remade(HtmlReport.FILE, HtmlReport.bytes(folder, record), found)
                    .ifPresent(difference -> {
                        if (record.setup().tool().equals(SiteSession.TOOL)) {
                            problems.add(difference);
                        } else {
                            remarks.add(PackProblem.otherVersion(
                                    HtmlReport.FILE, record.setup().tool()));
                        }
                    });
        } catch (IOException | EvidenceLostException e) {
            problems.add(new PackProblem(HtmlReport.FILE, "cannot be checked: " + e.getMessage()));
        }
        return new PackCheck(check.record(), check.files(), check.lines(), check.recorded(), problems, remarks);
    }

    /** What came after the run has a chain of its own, which begins where the journal ends. */
    private static PackCheck withLedger(Path folder, PackCheck check) {
        if (check.record().isEmpty()) {
            return check;
        }
        List<PackProblem> problems = new ArrayList<>(check.problems());
        try {
            Ledger.read(folder, check.record().get())
                    .strangers(folder)
                    .forEach(stranger -> problems.add(new PackProblem(stranger.name(), stranger.what())));
        } catch (EvidenceLostException e) {
            problems.add(new PackProblem(Ledger.NAME, String.valueOf(e.getMessage())));
        }
        return new PackCheck(check.record(), check.files(), check.lines(), check.recorded(), problems, check.remarks());
    }

    boolean verifies() {
        return pack.problems().isEmpty() && signatures.problems().isEmpty();
    }

    /** All problems, each said once. */
    List<PackProblem> problems() {
        return Stream.concat(pack.problems().stream(), signatures.problems().stream())
                .distinct()
                .toList();
    }
}
