package org.axtrial.signing;

import java.io.IOException;
import java.io.InputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.InvalidAlgorithmParameterException;
import java.security.cert.CertPathBuilder;
import java.security.cert.CertPathBuilderException;
import java.security.cert.CertStore;
import java.security.cert.Certificate;
import java.security.cert.CertificateException;
import java.security.cert.CertificateFactory;
import java.security.cert.CollectionCertStoreParameters;
import java.security.cert.PKIXBuilderParameters;
import java.security.cert.TrustAnchor;
import java.security.cert.X509CertSelector;
import java.security.cert.X509Certificate;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Date;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;

/** Certificates that somebody trusts: roots of a customer's PKI, or self-made ones whose fingerprint was compared. */
public final class Trust {

    /** Nobody named any certificate, so nobody is trusted and nobody is missed. */
    public static final Trust NONE = new Trust(List.of());

    private static final long LARGEST_FILE = 16L << 20;

    /** What can be said of a certificate. */
    public enum Verdict {
        /** It, or one that vouches for it, is among those named. */
        TRUSTED,
        /** It vouches for itself; only its fingerprint can tell whose it is. */
        SELF_MADE,
        /** Somebody vouches for it who is not among those named. */
        UNKNOWN_ISSUER
    }

    private final List<X509Certificate> anchors;

    private Trust(List<X509Certificate> anchors) {
        this.anchors = List.copyOf(anchors);
    }

    /**
     * Reads certificates, PEM one after another or one in DER.
     *
     * @throws SigningException if the file is missing or holds no certificate
     */
    public static Trust read(Path file) throws SigningException {
        List<X509Certificate> found = new ArrayList<>();
        try {
            if (Files.size(file) > LARGEST_FILE) {
                throw new SigningException(file + " is too large for a file of certificates");
            }
            try (InputStream in = Files.newInputStream(file)) {
                for (Certificate certificate :
                        CertificateFactory.getInstance("X.509").generateCertificates(in)) {
                    found.add((X509Certificate) certificate);
                }
            }
        } catch (IOException | CertificateException e) {
            throw new SigningException(file + " cannot be read as certificates (PEM): " + e.getMessage(), e);
        }
        if (found.isEmpty()) {
            throw new SigningException(file + " holds no certificate (PEM)");
        }
        return new Trust(found);
    }

    /** Whether anybody was named. */
    public boolean isGiven() {
        return !anchors.isEmpty();
    }

    /** Judges a certificate as of an instant. Whether it was withdrawn before is not asked: that needs a server. */
    Verdict of(List<X509Certificate> chain, Instant at) {
        X509Certificate certificate = chain.get(0);
        if (anchors.contains(certificate) || (isGiven() && leadsToAnchor(chain, at))) {
            return Verdict.TRUSTED;
        }
        return CertificateFacts.isSelfMade(certificate) ? Verdict.SELF_MADE : Verdict.UNKNOWN_ISSUER;
    }

    private boolean leadsToAnchor(List<X509Certificate> chain, Instant at) {
        Set<TrustAnchor> roots = new LinkedHashSet<>();
        anchors.forEach(anchor -> roots.add(new TrustAnchor(anchor, null)));
        X509CertSelector signer = new X509CertSelector();
        signer.setCertificate(chain.get(0));
        try {
            PKIXBuilderParameters parameters = new PKIXBuilderParameters(roots, signer);
            parameters.addCertStore(CertStore.getInstance("Collection", new CollectionCertStoreParameters(chain)));
            parameters.setRevocationEnabled(false);
            parameters.setDate(Date.from(at));
            CertPathBuilder.getInstance("PKIX").build(parameters);
            return true;
        } catch (CertPathBuilderException e) {
            return false;
        } catch (InvalidAlgorithmParameterException e) {
            throw new IllegalStateException("the parameters are those of PKIX", e);
        } catch (GeneralSecurityException e) {
            throw new IllegalStateException("every Java has PKIX", e);
        }
    }
}
