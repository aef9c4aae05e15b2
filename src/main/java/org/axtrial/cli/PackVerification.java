package org.axtrial.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
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
 * @param ledger what was added after the run; empty if it is not proven
 */
record PackVerification(PackCheck pack, SignatureCheck signatures, Optional<Ledger> ledger) {

    static PackVerification of(Path folder, Trust trust) {
        PackCheck check = withReport(folder, PackCheck.of(folder, SiteSession.TOOL));
        SignatureCheck signatures = SignatureCheck.of(folder, check.record(), trust);
        return check.record()
                .map(record -> withLedger(folder, check, record, signatures))
                .orElseGet(() -> new PackVerification(check, signatures, Optional.empty()));
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
    private static PackVerification withLedger(
            Path folder, PackCheck check, RunRecord record, SignatureCheck signatures) {
        List<PackProblem> problems = new ArrayList<>(check.problems());
        List<PackProblem> remarks = new ArrayList<>(check.remarks());
        Optional<Ledger> proven = Optional.empty();
        try {
            Ledger ledger = Ledger.read(folder, record);
            ledger.strangers(folder)
                    .forEach(stranger -> problems.add(new PackProblem(stranger.name(), stranger.what())));
            problems.addAll(SignedEntries.contradictions(record, ledger, signatures.signatures()));
            remarks.addAll(SignedEntries.later(ledger, signatures.signatures()));
            proven = Optional.of(ledger);
        } catch (EvidenceLostException e) {
            problems.add(new PackProblem(Ledger.NAME, String.valueOf(e.getMessage())));
        }
        PackCheck all =
                new PackCheck(check.record(), check.files(), check.lines(), check.recorded(), problems, remarks);
        return new PackVerification(all, signatures, proven);
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
