package org.axtrial.signing;

import java.math.BigInteger;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.cert.X509Certificate;
import java.time.Instant;
import java.util.Date;
import java.util.List;
import org.bouncycastle.asn1.ASN1ObjectIdentifier;
import org.bouncycastle.asn1.x500.X500Name;
import org.bouncycastle.asn1.x509.BasicConstraints;
import org.bouncycastle.asn1.x509.ExtendedKeyUsage;
import org.bouncycastle.asn1.x509.Extension;
import org.bouncycastle.asn1.x509.KeyPurposeId;
import org.bouncycastle.asn1.x509.KeyUsage;
import org.bouncycastle.cert.X509v3CertificateBuilder;
import org.bouncycastle.cert.jcajce.JcaCertStore;
import org.bouncycastle.cert.jcajce.JcaX509CertificateConverter;
import org.bouncycastle.cert.jcajce.JcaX509v3CertificateBuilder;
import org.bouncycastle.cms.jcajce.JcaSimpleSignerInfoGeneratorBuilder;
import org.bouncycastle.operator.jcajce.JcaContentSignerBuilder;
import org.bouncycastle.operator.jcajce.JcaDigestCalculatorProviderBuilder;
import org.bouncycastle.tsp.TSPAlgorithms;
import org.bouncycastle.tsp.TimeStampRequest;
import org.bouncycastle.tsp.TimeStampResponseGenerator;
import org.bouncycastle.tsp.TimeStampTokenGenerator;

/** An invented PKI: a root, keys that it vouches for, and a time-stamping authority. */
final class Pki {

    static final Instant FROM = Instant.parse("2031-01-01T00:00:00Z");
    static final Instant UNTIL = Instant.parse("2033-01-01T00:00:00Z");

    private final KeyPair rootKeys;
    final X509Certificate root;

    Pki() throws Exception {
        rootKeys = keys();
        root = certificate("CN=Invented Root", rootKeys, "CN=Invented Root", true, false);
    }

    private static KeyPair keys() throws Exception {
        KeyPairGenerator generator = KeyPairGenerator.getInstance("EC");
        generator.initialize(256);
        return generator.generateKeyPair();
    }

    private X509Certificate certificate(String subject, KeyPair pair, String issuer, boolean ca, boolean stamps)
            throws Exception {
        X509v3CertificateBuilder builder = new JcaX509v3CertificateBuilder(
                        new X500Name(issuer),
                        BigInteger.valueOf(subject.hashCode() & 0xffffL).add(BigInteger.ONE),
                        Date.from(FROM),
                        Date.from(UNTIL),
                        new X500Name(subject),
                        pair.getPublic())
                .addExtension(Extension.basicConstraints, true, new BasicConstraints(ca))
                .addExtension(
                        Extension.keyUsage, true, new KeyUsage(ca ? KeyUsage.keyCertSign : KeyUsage.digitalSignature));
        if (stamps) {
            builder.addExtension(
                    Extension.extendedKeyUsage, true, new ExtendedKeyUsage(KeyPurposeId.id_kp_timeStamping));
        }
        return new JcaX509CertificateConverter()
                .getCertificate(
                        builder.build(new JcaContentSignerBuilder("SHA256withECDSA").build(rootKeys.getPrivate())));
    }

    SigningKey key(String name) throws Exception {
        KeyPair pair = keys();
        return new SigningKey(
                pair.getPrivate(), List.of(certificate("CN=" + name, pair, "CN=Invented Root", false, false), root));
    }

    /** An authority that stamps with the given time, whatever it is asked. */
    Timestamp.Authority authority(Instant at) throws Exception {
        KeyPair pair = keys();
        X509Certificate certificate = certificate("CN=Invented Clock", pair, "CN=Invented Root", false, true);
        TimeStampTokenGenerator tokens = new TimeStampTokenGenerator(
                new JcaSimpleSignerInfoGeneratorBuilder().build("SHA256withECDSA", pair.getPrivate(), certificate),
                new JcaDigestCalculatorProviderBuilder()
                        .build()
                        .get(new org.bouncycastle.asn1.x509.AlgorithmIdentifier(TSPAlgorithms.SHA256)),
                new ASN1ObjectIdentifier("1.2.3.4.5"));
        tokens.addCertificates(new JcaCertStore(List.of(certificate)));
        return request -> {
            try {
                return new TimeStampResponseGenerator(tokens, TSPAlgorithms.ALLOWED)
                        .generate(new TimeStampRequest(request), BigInteger.ONE, Date.from(at))
                        .getEncoded();
            } catch (org.bouncycastle.tsp.TSPException e) {
                throw new java.io.IOException(e);
            }
        };
    }
}
