package org.sideport.report.page;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;

/** What a page may do (Content Security Policy Level 3): its one script, its one style, and media beside it. */
final class ContentPolicy {

    private ContentPolicy() {}

    /** @param script text between the tags, as it stands there; likewise the style */
    static String of(String script, String style) {
        // a file's origin is opaque, so that 'self' does not mean its folder: files are named by their scheme
        return "default-src 'none'; script-src 'sha256-" + digest(script) + "'; style-src 'sha256-" + digest(style)
                + "'; media-src 'self' file:; img-src 'self' file: data:; base-uri 'none'; form-action 'none'";
    }

    private static String digest(String text) {
        try {
            return Base64.getEncoder()
                    .encodeToString(MessageDigest.getInstance("SHA-256").digest(text.getBytes(StandardCharsets.UTF_8)));
        } catch (NoSuchAlgorithmException e) {
            throw new IllegalStateException(e);
        }
    }
}
