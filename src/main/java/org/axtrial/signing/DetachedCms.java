package org.axtrial.signing;

import java.io.IOException;
import java.security.cert.CertificateException;
import java.security.cert.X509Certificate;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.Date;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.axtrial.evidence.Sha256;
import org.bouncycastle.asn1.ASN1EncodableVector;
import org.bouncycastle.asn1.ASN1Encoding;
import org.bouncycastle.asn1.ASN1Set;
import org.bouncycastle.asn1.DERSet;
import org.bouncycastle.asn1.cms.Attribute;
import org.bouncycastle.asn1.cms.AttributeTable;
import org.bouncycastle.asn1.cms.CMSAttributes;
import org.bouncycastle.asn1.cms.CMSObjectIdentifiers;
import org.bouncycastle.asn1.cms.ContentInfo;
import org.bouncycastle.asn1.cms.SignedData;
import org.bouncycastle.asn1.cms.SignerInfo;
import org.bouncycastle.asn1.cms.Time;
import org.bouncycastle.asn1.ess.ESSCertIDv2;
import org.bouncycastle.asn1.ess.SigningCertificateV2;
import org.bouncycastle.asn1.pkcs.PKCSObjectIdentifiers;
import org.bouncycastle.cert.X509CertificateHolder;
import org.bouncycastle.cert.jcajce.JcaCertStore;
import org.bouncycastle.cert.jcajce.JcaX509CertificateConverter;
import org.bouncycastle.cms.CMSAttributeTableGenerator;
import org.bouncycastle.cms.CMSException;
import org.bouncycastle.cms.CMSProcessableByteArray;
import org.bouncycastle.cms.CMSSignedData;
import org.bouncycastle.cms.CMSSignedDataGenerator;
import org.bouncycastle.cms.DefaultSignedAttributeTableGenerator;
import org.bouncycastle.cms.SignerInformation;
import org.bouncycastle.cms.jcajce.JcaSignerInfoGeneratorBuilder;
import org.bouncycastle.cms.jcajce.JcaSimpleSignerInfoVerifierBuilder;
import org.bouncycastle.operator.OperatorCreationException;
import org.bouncycastle.operator.jcajce.JcaContentSignerBuilder;
import org.bouncycastle.operator.jcajce.JcaDigestCalculatorProviderBuilder;
import org.bouncycastle.util.Store;

/**
 * A signature in a file beside what it signs: CMS SignedData (RFC 5652) without content, in DER. The signed attributes
 * name every certificate that is kept with it (RFC 5035), so that each byte of the file is bound: what is not signed is
 * a consequence of what is.
 */
final class DetachedCms {

    private DetachedCms() {}

    /**
     * Who signed.
     *
     * @param chain certificate of the key, then the others that are kept with the signature
     * @param signedAt when, as the signer says, in whole seconds; empty in signatures of PDF files, which say it elsewhere
     */
    record Signer(List<X509Certificate> chain, Optional<Instant> signedAt) {

        Signer {
            chain = List.copyOf(chain);
        }

        X509Certificate certificate() {
            return chain.get(0);
        }
    }

    /**
     * Signs.
     *
     * @param signedAt goes into the signed attributes; empty leaves it out, as ETSI EN 319 142-1 asks of PDF signatures
     */
    static byte[] sign(byte[] content, SigningKey key, Optional<Instant> signedAt) throws SigningException {
        try {
            ASN1EncodableVector attributes = new ASN1EncodableVector();
            attributes.add(certificates(key.chain()));
            // The generator takes the time of the machine if it finds none, so one stands in and is taken out again.
            Date date = Date.from(signedAt.orElse(Instant.EPOCH));
            attributes.add(new Attribute(CMSAttributes.signingTime, new DERSet(new Time(date))));
            CMSAttributeTableGenerator all = new DefaultSignedAttributeTableGenerator(new AttributeTable(attributes));
            CMSAttributeTableGenerator chosen = signedAt.isPresent()
                    ? all
                    : parameters -> all.getAttributes(parameters).remove(CMSAttributes.signingTime);
            CMSSignedDataGenerator generator = new CMSSignedDataGenerator();
            generator.addSignerInfoGenerator(
                    new JcaSignerInfoGeneratorBuilder(new JcaDigestCalculatorProviderBuilder().build())
                            .setSignedAttributeGenerator(chosen)
                            .build(new JcaContentSignerBuilder(key.algorithm()).build(key.key()), key.certificate()));
            generator.addCertificates(new JcaCertStore(key.chain()));
            CMSSignedData signed = generator.generate(new CMSProcessableByteArray(content), false);
            return signed.toASN1Structure().getEncoded(ASN1Encoding.DER);
        } catch (CMSException | OperatorCreationException | CertificateException | IOException e) {
            throw new SigningException("the key cannot sign: " + e.getMessage(), e);
        }
    }

