package org.axtrial.signing;

import java.io.IOException;
import java.math.BigInteger;
import java.security.SecureRandom;
import java.security.cert.CertificateException;
import java.security.cert.X509Certificate;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.axtrial.evidence.Sha256;
import org.bouncycastle.cert.X509CertificateHolder;
import org.bouncycastle.cert.jcajce.JcaX509CertificateConverter;
import org.bouncycastle.cms.jcajce.JcaSimpleSignerInfoVerifierBuilder;
import org.bouncycastle.operator.OperatorCreationException;
import org.bouncycastle.tsp.TSPAlgorithms;
import org.bouncycastle.tsp.TSPException;
import org.bouncycastle.tsp.TimeStampRequest;
import org.bouncycastle.tsp.TimeStampRequestGenerator;
import org.bouncycastle.tsp.TimeStampResponse;
import org.bouncycastle.tsp.TimeStampToken;

/**
 * The word of a time-stamping authority that a signature file was there at a time (RFC 3161), kept as the authority's
 * reply.
 *
 * @param at the time it gives, UTC
 * @param authority its certificate
 * @param trust what can be said of that certificate
 */
public record Timestamp(Instant at, CertificateFacts authority, Trust.Verdict trust) {

    /** Asks an authority. */
    public interface Authority {

        /**
         * Sends a request and waits for the reply.
         *
         * @param request a TimeStampReq in DER
         * @return the bytes of the reply
         * @throws IOException if there is no reply; the message says why
         */
        byte[] ask(byte[] request) throws IOException;
    }

    private static final int NONCE_BITS = 64;

    /**
     * Obtains a time stamp.
     *
     * @param file bytes to be stamped
     * @return the reply, proven to be for these bytes and this request
     * @throws SigningException if none came, the authority refused, or the reply is for something else
     */
    static byte[] obtain(byte[] file, Authority authority) throws SigningException {
        TimeStampRequestGenerator generator = new TimeStampRequestGenerator();
        generator.setCertReq(true);
        BigInteger nonce = new BigInteger(NONCE_BITS, new SecureRandom());
        try {
            TimeStampRequest request = generator.generate(TSPAlgorithms.SHA256, hash(file), nonce);
            byte[] reply = authority.ask(request.getEncoded());
            TimeStampResponse response = new TimeStampResponse(reply);
            if (response.getTimeStampToken() == null) {
                throw new SigningException(
                        "the authority refused (status " + response.getStatus() + "): " + response.getStatusString());
            }
            response.validate(request);
            verify(file, reply, Trust.NONE);
            return reply;
        } catch (TSPException e) {
            throw new SigningException("the reply of the authority does not match the request: " + e.getMessage(), e);
        } catch (IOException e) {
            throw new SigningException("no time stamp came: " + e.getMessage(), e);
        }
    }

    /**
     * Proves a reply that was kept.
     *
     * @throws SigningException if it is not for these bytes, or its signature does not hold
     */
    static Timestamp verify(byte[] file, byte[] reply, Trust trust) throws SigningException {
        try {
            TimeStampToken token = new TimeStampResponse(reply).getTimeStampToken();
            if (token == null) {
                throw new SigningException("it holds no time stamp");
            }
            boolean sha256 = TSPAlgorithms.SHA256.equals(
                    token.getTimeStampInfo().getHashAlgorithm().getAlgorithm());
            byte[] stamped = token.getTimeStampInfo().getMessageImprintDigest();
            if (!sha256 || !HexFormat.of().formatHex(stamped).equals(Sha256.of(file))) {
                throw new SigningException("it is a time stamp of something else");
            }
            List<X509Certificate> chain = chain(token);
            token.validate(new JcaSimpleSignerInfoVerifierBuilder().build(chain.get(0)));
            Instant at = token.getTimeStampInfo().getGenTime().toInstant();
            return new Timestamp(at, CertificateFacts.of(chain.get(0)), trust.of(chain, at));
        } catch (TSPException | IOException | CertificateException | OperatorCreationException | RuntimeException e) {
            // Bouncy Castle answers malformed ASN.1 with exceptions of many kinds.
            throw new SigningException("it is no time stamp that holds: " + e.getMessage(), e);
        }
    }

    private static List<X509Certificate> chain(TimeStampToken token) throws CertificateException, SigningException {
        List<X509Certificate> chain = new ArrayList<>();
        for (X509CertificateHolder holder : token.getCertificates().getMatches(null)) {
            X509Certificate certificate = new JcaX509CertificateConverter().getCertificate(holder);
            chain.add(token.getSID().match(holder) ? 0 : chain.size(), certificate);
        }
        if (chain.isEmpty()) {
            throw new SigningException("it does not bring the certificate of its authority");
        }
        return chain;
    }

    private static byte[] hash(byte[] file) {
        return HexFormat.of().parseHex(Sha256.of(file));
    }
}
