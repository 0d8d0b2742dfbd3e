package org.sideport.model;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.HexFormat;

/** SHA-256 (FIPS 180-4), written as 64 lower-case hexadecimal digits. */
public final class Sha256 {

    private Sha256() {}

    /** Of a text as UTF-8. */
    public static String of(String text) {
        MessageDigest digest = begin();
        digest.update(text.getBytes(StandardCharsets.UTF_8));
        return end(digest);
    }

    /** Of several texts as UTF-8, each with its length in bytes before it, so that none can be shifted into another. */
    public static String ofParts(String... parts) {
        MessageDigest digest = begin();
        for (String part : parts) {
            byte[] bytes = part.getBytes(StandardCharsets.UTF_8);
            digest.update((bytes.length + ":").getBytes(StandardCharsets.US_ASCII));
            digest.update(bytes);
        }
        return end(digest);
    }

    /** For what comes piece by piece. */
    public static MessageDigest begin() {
        try {
            return MessageDigest.getInstance("SHA-256");
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException("every Java has SHA-256", e);
        }
    }

    /** The digits of what has come. */
    public static String end(MessageDigest digest) {
        return HexFormat.of().formatHex(digest.digest());
    }
}
