package org.sideport.workflow.access;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStream;
import java.io.InputStreamReader;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.security.SecureRandom;
import java.text.Normalizer;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.sideport.model.InputException;
import org.sideport.model.Sha256;

/**
 * Which passwords are taken: NIST SP 800-63B 5.1.1.2 and OWASP ASVS 5.0 6.2. Length counts; which kinds of letters are in
 * it does not.
 */
public final class PasswordRule {

    /** Fewest letters (code points). */
    public static final int FEWEST = 8;

    /** Most letters; more than anyone types, less than would keep the hashing busy. */
    public static final int MOST = 256;

    /** Words that everyone who knows the program would try. */
    private static final List<String> OWN_WORDS = List.of("sideport", "cataract", "katarakt", "phaco", "password");

    private static final String COMMON = "common-passwords.txt";
    private static final int DIGEST_LETTERS = 12;
    /** Without letters that look alike. */
    private static final String MADE_OF = "abcdefghjkmnpqrstuvwxyz23456789";

    private static final int MADE_GROUPS = 4;
    private static final int MADE_GROUP = 4;

    private final Set<String> common = read();
    private final SecureRandom random = new SecureRandom();

    /**
     * @throws InputException if the password is too short, too long, too common, or little more than the person's code
     */
    public void require(String code, char[] password) {
        String text = Normalizer.normalize(new String(password), Normalizer.Form.NFKC);
        int letters = text.codePointCount(0, text.length());
        if (letters < FEWEST) {
            throw new InputException(
                    "the password has " + letters + " letters",
                    null,
                    "take " + FEWEST + " or more; length is what counts");
        }
        if (letters > MOST) {
            throw new InputException("the password has " + letters + " letters", null, "take at most " + MOST);
        }
        String lower = text.toLowerCase(Locale.ROOT);
        if (common.contains(digest(lower)) || lower.codePoints().distinct().count() < 4) {
            throw new InputException(
                    "this is one of the passwords that are tried first",
                    null,
                    "take several words that do not belong together");
        }
        String rest = lower.replace(code.toLowerCase(Locale.ROOT), "");
        for (String word : OWN_WORDS) {
            rest = rest.replace(word, "");
        }
        if (!rest.equals(lower) && rest.codePointCount(0, rest.length()) < FEWEST) {
            throw new InputException(
                    "the password is little more than the own code or a word of this program",
                    null,
                    "take several words that have nothing to do with it");
        }
    }

    /** A password to begin with, of 16 letters (79 bits) in groups of four. */
    public char[] make() {
        StringBuilder made = new StringBuilder();
        for (int i = 0; i < MADE_GROUPS * MADE_GROUP; i++) {
            made.append(i > 0 && i % MADE_GROUP == 0 ? "-" : "")
                    .append(MADE_OF.charAt(random.nextInt(MADE_OF.length())));
        }
        return made.toString().toCharArray();
    }

    /** How a password stands in the list: the first letters of the hexadecimal SHA-256 of its UTF-8 in small letters. */
    static String digest(String lower) {
        return Sha256.of(lower).substring(0, DIGEST_LETTERS);
    }

    /** How many passwords are refused as too common. */
    int commonCount() {
        return common.size();
    }

    private static Set<String> read() {
        Set<String> digests = new HashSet<>();
        try (InputStream in = PasswordRule.class.getResourceAsStream(COMMON)) {
            if (in == null) {
                throw new IllegalStateException("the list of common passwords is not there");
            }
            BufferedReader lines = new BufferedReader(new InputStreamReader(in, StandardCharsets.US_ASCII));
            for (String line = lines.readLine(); line != null; line = lines.readLine()) {
                if (!line.startsWith("#")) {
                    digests.add(line);
                }
            }
            return Set.copyOf(digests);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
