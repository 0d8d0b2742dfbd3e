package org.sideport.model;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.LinkedHashSet;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;

/** What an assignment keeps from its assessor until the marks are signed. */
public enum Hidden {
    /** Whose operation it is. */
    TRAINEE,
    /** When it was. */
    DATE,
    /** Which of the trainee's operations it is: labels and lists follow no order of cases. */
    ORDER,
    /** How far in training: all descriptors go but those of the eye. */
    STAGE,
    /** Marks, comments and measurements of others. */
    EARLIER_MARKS,
    /** Events that others tagged. */
    COMPLICATIONS,
    /** What is said in theatre. */
    SOUND,
    /** Names and places of files, and what the files say of themselves. */
    FILE_NAMES;

    /** All of them: what is usually hidden. */
    public static final Set<Hidden> ALL = Set.of(values());

    /** As it is stored and written on the command line, such as {@code earlier_marks}. */
    public String id() {
        return name().toLowerCase(Locale.ROOT);
    }

    /**
     * @param ids separated by commas; {@code all}, or empty for nothing
     * @throws InputException if one is not known
     */
    public static Set<Hidden> parseAll(String ids) {
        String text = ids.strip();
        if (text.equals("all")) {
            return ALL;
        }
        Set<Hidden> hidden = EnumSet.noneOf(Hidden.class);
        for (String id : text.split(",")) {
            if (!id.isBlank() && !id.strip().equals("nothing")) {
                hidden.add(parse(id.strip()));
            }
        }
        return new LinkedHashSet<>(hidden);
    }

    private static Hidden parse(String id) {
        return Arrays.stream(values())
                .filter(h -> h.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new InputException(
                        "\"" + id + "\" cannot be hidden", null, "use all, nothing, or some of " + text(ALL)));
    }

    /** In their order, separated by commas. */
    public static String text(Set<Hidden> hidden) {
        return Arrays.stream(values()).filter(hidden::contains).map(Hidden::id).collect(Collectors.joining(","));
    }
}
