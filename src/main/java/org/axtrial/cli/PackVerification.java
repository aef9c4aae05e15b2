package org.axtrial.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.function.BiFunction;
import java.util.stream.Stream;
import org.axtrial.acceptance.Ledger;
import org.axtrial.engine.SiteSession;
import org.axtrial.evidence.EvidenceLostException;
import org.axtrial.evidence.PackCheck;
import org.axtrial.evidence.PackProblem;
import org.axtrial.evidence.RunRecord;
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
        return of(folder, trust, RemadeReports::differences);
    }

    /** The same for whoever reads the values of many packs and opens no print: those are not made again. */
    static PackVerification ofValues(Path folder, Trust trust) {
        return of(folder, trust, RemadeReports::page);
    }

    private static PackVerification of(
            Path folder, Trust trust, BiFunction<Path, RunRecord, List<RemadeReports.Difference>> remade) {
        PackCheck check = withReports(folder, PackCheck.of(folder, SiteSession.TOOL), remade);
        SignatureCheck signatures = SignatureCheck.of(folder, check.record(), trust);
        return check.record()
                .map(record -> withLedger(folder, check, record, signatures))
                .orElseGet(() -> new PackVerification(check, signatures, Optional.empty()));
    }

    /** Reports are pure functions of record and traces, so they are made again only where those are proven. */
    private static PackCheck withReports(
            Path folder, PackCheck check, BiFunction<Path, RunRecord, List<RemadeReports.Difference>> remade) {
        if (check.record().isEmpty() || !check.problems().isEmpty()) {
            return check;
        }
        RunRecord record = check.record().get();
        List<PackProblem> problems = new ArrayList<>(check.problems());
        List<PackProblem> remarks = new ArrayList<>(check.remarks());
        remade.apply(folder, record)
                .forEach(difference -> (difference.isProblem() ? problems : remarks).add(difference.what()));
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
