package org.sideport.workflow.access;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.HexFormat;
import org.junit.jupiter.api.Test;

class Argon2idTest {

    private static byte[] bytes(int count, int value) {
        byte[] bytes = new byte[count];
        Arrays.fill(bytes, (byte) value);
        return bytes;
    }

    /** RFC 9106, section 5.3. */
    @Test
    void givesTheTagOfTheRfcsTestVector() {
        byte[] tag =
                Argon2id.tag(bytes(32, 1), bytes(16, 2), bytes(8, 3), bytes(12, 4), 32, new Argon2id.Cost(32, 3, 4));
        assertThat(HexFormat.ofDelimiter(" ").formatHex(tag))
                .isEqualTo("0d 64 0d f5 8d 78 76 6c 08 c0 37 a3 4a 8b 53 c9 "
                        + "d0 1e f0 45 2d 75 b6 5e b5 25 20 e9 6b 01 e6 59");
    }

    /** Test suite of the reference implementation (P-H-C/phc-winner-argon2, src/test.c, version 0x13, argon2id). */
    @Test
    void readsPhcStringsOfTheReferenceImplementation() {
        String published = "$argon2id$v=19$m=65536,t=2,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc";
        assertThat(HexFormat.of()
                        .formatHex(Argon2id.tag(
                                "password".getBytes(StandardCharsets.UTF_8),
                                "somesalt".getBytes(StandardCharsets.UTF_8),
                                new byte[0],
                                new byte[0],
                                32,
                                new Argon2id.Cost(65_536, 2, 1))))
                .isEqualTo("09316115d5cf24ed5a15a31a3ba326e5cf32edc24702987c02b6566f61913cf7");
        Argon2id hashing = new Argon2id(new Argon2id.Cost(64, 1, 1));
        assertThat(hashing.matches("password".toCharArray(), published)).isTrue();
        assertThat(hashing.matches("passwore".toCharArray(), published)).isFalse();
        assertThat(hashing.isOld(published)).isTrue();
    }

    /** OWASP Password Storage Cheat Sheet: Argon2id with 46 MiB, one pass, one lane; RFC 9106 3.1: a salt of 16 bytes. */
    @Test
    void keepsPasswordsAtTheCostThatOwaspNamesWithASaltOfTheirOwn() {
        Argon2id hashing = new Argon2id(Argon2id.Cost.USUAL);
        String one = hashing.hash("eight brown kettles".toCharArray());
        assertThat(one).matches("\\$argon2id\\$v=19\\$m=47104,t=1,p=1\\$[A-Za-z0-9+/]{22}\\$[A-Za-z0-9+/]{43}");
        assertThat(hashing.hash("eight brown kettles".toCharArray())).isNotEqualTo(one);
        assertThat(hashing.matches("eight brown kettles".toCharArray(), one)).isTrue();
        assertThat(hashing.isOld(one)).isFalse();
    }

    /** NIST SP 800-63B 5.1.1.2: normalised, so that the same word typed on two keyboards is the same. */
    @Test
    void takesAComposedAndADecomposedLetterForTheSame() {
        Argon2id hashing = new Argon2id(new Argon2id.Cost(64, 1, 1));
        String kept = hashing.hash("zw\u00f6lf Boxk\u00e4mpfer".toCharArray());
        assertThat(hashing.matches("zwo\u0308lf Boxka\u0308mpfer".toCharArray(), kept))
                .isTrue();
    }

    @Test
    void neverTakesAnEmptyOrSpoiltStringForAPassword() {
        Argon2id hashing = new Argon2id(new Argon2id.Cost(64, 1, 1));
        for (String spoilt : new String[] {
            "",
            "eight brown kettles",
            "$argon2i$v=19$m=64,t=1,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
            // would take 9 GB
            "$argon2id$v=19$m=9999999,t=1,p=1$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc",
            "$argon2id$v=19$m=64,t=0,p=0$c29tZXNhbHQ$CTFhFdXPJO1aFaMaO6Mm5c8y7cJHAph8ArZWb2GRPPc"
        }) {
            assertThat(hashing.matches("nobody has this code".toCharArray(), spoilt))
                    .as(spoilt)
                    .isFalse();
        }
    }
}
