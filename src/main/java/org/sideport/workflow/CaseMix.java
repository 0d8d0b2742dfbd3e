package org.sideport.workflow;

import java.math.BigDecimal;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;

/**
 * Whether a case was harder than most, from its descriptors. The factors are among those with raised odds in the Cataract
 * National Dataset (Narendran et al. 2009, Eye 23:31); nuclear grade 3 or more is common practice, no source. It says how a
 * mark is drawn, and adjusts nothing.
 *
 * @param kind what is known
 * @param why ids of the descriptors that make it harder
 */
public record CaseMix(Kind kind, List<String> why) {

    private static final BigDecimal DENSE = new BigDecimal(3);
    private static final BigDecimal LONG_EYE = new BigDecimal(26);
    private static final String NONE = "none";
    private static final Set<String> ASKED = Set.of("nuclear_grade", "pupil", "risk_factors", "axial_length");

    /** How it compares. */
    public enum Kind {
        USUAL,
        HARDER,
        /** None of the descriptors that tell is filled in. */
        UNKNOWN
    }

    public CaseMix {
        why = List.copyOf(why);
    }

    static CaseMix of(Map<String, String> descriptors) {
        List<String> why = new ArrayList<>();
        if (atLeast(descriptors.get("nuclear_grade"), DENSE)) {
            why.add("nuclear_grade");
        }
        if ("small".equals(descriptors.get("pupil"))) {
            why.add("pupil");
        }
        String factors = descriptors.getOrDefault("risk_factors", "");
        if (!factors.isBlank() && !factors.startsWith(NONE)) {
            why.add("risk_factors");
        }
        if (atLeast(descriptors.get("axial_length"), LONG_EYE)) {
            why.add("axial_length");
        }
        boolean known =
                ASKED.stream().anyMatch(id -> !descriptors.getOrDefault(id, "").isBlank());
        return new CaseMix(!why.isEmpty() ? Kind.HARDER : known ? Kind.USUAL : Kind.UNKNOWN, why);
    }

    private static boolean atLeast(@org.jspecify.annotations.Nullable String text, BigDecimal limit) {
        try {
            return text != null && !text.isBlank() && new BigDecimal(text.strip()).compareTo(limit) >= 0;
        } catch (NumberFormatException e) {
            return false;
        }
    }
}
