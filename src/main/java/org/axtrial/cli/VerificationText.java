package org.axtrial.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import org.axtrial.acceptance.Ledger;
import org.axtrial.acceptance.Standing;
import org.axtrial.evidence.PackCheck;
import org.axtrial.evidence.PackProblem;
import org.axtrial.evidence.RunRecord;
import org.axtrial.signing.CertificateFacts;
import org.axtrial.signing.Role;
import org.axtrial.signing.Signature;
import org.axtrial.signing.Timestamp;
import org.axtrial.signing.Trust;

/** Says in plain words what a verification found. */
final class VerificationText {

    /** Enough to see what happened; a file that was replaced can differ in thousands of values. */
    private static final int MOST_OF_ONE_FILE = 12;

    private final List<String> lines = new ArrayList<>();
    private final PackVerification found;

    private VerificationText(PackVerification found) {
        this.found = found;
    }

    /** The lines, the verdict in the last. */
    static List<String> of(Path folder, PackVerification found) {
        VerificationText text = new VerificationText(found);
        text.head(folder);
        text.contents();
        text.signatures();
        text.remarks();
        text.end();
        return List.copyOf(text.lines);
    }

    private void head(Path folder) {
        lines.add("Pack " + folder);
        Optional<RunRecord> record = found.pack().record();
        if (record.isEmpty()) {
            lines.add("  Its journal is not proven, so it is not said what the run came to.");
            return;
        }
        RunRecord run = record.get();
        lines.add("  run " + run.stamps().runId() + ", " + (run.simulated() ? "SIMULATED" : "real axes") + ", from "
                + run.stamps().startedAt() + " to " + run.stamps().finishedAt());
        lines.add("  " + run.ended() + ", verdict " + run.verdict().printed()
                + (run.stopReason().isEmpty() ? "" : "; stopped: " + run.stopReason()));
    }

    private void contents() {
        PackCheck pack = found.pack();
        lines.add("");
        row("files", pack.files() + " beside the manifest");
        row(
                "journal",
                pack.lines() + " lines proven"
                        + pack.record()
                                .map(r -> ", last hash " + r.stamps().journalHash())
                                .orElse(""));
        row("recorded", pack.recorded() + " traces, snapshots and files as used have their hash in the journal");
        if (!pack.concerns("record.json") && pack.record().isPresent()) {
            row("record", "every value is what the journal comes to");
        }
        if (pack.problems().isEmpty()
                && pack.remarks().stream().noneMatch(r -> r.file().startsWith("report."))) {
            row("report", "is what this program makes of the record");
        }
        pack.record().ifPresent(record -> found.ledger().ifPresent(ledger -> added(record, ledger)));
    }

    private void added(RunRecord record, Ledger ledger) {
        if (!ledger.entries().isEmpty()) {
            row("after", entries(ledger.entries().size()) + " added after the run, last hash " + ledger.head());
            row(
                    "",
                    "the acceptance stands as "
                            + Standing.of(record, ledger).state().printed());
        }
    }

    private static String entries(int count) {
        return count + (count == 1 ? " entry" : " entries");
    }

    private void row(String what, String text) {
        lines.add(String.format("  %-10s %s", what, text));
    }

    private void signatures() {
        List<Signature> signatures = found.signatures().signatures();
        lines.add("");
        if (signatures.isEmpty()) {
            lines.add("Nobody has signed this pack: it shows no change, and not who wrote it.");
            return;
        }
        lines.add("Signatures in their order:");
        signatures.forEach(this::signature);
        String without = Arrays.stream(Role.values())
                .filter(role -> signatures.stream().noneMatch(s -> s.role() == role && s.holds()))
                .map(Role::word)
                .collect(Collectors.joining(", "));
        if (!without.isEmpty()) {
            lines.add("Not signed as: " + without + ".");
        }
    }

    private void signature(Signature s) {
        CertificateFacts key = s.certificate();
        lines.add("  " + s.number() + "  " + (s.holds() ? "holds" : "DOES NOT HOLD") + "   " + s.name() + ", "
                + s.role().word() + ", " + s.signedAt());
        lines.add("     meaning: " + s.meaning());
        lines.add("     signed for: verdict " + s.verdict() + ", " + s.ended()
                + (s.inPdf() ? "; also in signatures/report-signed.pdf" : ""));
        s.ledger()
                .ifPresent(signed ->
                        lines.add("     and for " + signed.counted() + " added after the run: " + signed.acceptance()));
        lines.add("     certificate: " + key.subject() + ", " + trust(s));
        if (!key.name().equals(s.name())) {
            lines.add("     The name in the certificate is \"" + key.name() + "\", not the one that was signed with.");
        }
        lines.add("     valid " + key.from() + " to " + key.until() + ", SHA-256 fingerprint");
        lines.add("     " + key.fingerprint());
        lines.add("     "
                + s.timestamp().map(VerificationText::stamp).orElse("no time stamp: the time is the signer's word"));
    }

    private static String trust(Signature s) {
        return switch (s.trust()) {
            case TRUSTED -> "trusted";
            case SELF_MADE -> "self-made: compare the fingerprint with what the person gave you";
            case UNKNOWN_ISSUER ->
                "issued by " + s.certificate().issuer() + ": name that issuer's certificate by --trust";
        };
    }

    private static String stamp(Timestamp stamp) {
        return "time stamp: " + stamp.at() + " by " + stamp.authority().subject()
                + (stamp.trust() == Trust.Verdict.TRUSTED ? ", trusted" : ", whom nobody named by --trust vouches for");
    }

    private void remarks() {
        if (!found.pack().remarks().isEmpty()) {
            lines.add("");
            lines.add("To be known:");
            grouped(found.pack().remarks());
        }
    }

    private void end() {
        lines.add("");
        List<PackProblem> problems = found.problems();
        if (problems.isEmpty()) {
            lines.add("The pack verifies.");
            return;
        }
        lines.add("What is wrong:");
        grouped(problems);
        long files = problems.stream().map(PackProblem::file).distinct().count();
        lines.add("");
        lines.add("The pack DOES NOT VERIFY: " + problems.size() + (problems.size() == 1 ? " problem" : " problems")
                + " in " + files + (files == 1 ? " file." : " files."));
    }

    private void grouped(List<PackProblem> problems) {
        Map<String, List<PackProblem>> byFile = problems.stream()
                .collect(Collectors.groupingBy(PackProblem::file, LinkedHashMap::new, Collectors.toList()));
        byFile.forEach((file, list) -> {
            lines.add("  " + file);
            list.stream().limit(MOST_OF_ONE_FILE).forEach(problem -> lines.add("     " + problem.detail()));
            if (list.size() > MOST_OF_ONE_FILE) {
                lines.add("     and " + (list.size() - MOST_OF_ONE_FILE) + " more");
            }
        });
    }
}
