package org.axtrial.signing;

import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.StringWriter;
import java.math.BigInteger;
import java.nio.charset.StandardCharsets;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.security.GeneralSecurityException;
import java.security.KeyPair;
import java.security.KeyPairGenerator;
import java.security.KeyStore;
import java.security.SecureRandom;
import java.security.cert.X509Certificate;
import java.security.spec.ECGenParameterSpec;
import java.time.Instant;
import java.time.ZoneOffset;
import java.util.Date;
import java.util.List;
import java.util.Optional;
import org.bouncycastle.asn1.x500.X500Name;
import org.bouncycastle.asn1.x500.X500NameBuilder;
import org.bouncycastle.asn1.x500.style.BCStyle;
import org.bouncycastle.asn1.x509.BasicConstraints;
import org.bouncycastle.asn1.x509.Extension;
import org.bouncycastle.asn1.x509.KeyUsage;
import org.bouncycastle.cert.X509v3CertificateBuilder;
import org.bouncycastle.cert.jcajce.JcaX509CertificateConverter;
import org.bouncycastle.cert.jcajce.JcaX509ExtensionUtils;
import org.bouncycastle.cert.jcajce.JcaX509v3CertificateBuilder;
import org.bouncycastle.openssl.jcajce.JcaPEMWriter;
import org.bouncycastle.operator.OperatorCreationException;
import org.bouncycastle.operator.jcajce.JcaContentSignerBuilder;

/** Makes a key with a certificate that vouches for itself (RFC 5280), for those who have no key of a customer's PKI. */
public final class KeyMaker {

    /** Kinds of keys. */
    public enum Kind {
        /** ECDSA on the curve P-256 (FIPS 186-5); known everywhere. */
        P256,
        /** Ed25519 (RFC 8032); not known to most PDF readers. */
        ED25519
    }

    private static final String ALIAS = "axtrial";

    private static final int SERIAL_BITS = 127;

    private KeyMaker() {}

    /**
     * Makes a new key.
     *
     * @param name printed name of the person
     * @param from first instant of its validity
     * @param years how long it may be used, from 1 to 20 years
     */
    public static SigningKey make(Kind kind, String name, Optional<String> organisation, Instant from, int years) {
        if (name.isBlank() || name.length() > 64 || years < 1 || years > 20) {
            throw new IllegalArgumentException(
                    "a name has 1 to 64 characters (X.520) and a key is valid for 1 to 20 years, got \"" + name
                            + "\" and " + years);
        }
        Instant whole = Instant.ofEpochSecond(from.getEpochSecond());
        Instant until = whole.atOffset(ZoneOffset.UTC).plusYears(years).toInstant();
        X500NameBuilder subject = new X500NameBuilder(BCStyle.INSTANCE).addRDN(BCStyle.CN, name);
        organisation.ifPresent(o -> subject.addRDN(BCStyle.O, o));
        try {
            KeyPair pair = pair(kind);
            X509Certificate certificate = certificate(kind, pair, subject.build(), whole, until);
            return new SigningKey(pair.getPrivate(), List.of(certificate));
        } catch (GeneralSecurityException | OperatorCreationException | IOException e) {
            throw new IllegalStateException("this Java cannot make a key of the kind " + kind, e);
        }
    }

    private static KeyPair pair(Kind kind) throws GeneralSecurityException {
        if (kind == Kind.ED25519) {
            return KeyPairGenerator.getInstance("Ed25519").generateKeyPair();
        }
        KeyPairGenerator generator = KeyPairGenerator.getInstance("EC");
        generator.initialize(new ECGenParameterSpec("secp256r1"));
        return generator.generateKeyPair();
    }

    private static X509Certificate certificate(Kind kind, KeyPair pair, X500Name subject, Instant from, Instant until)
            throws GeneralSecurityException, OperatorCreationException, IOException {
        BigInteger serial = new BigInteger(SERIAL_BITS, new SecureRandom()).add(BigInteger.ONE);
        JcaX509ExtensionUtils extensions = new JcaX509ExtensionUtils();
        X509v3CertificateBuilder builder = new JcaX509v3CertificateBuilder(
                        subject, serial, Date.from(from), Date.from(until), subject, pair.getPublic())
                .addExtension(Extension.basicConstraints, true, new BasicConstraints(false))
                .addExtension(
                        Extension.keyUsage, true, new KeyUsage(KeyUsage.digitalSignature | KeyUsage.nonRepudiation))
                .addExtension(
                        Extension.subjectKeyIdentifier, false, extensions.createSubjectKeyIdentifier(pair.getPublic()));
        String algorithm = kind == Kind.ED25519 ? "Ed25519" : "SHA256withECDSA";
        return new JcaX509CertificateConverter()
                .getCertificate(builder.build(new JcaContentSignerBuilder(algorithm).build(pair.getPrivate())));
    }

    /**
     * Writes a key as a PKCS#12 file that only its owner may read, where the system knows owners, and its certificate
     * beside it as {@code .pem}.
     *
     * @return the file of the certificate
     * @throws SigningException if one of the files is already there or cannot be written
     */
    public static Path write(SigningKey key, Path file, char[] password) throws SigningException {
        Path pem = file.resolveSibling(String.valueOf(file.getFileName()).replaceFirst("\\.(p12|pfx)$", "") + ".pem");
        try {
            if (Files.exists(file) || Files.exists(pem)) {
                throw new SigningException((Files.exists(file) ? file : pem)
                        + " is already there and is not overwritten; give another name by --out");
            }
            KeyStore store = KeyStore.getInstance("PKCS12");
            store.load(null, null);
            store.setKeyEntry(ALIAS, key.key(), password, key.chain().toArray(X509Certificate[]::new));
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            store.store(bytes, password);
            createForOwner(file);
            Files.write(file, bytes.toByteArray(), StandardOpenOption.WRITE);
            Files.write(pem, pem(key.certificate()), StandardOpenOption.CREATE_NEW);
            return pem;
        } catch (FileAlreadyExistsException e) {
            throw new SigningException(e.getFile() + " is already there and is not overwritten", e);
        } catch (IOException | GeneralSecurityException e) {
            throw new SigningException(file + " cannot be written: " + e, e);
        }
    }

    private static void createForOwner(Path file) throws IOException {
        boolean posix = file.getFileSystem().supportedFileAttributeViews().contains("posix");
        FileAttribute<?>[] owner = posix
                ? new FileAttribute<?>[] {
                    PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))
                }
                : new FileAttribute<?>[0];
        Files.createFile(file, owner);
    }

    private static byte[] pem(X509Certificate certificate) throws IOException {
        StringWriter text = new StringWriter();
        try (JcaPEMWriter writer = new JcaPEMWriter(text)) {
            writer.writeObject(certificate);
        }
        return text.toString().getBytes(StandardCharsets.US_ASCII);
    }
}
