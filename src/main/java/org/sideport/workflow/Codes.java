package org.sideport.workflow;

import java.util.Arrays;
import java.util.List;
import java.util.regex.Pattern;
import org.sideport.model.InputException;

/** Codes that stand for people and cases. */
public final class Codes {

    private static final Pattern CODE = Pattern.compile("[\\p{L}\\p{N}][\\p{L}\\p{N}_.-]{0,39}");

    private Codes() {}

    /** Codes as they are typed one after the other, with commas, semicolons or blanks between. */
    public static List<String> in(String typed) {
        return Arrays.stream(typed.split("[,;\\s]+"))
                .filter(code -> !code.isBlank())
                .toList();
    }

    /**
     * @param what what the code is of, for the message
     * @throws InputException if the text is no code
     */
    public static String require(String what, String code) {
        String trimmed = code.strip();
        if (!CODE.matcher(trimmed).matches()) {
            throw new InputException(
                    "\"" + code + "\" cannot be the code of " + what,
                    null,
                    "use letters, digits, - _ and . without spaces, 40 at most; never a person's name or number");
        }
        Identity.refuse("the code of " + what, trimmed);
        return trimmed;
    }
}
