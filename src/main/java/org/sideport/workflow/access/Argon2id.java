package org.sideport.workflow.access;

import java.nio.CharBuffer;
import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.SecureRandom;
import java.text.Normalizer;
import java.util.Arrays;
import java.util.Base64;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.bouncycastle.crypto.generators.Argon2BytesGenerator;
import org.bouncycastle.crypto.params.Argon2Parameters;
import org.jspecify.annotations.Nullable;

/** Passwords as Argon2id (RFC 9106) in the PHC string format: {@code $argon2id$v=19$m=47104,t=1,p=1$salt$tag}. */
final class Argon2id {

    /**
     * How dear a guess is.
     *
     * @param memoryKib memory, KiB
     * @param passes over the memory
     * @param lanes degree of parallelism
     */
    record Cost(int memoryKib, int passes, int lanes) {
        /** First choice of OWASP's Password Storage Cheat Sheet for Argon2id: 46 MiB, one pass, one lane. */
        static final Cost USUAL = new Cost(47_104, 1, 1);
    }

    private static final int SALT_BYTES = 16;
    private static final int TAG_BYTES = 32;
    /** A store that was tampered with must not make us take all memory. */
    private static final int MOST_MEMORY_KIB = 1 << 20;

    private static final int MOST_PASSES = 16;
    private static final int MOST_LANES = 16;
    private static final int MOST_BYTES = 128;

    private static final Pattern PHC = Pattern.compile("\\$argon2id\\$v=19\\$m=(\\d{1,7}),t=(\\d{1,2}),p=(\\d{1,2})"
            + "\\$([A-Za-z0-9+/]{11,172})\\$([A-Za-z0-9+/]{16,172})");

    private final Cost cost;
    private final SecureRandom random = new SecureRandom();
    /** What is compared with where nobody has the code, so that this takes as long. */
    private @Nullable String nobodys;

    Argon2id(Cost cost) {
        this.cost = cost;
    }

    /** Made once, before the first comparison with anything, and kept: no code must take longer than another. */
    private synchronized String nobodys() {
        String made = nobodys;
        if (made == null) {
            made = hash("nobody has this code".toCharArray());
            nobodys = made;
        }
        return made;
    }

    /** The PHC string of a password, with a fresh salt. */
    String hash(char[] password) {
        byte[] salt = new byte[SALT_BYTES];
        random.nextBytes(salt);
        Base64.Encoder base64 = Base64.getEncoder().withoutPadding();
        return "$argon2id$v=19$m=" + cost.memoryKib() + ",t=" + cost.passes() + ",p=" + cost.lanes() + "$"
                + base64.encodeToString(salt) + "$" + base64.encodeToString(tag(password, salt, TAG_BYTES, cost));
    }

    /** True if it is the password of the PHC string. Takes as long where there is none (an empty text). */
    boolean matches(char[] password, String phc) {
        String nobodys = nobodys();
        Matcher parts = PHC.matcher(phc.isEmpty() ? nobodys : phc);
        if (!parts.matches()) {
            return false;
        }
        Cost its = new Cost(
                Integer.parseInt(parts.group(1)), Integer.parseInt(parts.group(2)), Integer.parseInt(parts.group(3)));
        byte[] salt = Base64.getDecoder().decode(parts.group(4));
        byte[] kept = Base64.getDecoder().decode(parts.group(5));
        boolean sane = its.memoryKib() <= MOST_MEMORY_KIB
                && its.memoryKib() >= 8 * its.lanes()
                && its.passes() >= 1
                && its.passes() <= MOST_PASSES
                && its.lanes() >= 1
                && its.lanes() <= MOST_LANES
                && salt.length <= MOST_BYTES
                && kept.length <= MOST_BYTES;
        if (!sane) {
            return false;
        }
        boolean same = MessageDigest.isEqual(kept, tag(password, salt, kept.length, its));
        return same && !phc.isEmpty();
    }

    /** True if the string was made with another cost than today's. */
    boolean isOld(String phc) {
        return !phc.startsWith(
                "$argon2id$v=19$m=" + cost.memoryKib() + ",t=" + cost.passes() + ",p=" + cost.lanes() + "$");
    }

    private static byte[] tag(char[] password, byte[] salt, int bytes, Cost cost) {
        byte[] utf8 = utf8(password);
        try {
            return tag(utf8, salt, new byte[0], new byte[0], bytes, cost);
        } finally {
            Arrays.fill(utf8, (byte) 0);
        }
    }

    /** The function of RFC 9106 itself, version 0x13. */
    static byte[] tag(byte[] password, byte[] salt, byte[] secret, byte[] associated, int bytes, Cost cost) {
        Argon2BytesGenerator generator = new Argon2BytesGenerator();
        generator.init(new Argon2Parameters.Builder(Argon2Parameters.ARGON2_id)
                .withVersion(Argon2Parameters.ARGON2_VERSION_13)
                .withMemoryAsKB(cost.memoryKib())
                .withIterations(cost.passes())
                .withParallelism(cost.lanes())
                .withSalt(salt)
                .withSecret(secret)
                .withAdditional(associated)
                .build());
        byte[] tag = new byte[bytes];
        generator.generateBytes(password, tag);
        return tag;
    }

    /** One text for what looks and is typed the same on all keyboards: NFKC, as NIST SP 800-63B says. */
    private static byte[] utf8(char[] password) {
        CharSequence normal = Normalizer.normalize(CharBuffer.wrap(password), Normalizer.Form.NFKC);
        return normal.toString().getBytes(StandardCharsets.UTF_8);
    }
}
