package org.axtrial.signing;

import java.io.FileOutputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.OffsetDateTime;
import java.time.format.DateTimeFormatter;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import org.axtrial.evidence.CanonicalJson;
import org.axtrial.evidence.Manifest;
import org.axtrial.evidence.PackCheck;
import org.axtrial.evidence.PackFolder;
import org.axtrial.evidence.RunRecord;
import org.axtrial.evidence.Sha256;
import tools.jackson.databind.json.JsonMapper;

/** Adds a signature to a pack that verifies. What is there already is not touched; the signed PDF copy grows at its end. */
public final class PackSigner {

    private static final String RECORD = "record.json";

    private static final int MOST_SIGNATURES = 99;

    /**
     * What somebody wants to put a signature to.
     *
     * @param role as what
     * @param name printed name
     * @param meaning what the signature means
     * @param at now, with the offset from UTC
     */
    public record Order(Role role, String name, String meaning, OffsetDateTime at) {

        public Order {
            Statement.requireText("name", name);
            Statement.requireText("meaning", meaning);
            at = at.truncatedTo(ChronoUnit.SECONDS);
        }
    }

    /**
     * What was done.
     *
     * @param files the new files, paths in the pack
     * @param missing what could not be added although it was wanted or possible, and why
     * @param stampMissing whether a time stamp was wanted and did not come
     */
    public record Done(List<String> files, List<String> missing, boolean stampMissing) {

        public Done {
            files = List.copyOf(files);
            missing = List.copyOf(missing);
        }
    }

    private final Path folder;
    private final RunRecord record;
    private final List<Signature> earlier;
    private final Optional<SignedLedger> ledger;

    private PackSigner(Path folder, RunRecord record, List<Signature> earlier, Optional<SignedLedger> ledger) {
        this.folder = folder;
        this.record = record;
        this.earlier = earlier;
        this.ledger = ledger;
    }

    /**
     * Takes a pack that has just been checked.
     *
     * @param ledger what has been added after the run; empty if nothing has
     * @throws SigningException if it does not verify: nobody can sign for what has been altered
     */
    public static PackSigner of(Path folder, PackCheck pack, SignatureCheck signatures, Optional<SignedLedger> ledger)
            throws SigningException {
        if (pack.record().isEmpty()
                || !pack.problems().isEmpty()
                || !signatures.problems().isEmpty()) {
            throw new SigningException(
                    folder + " does not verify, so it is not signed. What is wrong: axtrial verify " + folder);
        }
        return new PackSigner(folder, pack.record().get(), signatures.signatures(), ledger);
    }

    /**
     * Signs.
     *
     * @param authority gives the time stamp; empty if none is wanted
     * @throws SigningException if this person has signed in this role, the certificate is not valid now, the clock stands
     *     before an earlier signature, or the files cannot be written; the pack is then as it was
     */
    public Done sign(Order order, SigningKey key, Optional<Timestamp.Authority> authority) throws SigningException {
        requireNew(order, key);
        List<String> missing = new ArrayList<>();
        try {
            Optional<byte[]> pdf = pdf(order, key, missing);
            Statement statement = statement(order, pdf);
            byte[] text = statement.bytes();
            byte[] cms = DetachedCms.sign(text, key, Optional.of(order.at().toInstant()));
            DetachedCms.verify(text, cms);
            Optional<byte[]> stamp = stamp(cms, authority, missing);
            List<String> files = write(statement, text, cms, stamp, pdf);
            return new Done(files, missing, authority.isPresent() && stamp.isEmpty());
        } catch (IOException e) {
            throw new SigningException("the signature cannot be written into " + folder + ": " + e, e);
        }
    }

    private void requireNew(Order order, SigningKey key) throws SigningException {
        CertificateFacts facts = key.facts();
        if (!facts.validAt(order.at().toInstant())) {
            throw new SigningException("the certificate of " + facts.subject() + " is valid from " + facts.from()
                    + " to " + facts.until() + ", not at " + order.at() + "; sign with a valid one");
        }
        if (earlier.size() == MOST_SIGNATURES) {
            throw new SigningException("the pack has " + MOST_SIGNATURES + " signatures already");
        }
        for (Signature signature : earlier) {
            boolean same = signature.certificate().fingerprint().equals(facts.fingerprint())
                    || signature
                            .name()
                            .toLowerCase(Locale.ROOT)
                            .equals(order.name().toLowerCase(Locale.ROOT));
            if (same && signature.role() == order.role() && !grownSince(signature)) {
                throw new SigningException(
                        signature.name() + " has signed as " + order.role().word() + " at " + signature.signedAt()
                                + ", and nothing was added since; a second signature in the same role would mean nothing");
            }
            if (OffsetDateTime.parse(signature.signedAt()).isAfter(order.at())) {
                throw new SigningException("the clock of this computer says " + order.at()
                        + ", which is before the signature of " + signature.name() + " at " + signature.signedAt()
                        + "; set the clock");
            }
        }
    }

