package org.axtrial.signing;

import java.io.ByteArrayInputStream;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.InputStream;
import java.security.cert.X509Certificate;
import java.time.OffsetDateTime;
import java.util.Arrays;
import java.util.GregorianCalendar;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.TimeZone;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.interactive.digitalsignature.PDSignature;
import org.apache.pdfbox.pdmodel.interactive.digitalsignature.SignatureInterface;
import org.apache.pdfbox.pdmodel.interactive.digitalsignature.SignatureOptions;
import org.bouncycastle.asn1.ASN1InputStream;

/**
 * The copy of the PDF report that carries the signatures in the way in which PDF readers look for them (ETSI EN 319
 * 142-1, level B-B). Each signature is appended, and nothing before it changes.
 */
final class SignedPdf {

    /** The report as the run made it. */
    static final String SOURCE = "report.pdf";

    /** The signed copy. */
    static final String FILE = "signatures/report-signed.pdf";

    /** Bytes kept free for one signature with its certificates. */
    private static final int ROOM = 32 * 1024;

    private SignedPdf() {}

    /** Appends a signature. */
    static byte[] sign(byte[] pdf, SigningKey key, String name, String reason, OffsetDateTime at)
            throws SigningException {
        try (PDDocument document = Loader.loadPDF(pdf);
                SignatureOptions options = new SignatureOptions()) {
            PDSignature signature = new PDSignature();
            signature.setFilter(PDSignature.FILTER_ADOBE_PPKLITE);
            signature.setSubFilter(PDSignature.SUBFILTER_ETSI_CADES_DETACHED);
            signature.setName(name);
            signature.setReason(reason);
            signature.setSignDate(calendar(at));
            options.setPreferredSignatureSize(ROOM);
            document.addSignature(signature, signer(key), options);
            ByteArrayOutputStream out = new ByteArrayOutputStream();
            document.saveIncremental(out);
            return out.toByteArray();
        } catch (IOException e) {
            throw new SigningException("the PDF report cannot be signed: " + e.getMessage(), e);
        }
    }

    private static SignatureInterface signer(SigningKey key) {
        return (InputStream content) -> {
            try {
                return DetachedCms.sign(content.readAllBytes(), key, Optional.empty());
            } catch (SigningException e) {
                throw new IOException(e.getMessage(), e);
            }
        };
    }

    private static GregorianCalendar calendar(OffsetDateTime at) {
        GregorianCalendar calendar = new GregorianCalendar(TimeZone.getTimeZone(at.getOffset()), Locale.ROOT);
        calendar.setTimeInMillis(at.toInstant().toEpochMilli());
        return calendar;
    }

    /**
     * Proves the signatures in a signed copy.
     *
     * @param pdf the signed copy
     * @param ends its length after each signature, bytes, in order
     * @param signers whose certificate each signature must have, in order
     * @throws SigningException if one does not hold, or there are others
     */
    static void verify(byte[] pdf, List<Long> ends, List<X509Certificate> signers) throws SigningException {
        try (PDDocument document = Loader.loadPDF(pdf)) {
            List<PDSignature> signatures = document.getSignatureDictionaries();
            if (signatures.size() != ends.size()) {
                throw new SigningException(
                        "it holds " + signatures.size() + " signatures, and " + ends.size() + " were made on it");
            }
            for (int i = 0; i < ends.size(); i++) {
                int[] range = signatures.get(i).getByteRange();
                if (range.length != 4 || range[0] != 0 || (long) range[2] + range[3] != ends.get(i)) {
                    throw new SigningException("its signature " + (i + 1) + " does not cover the whole file");
                }
                byte[] cms = withoutPadding(signatures.get(i).getContents(pdf));
                DetachedCms.Signer signer = DetachedCms.verify(signatures.get(i).getSignedContent(pdf), cms);
                if (!signer.certificate().equals(signers.get(i))) {
                    throw new SigningException("its signature " + (i + 1) + " is of another key");
                }
            }
        } catch (IOException e) {
            throw new SigningException("it cannot be read as a signed PDF: " + e.getMessage(), e);
        }
    }

    /** A signature stands in room that was reserved for it, filled up with zeros. */
    private static byte[] withoutPadding(byte[] contents) throws IOException {
        ByteArrayInputStream bytes = new ByteArrayInputStream(contents);
        try (ASN1InputStream in = new ASN1InputStream(bytes)) {
            in.readObject();
            return Arrays.copyOf(contents, contents.length - bytes.available());
        }
    }
}
