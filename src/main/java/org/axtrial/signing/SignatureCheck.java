package org.axtrial.signing;

import java.io.IOException;
import java.nio.file.Path;
import java.security.cert.X509Certificate;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.PackFolder;
import org.axtrial.evidence.PackProblem;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;

/**
 * Who signed a pack, and whether each signature holds for the pack as it is now.
 *
 * @param signatures in the order of signing
 * @param problems why the signatures do not verify; empty if they do, or if there are none
 */
public record SignatureCheck(List<Signature> signatures, List<PackProblem> problems) {

    private static final String RECORD = "record.json";

    public SignatureCheck {
        signatures = List.copyOf(signatures);
        problems = List.copyOf(problems);
    }

    /**
     * Checks the signatures of a pack.
     *
     * @param record what the pack comes to; empty if its journal is not proven
     * @param trust whom the reader trusts; if anybody is named, a signature of somebody else is a problem
     */
    public static SignatureCheck of(Path folder, Optional<RunRecord> record, Trust trust) {
        Checker checker = new Checker(folder, record, trust);
        try {
            checker.check();
        } catch (IOException e) {
            checker.problem(Manifest.SIGNATURES, "cannot be listed: " + e.getMessage());
        }
        return new SignatureCheck(checker.signatures, checker.problems);
    }

    /** A signature whose statement and key are proven; what it says of the pack is not yet. */
    private record Proven(Statement statement, List<X509Certificate> chain) {}

    /** One check at work. */
    private static final class Checker {

        private final Path folder;
        private final Optional<RunRecord> record;
        private final Trust trust;
        private final List<Signature> signatures = new ArrayList<>();
        private final List<Proven> proven = new ArrayList<>();
        private final List<PackProblem> problems = new ArrayList<>();

        Checker(Path folder, Optional<RunRecord> record, Trust trust) {
            this.folder = folder;
            this.record = record;
            this.trust = trust;
        }

        void problem(String file, @Nullable String detail) {
            problems.add(new PackProblem(file, String.valueOf(detail)));
        }

        void check() throws IOException {
            SignatureFiles files = SignatureFiles.of(folder);
            problems.addAll(files.problems());
            if (trust.isGiven() && files.stems().isEmpty()) {
                problem(Manifest.SIGNATURES, "nobody has signed, so nobody of those who are trusted");
            }
            for (Map.Entry<Integer, String> stem : files.stems().entrySet()) {
                boolean whole = files.names().contains(stem.getValue() + ".json")
                        && files.names().contains(stem.getValue() + ".p7s");
                if (whole) {
                    one(files, stem.getKey(), stem.getValue());
                }
            }
            if (files.names().contains(SignedPdf.FILE)) {
                pdf();
            }
        }

        private void one(SignatureFiles files, int number, String stem) throws IOException {
            String file = stem + ".json";
            byte[] text = PackFolder.read(folder, file);
            byte[] cms = PackFolder.read(folder, stem + ".p7s");
            Statement statement;
            try {
                statement = Statement.read(text);
            } catch (SigningException e) {
                problem(file, e.getMessage());
                return;
            }
            DetachedCms.Signer signer;
            try {
                signer = DetachedCms.verify(text, cms);
            } catch (SigningException e) {
                // Which of the two was altered cannot be told from them.
                problem(file, "and its signature do not fit each other; one of them was altered");
                problem(stem + ".p7s", "does not hold for " + file + ": " + e.getMessage());
                return;
            }
            int before = problems.size();
            proven.add(new Proven(statement, signer.chain()));
            if (statement.number() != number || !statement.stem().equals(stem)) {
                problem(file, "was signed under the name " + statement.file());
            }
            if (!signer.signedAt().equals(Optional.of(statement.at().truncatedTo(ChronoUnit.SECONDS)))) {
                problem(file, "gives another time than the signature on it");
            }
            run(statement);
            canonicalRecord(statement);
            hashes(statement, files);
            statement
                    .ledger()
                    .ifPresent(signed -> signed.differs(folder, by(statement))
                            .ifPresent(difference -> problem(signed.file(), difference)));
            Optional<Timestamp> timestamp = timestamp(files, stem, cms);
            Trust.Verdict verdict = trusted(stem, statement, signer, timestamp);
            signatures.add(signature(statement, signer, verdict, timestamp, problems.size() == before));
        }

        private Signature signature(
                Statement statement,
                DetachedCms.Signer signer,
                Trust.Verdict verdict,
                Optional<Timestamp> timestamp,
                boolean holds) {
            return new Signature(
                    statement.number(),
                    Role.of(statement.role()).orElseThrow(),
                    statement.name(),
                    statement.meaning(),
                    statement.signedAt(),
                    statement.run().verdict(),
                    statement.run().ended(),
                    statement.ledger(),
                    CertificateFacts.of(signer.certificate()),
                    verdict,
                    timestamp,
                    statement.report().isPresent(),
                    holds);
        }