    /** Who agrees later on, for example to a deviation, signs again for what has come since. */
    private boolean grownSince(Signature signature) {
        int now = ledger.map(SignedLedger::entries).orElse(0);
        return now > signature.ledger().map(SignedLedger::entries).orElse(0);
    }

    private Optional<byte[]> pdf(Order order, SigningKey key, List<String> missing)
            throws IOException, SigningException {
        if (!Files.exists(folder.resolve(SignedPdf.SOURCE))) {
            missing.add("The pack has no " + SignedPdf.SOURCE + ", so there is no signed PDF.");
            return Optional.empty();
        }
        if (!key.fitForPdf()) {
            missing.add("PDF readers do not know keys of this kind: the signed PDF is without it.");
            return Optional.empty();
        }
        boolean signedBefore = Files.exists(folder.resolve(SignedPdf.FILE));
        byte[] before = PackFolder.read(folder, signedBefore ? SignedPdf.FILE : SignedPdf.SOURCE);
        String reason = order.role().word() + ": " + order.meaning();
        return Optional.of(SignedPdf.sign(before, key, order.name(), reason, order.at()));
    }

    private Statement statement(Order order, Optional<byte[]> pdf) throws IOException {
        List<Statement.FileHash> files = new ArrayList<>();
        int number = earlier.size() + 1;
        List<String> names = new ArrayList<>(List.of(Manifest.FILE, RECORD));
        names.addAll(SignatureFiles.of(folder).before(number));
        for (String name : names) {
            files.add(new Statement.FileHash(name, Sha256.of(PackFolder.read(folder, name))));
        }
        return new Statement(
                Statement.FORMAT,
                number,
                order.role().word(),
                order.name(),
                order.meaning(),
                DateTimeFormatter.ISO_OFFSET_DATE_TIME.format(order.at()),
                Statement.Run.of(record),
                canonicalHash(PackFolder.read(folder, RECORD)),
                files,
                pdf.map(bytes -> new Statement.SignedReport(SignedPdf.FILE, bytes.length, Sha256.of(bytes))),
                ledger);
    }

    /** Hash of the canonical form (RFC 8785) of a JSON text: that of its content, however it is laid out. */
    static String canonicalHash(byte[] json) {
        return Sha256.of(CanonicalJson.bytes(JsonMapper.shared().readTree(json)));
    }

    /** A signature without a time stamp is better than none, so what goes wrong here is told and nothing more. */
    private static Optional<byte[]> stamp(byte[] cms, Optional<Timestamp.Authority> authority, List<String> missing) {
        if (authority.isEmpty()) {
            return Optional.empty();
        }
        try {
            return Optional.of(Timestamp.obtain(cms, authority.get()));
        } catch (SigningException e) {
            missing.add("The signature has no time stamp: " + e.getMessage() + ".");
            return Optional.empty();
        }
    }

    private List<String> write(
            Statement statement, byte[] text, byte[] cms, Optional<byte[]> stamp, Optional<byte[]> pdf)
            throws IOException {
        List<String> written = new ArrayList<>();
        Path part = folder.resolve(SignedPdf.FILE + ".part");
        Files.createDirectories(folder.resolve(Manifest.SIGNATURES));
        try {
            if (pdf.isPresent()) {
                Files.deleteIfExists(part);
                force(part, pdf.get());
            }
            write(statement.file(), text, written);
            write(statement.stem() + ".p7s", cms, written);
            if (stamp.isPresent()) {
                write(statement.stem() + ".tsr", stamp.get(), written);
            }
            if (pdf.isPresent()) {
                Files.move(part, folder.resolve(SignedPdf.FILE), StandardCopyOption.REPLACE_EXISTING);
            }
        } catch (IOException e) {
            // Half a signature would make the pack fail; nothing of it has been shown to anybody yet.
            for (String name : written) {
                Files.deleteIfExists(folder.resolve(name));
            }
            Files.deleteIfExists(part);
            throw e;
        }
        pdf.ifPresent(bytes -> written.add(SignedPdf.FILE));
        return written;
    }

    private void write(String name, byte[] bytes, List<String> written) throws IOException {
        Path file = folder.resolve(name);
        Files.createFile(file);
        written.add(name);
        force(file, bytes);
    }

    private static void force(Path file, byte[] bytes) throws IOException {
        try (FileOutputStream out = new FileOutputStream(file.toFile())) {
            out.write(bytes);
            out.getFD().sync();
        }
    }
}
