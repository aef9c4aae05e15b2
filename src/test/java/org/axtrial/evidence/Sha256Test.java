package org.axtrial.evidence;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.Base64;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class Sha256Test {

    // Source: FIPS 180-4 example values.
    @ParameterizedTest
    @CsvSource({
        "'', e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
        "abc, ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad",
        "abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq,"
                + " 248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1",
        "abcdefghbcdefghicdefghijdefghijkefghijklfghijklmghijklmnhijklmnoijklmnopjklmnopqklmnopqrlmnopqrsmnopqrstnopqrstu,"
                + " cf5b16a778af8380036ce59e7b0492370b249b11e8f07a51afac45037afee9d1"
    })
    void examples(String text, String hash) {
        assertThat(Sha256.of(text.getBytes(StandardCharsets.US_ASCII))).isEqualTo(hash);
    }

    // Source: FIPS 180-4 example values.
    @Test
    void millionTimesTheLetterA(@TempDir Path folder) throws IOException {
        Path file = Files.writeString(folder.resolve("a"), "a".repeat(1_000_000));
        assertThat(Sha256.of(file)).isEqualTo("cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
    }

    // Source: RFC 7515, Appendix A.1 (HS256). Nothing here uses HMAC; built from the hash as RFC 2104, 2 says, its
    // published
    // value holds the hash against bytes of every value.
    @Test
    void hmacOfRfc7515() {
        byte[] key = Arrays.copyOf(
                Base64.getUrlDecoder()
                        .decode(
                                "AyM1SysPpbyDfgZld3umj1qzKObwVMkoqQ-EstJQLr_T-1qS0gZH75aKtMN3Yj0iPS4hcgUuTwjAzZr1Z9CAow"),
                64);
        String input =
                "eyJ0eXAiOiJKV1QiLA0KICJhbGciOiJIUzI1NiJ9.eyJpc3MiOiJqb2UiLA0KICJleHAiOjEzMDA4MTkzODAsDQogImh0dHA6"
                        + "Ly9leGFtcGxlLmNvbS9pc19yb290Ijp0cnVlfQ";
        byte[] inner = hash(padded(key, 0x36), input.getBytes(StandardCharsets.US_ASCII));
        assertThat(Base64.getUrlEncoder().withoutPadding().encodeToString(hash(padded(key, 0x5c), inner)))
                .isEqualTo("dBjftJeZ4CVP-mB92K27uhbUJU1p1r_wW1gFWFOEjXk");
    }

    private static byte[] padded(byte[] key, int pad) {
        byte[] out = key.clone();
        for (int i = 0; i < out.length; i++) {
            out[i] ^= (byte) pad;
        }
        return out;
    }

    private static byte[] hash(byte[] first, byte[] then) {
        byte[] all = Arrays.copyOf(first, first.length + then.length);
        System.arraycopy(then, 0, all, first.length, then.length);
        return HexFormat.of().parseHex(Sha256.of(all));
    }
}
