package org.axtrial.signing;

import java.security.cert.CertificateEncodingException;
import java.security.cert.X509Certificate;
import java.time.Instant;
import java.util.HexFormat;
import java.util.Locale;
import org.axtrial.evidence.Sha256;
import org.bouncycastle.asn1.x500.RDN;
import org.bouncycastle.asn1.x500.style.BCStyle;
import org.bouncycastle.asn1.x500.style.IETFUtils;
import org.bouncycastle.cert.jcajce.JcaX509CertificateHolder;

/**
 * What a person reads of a certificate.
 *
 * @param subject whose it is
 * @param name the common name in it; empty string if there is none
 * @param issuer who gave it
 * @param selfMade whether it vouches for itself, so that only its fingerprint can tell whose it is
 * @param from first instant of its validity
 * @param until last instant of its validity
 * @param fingerprint SHA-256 of the certificate, in pairs of hexadecimal digits with colons
 */
public record CertificateFacts(
        String subject, String name, String issuer, boolean selfMade, Instant from, Instant until, String fingerprint) {

    static CertificateFacts of(X509Certificate certificate) {
        return new CertificateFacts(
                certificate.getSubjectX500Principal().getName(),
                commonName(certificate),
                certificate.getIssuerX500Principal().getName(),
                isSelfMade(certificate),
                certificate.getNotBefore().toInstant(),
                certificate.getNotAfter().toInstant(),
                fingerprint(certificate));
    }

    /** Whether it was valid at an instant, both ends included. */
    boolean validAt(Instant at) {
        return !at.isBefore(from) && !at.isAfter(until);
    }

    static boolean isSelfMade(X509Certificate certificate) {
        return certificate.getSubjectX500Principal().equals(certificate.getIssuerX500Principal());
    }

    static String fingerprint(X509Certificate certificate) {
        return HexFormat.ofDelimiter(":")
                .withUpperCase()
                .formatHex(HexFormat.of().parseHex(Sha256.of(encoded(certificate))))
                .toUpperCase(Locale.ROOT);
    }

    static byte[] encoded(X509Certificate certificate) {
        try {
            return certificate.getEncoded();
        } catch (CertificateEncodingException e) {
            throw new IllegalStateException("a certificate that was read can be written", e);
        }
    }

    private static String commonName(X509Certificate certificate) {
        try {
            RDN[] names = new JcaX509CertificateHolder(certificate).getSubject().getRDNs(BCStyle.CN);
            return names.length == 0
                    ? ""
                    : IETFUtils.valueToString(names[0].getFirst().getValue());
        } catch (CertificateEncodingException e) {
            throw new IllegalStateException("a certificate that was read can be written", e);
        }
    }
}
