package org.axtrial.signing;

import static org.assertj.core.api.Assertions.assertThat;

import java.security.GeneralSecurityException;
import java.security.KeyFactory;
import java.security.PrivateKey;
import java.security.PublicKey;
import java.security.spec.PKCS8EncodedKeySpec;
import java.security.spec.X509EncodedKeySpec;
import java.util.HexFormat;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Holds the Ed25519 of the Java that signs to the vectors of its standard. */
class Ed25519VectorsTest {

    // Source: RFC 8032, 7.1, tests 1 to 3: private key, public key, message, signature. The prefixes of a raw key in
    // PKCS#8 and SubjectPublicKeyInfo are those of RFC 8410.
    @ParameterizedTest
    @CsvSource({
        "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60,"
                + "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a,'',"
                + "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555fb8821590a33bacc61e39701cf9b46b"
                + "d25bf5f0595bbe24655141438e7a100b",
        "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb,"
                + "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c,72,"
                + "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da085ac1e43e15996e458f3613d0f11d8c"
                + "387b2eaeb4302aeeb00d291612bb0c00",
        "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7,"
                + "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025,af82,"
                + "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac18ff9b538d16f290ae67f760984dc659"
                + "4a7c15e9716ed28dc027beceea1ec40a"
    })
    void vectorsOfRfc8032(String secret, String point, String message, String signature)
            throws GeneralSecurityException {
        HexFormat hex = HexFormat.of();
        KeyFactory keys = KeyFactory.getInstance("Ed25519");
        PrivateKey key = keys.generatePrivate(
                new PKCS8EncodedKeySpec(hex.parseHex("302e020100300506032b657004220420" + secret)));
        PublicKey known = keys.generatePublic(new X509EncodedKeySpec(hex.parseHex("302a300506032b6570032100" + point)));
        java.security.Signature signer = java.security.Signature.getInstance("Ed25519");
        signer.initSign(key);
        signer.update(hex.parseHex(message));
        byte[] made = signer.sign();
        assertThat(hex.formatHex(made)).isEqualTo(signature);
        signer.initVerify(known);
        signer.update(hex.parseHex(message));
        assertThat(signer.verify(made)).isTrue();
    }
}
