package org.sideport.cli;

import java.util.Locale;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.Segment;

/** Numbers in words for people. */
final class Words {

    private Words() {}

    static String rate(Segment s) {
        return s.variableRate()
                ? "variable rate"
                : String.format(Locale.ROOT, "%.3f", s.fpsNum() / (double) s.fpsDen())
                                .replaceAll("\\.?0+$", "")
                        + " frames/s";
    }

    /** Clock time, or a dash for unknown. */
    static String time(@Nullable Long us) {
        return us == null ? "–" : MediaTime.ofMicros(us).toClockText();
    }

    /** Clock time, marked where it is a lower limit only. */
    static String time(@Nullable Long us, boolean unsure) {
        return (unsure && us != null ? "≥ " : "") + time(us);
    }

    /** One decimal of a second, or a dash for unknown. */
    static String seconds(@Nullable Double us) {
        return us == null ? "–" : String.format(Locale.ROOT, "%.1f", us / 1e6);
    }

    /** What is known, or that it is hidden. */
    static String orHidden(@Nullable Object known) {
        return known == null ? "(hidden)" : known.toString();
    }

    /** "83 %", or a dash for unknown. */
    static String percent(@Nullable Double share) {
        return share == null ? "–" : String.format(Locale.ROOT, "%.0f %%", share * 100);
    }
}
