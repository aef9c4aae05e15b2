package org.axtrial.signing;

import static com.fasterxml.jackson.annotation.JsonInclude.Include.NON_ABSENT;

import com.fasterxml.jackson.annotation.JsonInclude;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.OffsetDateTime;
import java.util.Arrays;
import java.util.List;
import java.util.Optional;
import org.axtrial.evidence.CanonicalJson;
import org.axtrial.evidence.PackFolder;
import org.axtrial.evidence.RunRecord;
import org.jspecify.annotations.Nullable;
import tools.jackson.core.JacksonException;
import tools.jackson.core.StreamReadFeature;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.databind.DeserializationFeature;
import tools.jackson.databind.json.JsonMapper;

/**
 * What somebody puts a signature to: name, time and meaning (the elements of 21 CFR 11.50), and the hashes that link them
 * to one record and to no other (21 CFR 11.70). Kept as canonical JSON (RFC 8785).
 *
 * @param format {@link #FORMAT}
 * @param number 1 for the first signature of a pack, then one more each
 * @param role as what the person signs
 * @param name printed name of the person
 * @param meaning what the signature means, in the person's words
 * @param signedAt date and time with the offset from UTC, whole seconds, ISO 8601
 * @param run which run it is, and what it came to
 * @param recordCanonicalSha256 hash of the canonical form (RFC 8785) of {@code record.json}
 * @param files hash of the manifest, the record, and every file of the signatures before this one
 * @param report the signed copy of the PDF report; empty if there is none
 * @param ledger what had been added after the run; empty if nothing had
 */
record Statement(
        String format,
        int number,
        String role,
        String name,
        String meaning,
        String signedAt,
        Run run,
        String recordCanonicalSha256,
        List<FileHash> files,
        Optional<SignedReport> report,
        @JsonInclude(NON_ABSENT) Optional<SignedLedger> ledger) {

    static final String FORMAT = "axtrial-signature-1";

    private static final int LONGEST_TEXT = 500;

    private static final JsonMapper MAPPER = JsonMapper.builder(JsonFactory.builder()
                    .enable(StreamReadFeature.STRICT_DUPLICATE_DETECTION)
                    .build())
            .enable(DeserializationFeature.FAIL_ON_UNKNOWN_PROPERTIES, DeserializationFeature.FAIL_ON_TRAILING_TOKENS)
            .build();

    /** A run as a signature names it. */
    record Run(String id, String verdict, String ended, boolean simulated) {

        static Run of(RunRecord record) {
            return new Run(
                    record.stamps().runId(),
                    record.verdict().printed(),
                    record.ended().name(),
                    record.simulated());
        }
    }

    /** A file of the pack and its SHA-256. */
    record FileHash(String file, String sha256) {

        FileHash {
            if (!PackFolder.isName(file)) {
                throw new IllegalArgumentException("\"" + file + "\" is no name of a file in a pack");
            }
            requireHash(sha256);
        }
    }

    /**
     * The signed copy of the PDF report as it was after this signature; later ones are appended to it.
     *
     * @param size its length then, bytes
     * @param sha256 hash of so many bytes from its beginning
     */
    record SignedReport(String file, long size, String sha256) {

        SignedReport {
            requireHash(sha256);
        }
    }

    Statement {
        if (!FORMAT.equals(format)) {
            throw new IllegalArgumentException("it has the format \"" + format + "\", expected \"" + FORMAT + "\"");
        }
        if (number < 1 || Role.of(role).isEmpty()) {
            throw new IllegalArgumentException("number " + number + " and role \"" + role + "\" are no signature");
        }
        requireText("name", name);
        requireText("meaning", meaning);
        requireHash(recordCanonicalSha256);
        if (run == null) {
            throw new IllegalArgumentException("it names no run");
        }
        time(signedAt);
        files = List.copyOf(files);
    }

    static void requireText(String what, @Nullable String text) {
        if (text == null || text.isBlank() || text.length() > LONGEST_TEXT || text.matches("(?s).*\\p{Cntrl}.*")) {
            throw new IllegalArgumentException("the " + what + " of a signature is a line of 1 to " + LONGEST_TEXT
                    + " characters, got \"" + text + "\"");
        }
    }

    static void requireHash(@Nullable String sha256) {
        if (sha256 == null || !sha256.matches("[0-9a-f]{64}")) {
            throw new IllegalArgumentException("a SHA-256 has 64 hexadecimal digits, got \"" + sha256 + "\"");
        }
    }

    private static OffsetDateTime time(@Nullable String text) {
        try {
            return OffsetDateTime.parse(text == null ? "" : text);
        } catch (DateTimeException e) {
            throw new IllegalArgumentException("\"" + text + "\" is no date and time with an offset", e);
        }
    }

    /** When it was signed, as the signer says. */
    Instant at() {
        return time(signedAt).toInstant();
    }

    /** Name of its file, for example {@code signatures/01-tester.json}. */
    String file() {
        return stem() + ".json";
    }

    /** Its files without their ends. */
    String stem() {
        return "signatures/%02d-%s".formatted(number, role);
    }

    byte[] bytes() {
        return CanonicalJson.bytes(MAPPER.valueToTree(this));
    }

    /**
     * Reads a statement.
     *
     * @throws SigningException if it is no statement, or not in canonical form
     */
    static Statement read(byte[] bytes) throws SigningException {
        try {
            Statement statement = MAPPER.readValue(bytes, Statement.class);
            if (!Arrays.equals(bytes, statement.bytes())) {
                throw new SigningException("it is not in canonical form (RFC 8785), so it was altered");
            }
            return statement;
        } catch (JacksonException | IllegalArgumentException | NullPointerException e) {
            throw new SigningException("it is no statement of a signature: " + e.getMessage(), e);
        }
    }
}
