package org.axtrial.signing;

import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.security.GeneralSecurityException;
import java.security.KeyStore;
import java.security.PrivateKey;
import java.security.UnrecoverableKeyException;
import java.security.cert.Certificate;
import java.security.cert.X509Certificate;
import java.security.interfaces.ECKey;
import java.security.interfaces.RSAKey;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;

/** A private key with its certificates, from a PKCS#12 file (RFC 7292): one made by {@link KeyMaker}, or a customer's. */
public final class SigningKey {

    private static final long LARGEST_FILE = 1 << 20;

    private static final int SHORTEST_RSA = 2048;

    private final PrivateKey key;
    private final List<X509Certificate> chain;

    SigningKey(PrivateKey key, List<X509Certificate> chain) {
        this.key = key;
        this.chain = List.copyOf(chain);
    }

    /**
     * Reads a key file.
     *
     * @param alias name of the key in the file; may be empty if there is only one
     * @throws SigningException if the file is no PKCS#12 file, the password is wrong, or there is no such key, or the key
     *     is of a kind that cannot sign here
     */
    public static SigningKey load(Path file, char[] password, Optional<String> alias) throws SigningException {
        KeyStore store = open(file, password);
        try {
            List<String> keys = new ArrayList<>();
            for (String name : Collections.list(store.aliases())) {
                if (store.isKeyEntry(name)) {
                    keys.add(name);
                }
            }
            String chosen = choose(file, keys, alias);
            List<X509Certificate> chain = new ArrayList<>();
            Certificate[] certificates = store.getCertificateChain(chosen);
            for (Certificate certificate : certificates == null ? new Certificate[0] : certificates) {
                chain.add((X509Certificate) certificate);
            }
            if (chain.isEmpty() || !(store.getKey(chosen, password) instanceof PrivateKey key)) {
                throw new SigningException(file + " has no private key with a certificate under \"" + chosen + "\"");
            }
            SigningKey found = new SigningKey(key, chain);
            found.requireFit(file);
            return found;
        } catch (UnrecoverableKeyException e) {
            throw new SigningException("the password does not open the key in " + file, e);
        } catch (GeneralSecurityException e) {
            throw new SigningException("the key in " + file + " cannot be used: " + e.getMessage(), e);
        }
    }

    private static KeyStore open(Path file, char[] password) throws SigningException {
        try {
            if (!Files.isRegularFile(file)) {
                throw new SigningException("there is no key file " + file + "; make one with: axtrial keygen");
            }
            if (Files.size(file) > LARGEST_FILE) {
                throw new SigningException(file + " is too large for a key file");
            }
            KeyStore store = KeyStore.getInstance("PKCS12");
            store.load(new ByteArrayInputStream(Files.readAllBytes(file)), password);
            return store;
        } catch (IOException e) {
            // KeyStore.load tells a wrong password by this cause, as its documentation says.
            if (e.getCause() instanceof UnrecoverableKeyException) {
                throw new SigningException("the password does not open " + file, e);
            }
            throw new SigningException(
                    file + " is no PKCS#12 key file (.p12, .pfx), or is damaged: " + e.getMessage(), e);
        } catch (GeneralSecurityException e) {
            throw new SigningException(file + " cannot be opened: " + e.getMessage(), e);
        }
    }

    private static String choose(Path file, List<String> keys, Optional<String> alias) throws SigningException {
        String there = "it has " + (keys.isEmpty() ? "none" : String.join(", ", keys));
        if (alias.isPresent()) {
            // A PKCS#12 store of Java keeps its names in lower case.
            return keys.stream()
                    .filter(alias.get()::equalsIgnoreCase)
                    .findFirst()
                    .orElseThrow(
                            () -> new SigningException(file + " has no key named \"" + alias.get() + "\"; " + there));
        }
        if (keys.size() != 1) {
            throw new SigningException(file + " must have one key, or name one by --alias; " + there);
        }
        return keys.get(0);
    }

    private void requireFit(Path file) throws SigningException {
        boolean fit = switch (key.getAlgorithm()) {
            case "EC" -> key instanceof ECKey ec && ec.getParams().getOrder().bitLength() >= 256;
            case "RSA" -> key instanceof RSAKey rsa && rsa.getModulus().bitLength() >= SHORTEST_RSA;
            case "EdDSA", "Ed25519" -> certificate().getPublicKey().getEncoded().length == 44;
            default -> false;
        };
        if (!fit) {
            throw new SigningException("the key in " + file + " is of the kind " + key.getAlgorithm()
                    + "; this program signs with EC of 256 bits or more, Ed25519, and RSA of " + SHORTEST_RSA
                    + " bits or more");
        }
        boolean[] usage = certificate().getKeyUsage();
        if (usage != null && !usage[0] && !usage[1]) {
            throw new SigningException("the certificate in " + file + " (" + facts().subject()
                    + ") is not meant for signatures: its key usage has neither digital signature nor non-repudiation");
        }
    }

    /** The certificate that belongs to the key. */
    X509Certificate certificate() {
        return chain.get(0);
    }

    /** The certificate that belongs to the key, then those that vouch for it. */
    List<X509Certificate> chain() {
        return chain;
    }

    PrivateKey key() {
        return key;
    }

    /** Name of the signature algorithm in Java's terms: the hash goes with the strength of the key. */
    String algorithm() {
        return switch (key.getAlgorithm()) {
            case "EC" -> ((ECKey) key).getParams().getOrder().bitLength() > 256 ? "SHA512withECDSA" : "SHA256withECDSA";
            case "RSA" -> "SHA256withRSA";
            default -> "Ed25519";
        };
    }

    /** Whether common PDF readers know its kind of signature; Ed25519 came to PDF only with ISO/TS 32002. */
    public boolean fitForPdf() {
        return !algorithm().equals("Ed25519");
    }

    /** What its certificate says. */
    public CertificateFacts facts() {
        return CertificateFacts.of(certificate());
    }
}
