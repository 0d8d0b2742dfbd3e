package org.sideport.workflow.consent;

import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.ConsentState;
import org.sideport.model.InputException;
import org.sideport.model.SurgicalCase;
import org.sideport.store.Stores;

/**
 * Whether a case may be used for a purpose, by its consent and by what the unit decided. That an unknown consent only warns
 * and a refused one stops is common practice and no law; local law decides, and the unit can be stricter or laxer.
 */
public final class ConsentGate {

    private ConsentGate() {}

    /**
     * Asked before each marking, assigning or exporting of a case, within its transaction.
     *
     * @return what must be said with this use; {@code null} if nothing speaks against it
     * @throws InputException if the use is refused
     */
    public static @Nullable String require(Stores stores, SurgicalCase used, ConsentPurpose purpose) {
        ConsentDoubt doubt = doubt(stores, used, purpose);
        return doubt == null ? null : doubt.text();
    }

    /**
     * As {@link #require}, not yet in words.
     *
     * @throws InputException if the use is refused
     */
    static @Nullable ConsentDoubt doubt(Stores stores, SurgicalCase used, ConsentPurpose purpose) {
        Consent consent = used.consent();
        if (consent.state() == ConsentState.WITHDRAWN) {
            throw refused(used, "consent was withdrawn on " + consent.recordedOn(), "delete the case");
        }
        ConsentSituation situation = situation(consent, purpose);
        if (situation == null) {
            return null;
        }
        String why = why(situation, consent, purpose);
        return switch (stores.consents().rules().getOrDefault(situation, situation.usual())) {
            case ALLOW -> null;
            case WARN -> new ConsentDoubt(used.code(), situation, purpose, why);
            case REFUSE -> throw refused(used, why, remedy(situation, used, purpose));
        };
    }

    /**
     * True unless {@link #require} would refuse.
     *
     * @param rules as the store has them
     */
    public static boolean allows(
            Map<ConsentSituation, ConsentRuling> rules, SurgicalCase used, ConsentPurpose purpose) {
        if (used.consent().state() == ConsentState.WITHDRAWN) {
            return false;
        }
        ConsentSituation situation = situation(used.consent(), purpose);
        return situation == null || rules.getOrDefault(situation, situation.usual()) != ConsentRuling.REFUSE;
    }

    private static @Nullable ConsentSituation situation(Consent consent, ConsentPurpose purpose) {
        return switch (consent.state()) {
            case UNKNOWN -> ConsentSituation.UNKNOWN;
            case ASKED -> ConsentSituation.ASKED;
            case GIVEN -> consent.purposes().contains(purpose) ? null : ConsentSituation.OTHER_PURPOSE;
            // withdrawn cases are refused before anybody asks for the unit's rule
            case REFUSED, WITHDRAWN -> ConsentSituation.REFUSED;
        };
    }

    private static String why(ConsentSituation situation, Consent consent, ConsentPurpose purpose) {
        return switch (situation) {
            case UNKNOWN -> "nothing is recorded of a consent";
            case ASKED -> "consent was asked for on " + consent.recordedOn() + " and not given yet";
            case OTHER_PURPOSE -> "consent was given for " + consent.purposesText() + ", not for " + purpose.id();
            case REFUSED -> "consent was refused on " + consent.recordedOn();
        };
    }

    private static String remedy(ConsentSituation situation, SurgicalCase used, ConsentPurpose purpose) {
        return String.format(
                Locale.ROOT,
                "record the consent if there is one (sideport case edit %s --consent given --purpose %s); what \"%s\""
                        + " leads to is a rule of your unit (sideport keeping rules)",
                used.code(),
                purpose.id(),
                situation.id());
    }

    private static InputException refused(SurgicalCase used, String why, String remedy) {
        return new InputException("case " + used.code() + " may not be used for this: " + why, null, remedy);
    }
}