    private static Attribute certificates(List<X509Certificate> chain) {
        ESSCertIDv2[] ids = chain.stream()
                .map(certificate -> new ESSCertIDv2(hash(certificate)))
                .toArray(ESSCertIDv2[]::new);
        return new Attribute(
                PKCSObjectIdentifiers.id_aa_signingCertificateV2, new DERSet(new SigningCertificateV2(ids)));
    }

    private static byte[] hash(X509Certificate certificate) {
        return HexFormat.of().parseHex(Sha256.of(CertificateFacts.encoded(certificate)));
    }

    /**
     * Proves a signature.
     *
     * @throws SigningException if it is not a signature of this content, or not in the one form that {@link #sign} gives it
     */
    static Signer verify(byte[] content, byte[] signature) throws SigningException {
        try {
            CMSSignedData signed = new CMSSignedData(new CMSProcessableByteArray(content), signature);
            List<SignerInformation> infos =
                    new ArrayList<>(signed.getSignerInfos().getSigners());
            if (infos.size() != 1) {
                throw new SigningException("it holds " + infos.size() + " signers instead of one");
            }
            SignerInformation info = infos.get(0);
            List<X509Certificate> chain = chain(signed, info);
            if (!info.verify(
                    new JcaSimpleSignerInfoVerifierBuilder().build(chain.get(0).getPublicKey()))) {
                throw new SigningException("the signature does not fit; it or what it signs was altered");
            }
            requireOwnForm(signature, signed, info);
            return new Signer(chain, time(info));
        } catch (CMSException | OperatorCreationException | CertificateException | IOException | RuntimeException e) {
            // Bouncy Castle answers malformed ASN.1 with exceptions of many kinds.
            throw new SigningException("it is no signature that holds: " + e.getMessage(), e);
        }
    }

    /** The certificates in the order in which the signed attribute names them; it must name all that are there. */
    private static List<X509Certificate> chain(CMSSignedData signed, SignerInformation info)
            throws CertificateException, IOException, SigningException {
        Map<String, X509Certificate> kept = new LinkedHashMap<>();
        Store<X509CertificateHolder> store = signed.getCertificates();
        for (X509CertificateHolder holder : store.getMatches(null)) {
            X509Certificate certificate = new JcaX509CertificateConverter().getCertificate(holder);
            kept.put(Sha256.of(CertificateFacts.encoded(certificate)), certificate);
        }
        AttributeTable attributes = info.getSignedAttributes();
        Attribute named = attributes == null ? null : attributes.get(PKCSObjectIdentifiers.id_aa_signingCertificateV2);
        if (named == null) {
            throw new SigningException("it does not say which certificate it was made with");
        }
        List<X509Certificate> chain = new ArrayList<>();
        for (ESSCertIDv2 id :
                SigningCertificateV2.getInstance(named.getAttributeValues()[0]).getCerts()) {
            X509Certificate certificate = kept.remove(HexFormat.of().formatHex(id.getCertHash()));
            if (certificate == null) {
                throw new SigningException("a certificate that it was made with is missing or altered");
            }
            chain.add(certificate);
        }
        if (chain.isEmpty() || !kept.isEmpty()) {
            throw new SigningException("it holds a certificate that the signer did not put there");
        }
        if (!info.getSID().match(new X509CertificateHolder(CertificateFacts.encoded(chain.get(0))))) {
            throw new SigningException("it names another signer than the certificate that it was made with");
        }
        return chain;
    }

    /** Builds the file anew from its signed parts; a byte that is bound by nothing shows as a difference. */
    private static void requireOwnForm(byte[] signature, CMSSignedData signed, SignerInformation info)
            throws IOException, SigningException {
        SignedData data = SignedData.getInstance(signed.toASN1Structure().getContent());
        SignerInfo told = info.toASN1Structure();
        ASN1Set attributes = told.getAuthenticatedAttributes();
        SignerInfo signer = new SignerInfo(
                told.getSID(),
                told.getDigestAlgorithm(),
                attributes,
                told.getDigestEncryptionAlgorithm(),
                told.getEncryptedDigest(),
                (ASN1Set) null);
        SignedData anew = new SignedData(
                new DERSet(told.getDigestAlgorithm()),
                new ContentInfo(CMSObjectIdentifiers.data, null),
                data.getCertificates(),
                null,
                new DERSet(signer));
        byte[] bytes = new ContentInfo(CMSObjectIdentifiers.signedData, anew).getEncoded(ASN1Encoding.DER);
        if (!Arrays.equals(bytes, signature)) {
            throw new SigningException("it is not in the form in which this program writes it, so it was altered");
        }
    }

    private static Optional<Instant> time(SignerInformation info) {
        Attribute time = info.getSignedAttributes().get(CMSAttributes.signingTime);
        return Optional.ofNullable(time)
                .map(t -> Time.getInstance(t.getAttributeValues()[0]).getDate().toInstant());
    }
}
