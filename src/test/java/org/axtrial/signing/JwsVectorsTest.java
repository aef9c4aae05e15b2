package org.axtrial.signing;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.security.AlgorithmParameters;
import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.spec.ECGenParameterSpec;
import java.security.spec.ECParameterSpec;
import java.security.spec.ECPoint;
import java.security.spec.ECPrivateKeySpec;
import java.security.spec.ECPublicKeySpec;
import java.security.spec.PKCS8EncodedKeySpec;
import java.util.Arrays;
import java.util.Base64;
import java.util.HexFormat;
import java.util.List;
import org.bouncycastle.asn1.ASN1Encodable;
import org.bouncycastle.asn1.ASN1Integer;
import org.bouncycastle.asn1.DERSequence;
import org.junit.jupiter.api.Test;

/**
 * Signatures of packs are CMS and not JWS, but the algorithms below are the same: those that {@link SigningKey} chooses
 * for a key are held against the published signatures of JWS.
 */
class JwsVectorsTest {

    private static final Base64.Decoder BASE64URL = Base64.getUrlDecoder();

    private static java.security.Signature algorithmOf(PrivateKey key) throws GeneralSecurityException {
        return java.security.Signature.getInstance(new SigningKey(key, List.of()).algorithm());
    }

    // Source: RFC 8037, Appendix A.1 and A.4: the key is that of RFC 8032, 7.1, test 1. Ed25519 gives the same key and
    // text
    // the same signature, so the signature itself is compared.
    @Test
    void ed25519OfRfc8037() throws GeneralSecurityException {
        String input = "eyJhbGciOiJFZERTQSJ9.RXhhbXBsZSBvZiBFZDI1NTE5IHNpZ25pbmc";
        String secret =
                "302e020100300506032b6570042204209d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60";
        PrivateKey key = KeyFactory.getInstance("Ed25519")
                .generatePrivate(new PKCS8EncodedKeySpec(HexFormat.of().parseHex(secret)));
        java.security.Signature signer = algorithmOf(key);
        signer.initSign(key);
        signer.update(input.getBytes(StandardCharsets.US_ASCII));
        assertThat(Base64.getUrlEncoder().withoutPadding().encodeToString(signer.sign()))
                .isEqualTo("hgyY0il_MGCjP0JzlnLWG1PPOt7-09PGcvMg3AIbQR6dWbhijcNR4ki4iylGjg5BhVsPt9g7sVvpAr_MuM0KAg");
        assertThat(new String(BASE64URL.decode(input.split("\\.", -1)[1]), StandardCharsets.US_ASCII))
                .isEqualTo("Example of Ed25519 signing");
    }

    // Source: RFC 7515, Appendix A.3: ECDSA on P-256 with SHA-256. Each signing gives another signature, so the
    // published one
    // is verified. JWS writes its two numbers one after the other (RFC 7518, 3.4), CMS as a sequence (RFC 3279, 2.2.3).
    @Test
    void p256OfRfc7515() throws GeneralSecurityException, IOException {
        String input =
                "eyJhbGciOiJFUzI1NiJ9.eyJpc3MiOiJqb2UiLA0KICJleHAiOjEzMDA4MTkzODAsDQogImh0dHA6Ly9leGFtcGxlLmNvbS9pc19yb290"
                        + "Ijp0cnVlfQ";
        byte[] published = BASE64URL.decode(
                "DtEhU3ljbEg8L38VWAfUAqOyKAM6-Xx-F4GawxaepmXFCgfTjDxw5djxLa8ISlSApmWQxfKTUJqPP3-Kg6NU1Q");
        AlgorithmParameters curve = AlgorithmParameters.getInstance("EC");
        curve.init(new ECGenParameterSpec("secp256r1"));
        ECParameterSpec p256 = curve.getParameterSpec(ECParameterSpec.class);
        KeyFactory keys = KeyFactory.getInstance("EC");
        PublicKey known = keys.generatePublic(new ECPublicKeySpec(
                new ECPoint(
                        number("f83OJ3D2xF1Bg8vub9tLe1gHMzV76e8Tus9uPHvRVEU"),
                        number("x_FEzRu9m36HLN_tue659LNpXW6pCyStikYjKIWI5a0")),
                p256));
        PrivateKey key =
                keys.generatePrivate(new ECPrivateKeySpec(number("jpsQnnGQmL-YBIffH1136cspYG6-0iY7X1fCE9-E9LI"), p256));
        byte[] sequence = new DERSequence(new ASN1Encodable[] {
                    new ASN1Integer(new BigInteger(1, Arrays.copyOf(published, 32))),
                    new ASN1Integer(new BigInteger(1, Arrays.copyOfRange(published, 32, 64)))
                })
                .getEncoded();
        assertThat(holds(key, known, input, sequence)).isTrue();
        assertThat(holds(key, known, input.replace("Qi", "Qj").replace("fQ", "fR"), sequence))
                .isFalse();
        // What this key signs here belongs to the published other half of it.
        java.security.Signature signer = algorithmOf(key);
        signer.initSign(key);
        signer.update(input.getBytes(StandardCharsets.US_ASCII));
        assertThat(holds(key, known, input, signer.sign())).isTrue();
    }

    private static BigInteger number(String base64url) {
        return new BigInteger(1, BASE64URL.decode(base64url));
    }

    private static boolean holds(PrivateKey kind, PublicKey known, String input, byte[] signature)
            throws GeneralSecurityException {
        java.security.Signature verifier = algorithmOf(kind);
        verifier.initVerify(known);
        verifier.update(input.getBytes(StandardCharsets.US_ASCII));
        return verifier.verify(signature);
    }
}