        private void run(Statement statement) {
            record.ifPresent(r -> {
                Statement.Run now = Statement.Run.of(r);
                if (!now.equals(statement.run())) {
                    problem(statement.file(), "was signed for " + statement.run() + ", and the pack is " + now);
                }
            });
        }

        private void canonicalRecord(Statement statement) {
            try {
                String now = PackSigner.canonicalHash(PackFolder.read(folder, RECORD));
                if (!now.equals(statement.recordCanonicalSha256())) {
                    problem(RECORD, "has another content than " + statement.file() + " was made for");
                }
            } catch (IOException | JacksonException | IllegalArgumentException e) {
                problem(RECORD, "cannot be read as JSON, and was when " + statement.file() + " was made");
            }
        }

        /** The statement names every file that was there when it was signed; none may be gone, changed or come between. */
        private void hashes(Statement statement, SignatureFiles files) {
            TreeSet<String> expected = new TreeSet<>(files.before(statement.number()));
            expected.add(Manifest.FILE);
            expected.add(RECORD);
            String by = by(statement);
            for (Statement.FileHash signed : statement.files()) {
                if (!expected.remove(signed.file())) {
                    problem(signed.file(), "was there when " + by + " was made, and is missing");
                } else {
                    String now = hash(signed.file());
                    if (!now.equals(signed.sha256())) {
                        problem(
                                signed.file(),
                                "is not what " + by + " was made for: SHA-256 " + now + ", signed was "
                                        + signed.sha256());
                    }
                }
            }
            expected.forEach(file -> problem(file, "was not there when " + by + " was made"));
        }

        private static String by(Statement statement) {
            return "signature " + statement.number() + " (" + statement.role() + ", " + statement.name() + ")";
        }

        private String hash(String file) {
            try {
                return Sha256.of(PackFolder.read(folder, file));
            } catch (IOException e) {
                return "(" + e.getMessage() + ")";
            }
        }

        private Optional<Timestamp> timestamp(SignatureFiles files, String stem, byte[] cms) throws IOException {
            String file = stem + ".tsr";
            if (!files.names().contains(file)) {
                return Optional.empty();
            }
            try {
                return Optional.of(Timestamp.verify(cms, PackFolder.read(folder, file), trust));
            } catch (SigningException e) {
                problem(file, e.getMessage());
                return Optional.empty();
            }
        }

        private Trust.Verdict trusted(
                String stem, Statement statement, DetachedCms.Signer signer, Optional<Timestamp> timestamp) {
            // The time of an authority that nobody vouches for is worth no more than the signer's own.
            Instant at = timestamp
                    .filter(stamp -> stamp.trust() == Trust.Verdict.TRUSTED)
                    .map(Timestamp::at)
                    .orElse(statement.at());
            CertificateFacts facts = CertificateFacts.of(signer.certificate());
            if (!facts.validAt(at)) {
                problem(
                        stem + ".p7s",
                        "was made with a certificate that was not valid at " + at + ": it is valid from " + facts.from()
                                + " to " + facts.until());
            }
            Trust.Verdict verdict = trust.of(signer.chain(), at);
            if (trust.isGiven() && verdict != Trust.Verdict.TRUSTED) {
                problem(
                        stem + ".p7s",
                        "was made with a certificate that none of the trusted ones vouches for: " + facts.subject()
                                + ", SHA-256 fingerprint " + facts.fingerprint());
            }
            return verdict;
        }

        /** Each statement knows the signed copy as it was after it, and nothing is ever changed in it, only appended. */
        private void pdf() {
            List<Long> ends = new ArrayList<>();
            List<X509Certificate> signers = new ArrayList<>();
            try {
                byte[] pdf = PackFolder.read(folder, SignedPdf.FILE);
                byte[] source = PackFolder.read(folder, SignedPdf.SOURCE);
                if (pdf.length < source.length || !Arrays.equals(source, Arrays.copyOf(pdf, source.length))) {
                    problem(SignedPdf.FILE, "is no copy of " + SignedPdf.SOURCE);
                    return;
                }
                for (Proven one : proven) {
                    Optional<Statement.SignedReport> report = one.statement().report();
                    if (report.isEmpty()) {
                        continue;
                    }
                    int end = (int) Math.min(report.get().size(), pdf.length);
                    if (!Sha256.of(Arrays.copyOf(pdf, end)).equals(report.get().sha256())) {
                        problem(SignedPdf.FILE, "is not what " + one.statement().file() + " was made for");
                        return;
                    }
                    ends.add((long) end);
                    signers.add(one.chain().get(0));
                }
                if (ends.isEmpty() || ends.get(ends.size() - 1) != pdf.length) {
                    problem(SignedPdf.FILE, "has something at its end that no signature stands for");
                    return;
                }
                SignedPdf.verify(pdf, ends, signers);
            } catch (IOException | SigningException e) {
                problem(SignedPdf.FILE, e.getMessage());
            }
        }
    }
}
