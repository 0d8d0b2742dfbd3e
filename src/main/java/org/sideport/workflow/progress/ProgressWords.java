package org.sideport.workflow.progress;

import java.math.BigDecimal;
import java.math.MathContext;
import java.math.RoundingMode;
import java.text.MessageFormat;
import java.text.NumberFormat;
import java.util.Locale;
import java.util.ResourceBundle;
import java.util.function.UnaryOperator;
import org.sideport.stats.Refusal;

/** Words and numbers of the charts in one language; what a language lacks comes in English. */
public final class ProgressWords {

    private final Locale locale;
    private final UnaryOperator<String> dressed;
    private final ResourceBundle bundle;
    private final ResourceBundle refusals;

    /** @param locale of the reader; its numbers are written as there */
    public ProgressWords(Locale locale) {
        this(locale, UnaryOperator.identity());
    }

    /** @param dressed what is done to every text last */
    public ProgressWords(Locale locale, UnaryOperator<String> dressed) {
        this.locale = locale;
        this.dressed = dressed;
        bundle = bundle("charts", locale);
        refusals = bundle("refusals", locale);
    }

    private static ResourceBundle bundle(String name, Locale locale) {
        return ResourceBundle.getBundle(
                "org.sideport.workflow.progress." + name,
                locale,
                ResourceBundle.Control.getNoFallbackControl(ResourceBundle.Control.FORMAT_PROPERTIES));
    }

    /** Why a method gives no number: as it says itself in English, in other languages by its reason. */
    public String why(Refusal refusal) {
        return refusal(refusal.reason() + ".why", refusal.why());
    }

    /** What would make the answer possible; as {@link #why}. */
    public String remedy(Refusal refusal) {
        return refusal(refusal.reason() + ".remedy", refusal.remedy());
    }

    private String refusal(String key, String english) {
        return refusals.containsKey(key) ? dressed.apply(refusals.getString(key)) : english;
    }

    public String get(String key, Object... values) {
        return dressed.apply(new MessageFormat(bundle.getString(key), locale).format(values));
    }

    /** Seconds, to the second from ten seconds on. */
    public String seconds(double us) {
        double s = us / 1e6;
        return get("seconds", number(s, s < 10 ? 1 : 0));
    }

    String percent(double share) {
        return get("percent", number(100 * share, 0));
    }

    public String number(double value, int decimals) {
        NumberFormat format = NumberFormat.getNumberInstance(locale);
        format.setMinimumFractionDigits(decimals);
        format.setMaximumFractionDigits(decimals);
        format.setRoundingMode(RoundingMode.HALF_UP);
        String text = format.format(value);
        return text.startsWith("-") ? "−" + text.substring(1) : text;
    }

    /** Without needless digits. */
    String plain(double value) {
        return NumberFormat.getNumberInstance(locale).format(new BigDecimal(value).round(new MathContext(4)));
    }

    /** "1 case", "3 cases". */
    String cases(int n) {
        return get("cases", n);
    }
}
