package org.sideport.app;

import java.util.List;
import java.util.Locale;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Phase;
import org.sideport.model.Procedure.Term;

/**
 * The colours of phases: the qualitative set of Okabe and Ito (2008), which people with any colour vision can tell
 * apart, in the order of the procedure's phases. Steps are lighter and darker tones of their phase's colour. The only
 * place where colours are written; they never carry meaning without the name beside them.
 */
public final class PhaseColours {

    private record Rgb(int red, int green, int blue) {

        /** This colour moved towards white ({@code amount} above 0) or black (below 0). */
        Rgb toned(double amount) {
            int aim = amount > 0 ? 255 : 0;
            double share = Math.abs(amount);
            return new Rgb(mix(red, aim, share), mix(green, aim, share), mix(blue, aim, share));
        }

        private static int mix(int from, int to, double share) {
            return (int) Math.round(from + (to - from) * share);
        }

        /** Relative luminance (WCAG 2.2), 0 to 1. */
        double luminance() {
            return 0.2126 * linear(red) + 0.7152 * linear(green) + 0.0722 * linear(blue);
        }

        private static double linear(int channel) {
            double c = channel / 255.0;
            return c <= 0.04045 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4);
        }

        String css() {
            return String.format(Locale.ROOT, "#%02x%02x%02x", red, green, blue);
        }
    }

    private static final List<Rgb> SET = List.of(
            new Rgb(230, 159, 0), // orange
            new Rgb(86, 180, 233), // sky blue
            new Rgb(0, 158, 115), // bluish green
            new Rgb(240, 228, 66), // yellow
            new Rgb(0, 114, 178), // blue
            new Rgb(213, 94, 0), // vermilion
            new Rgb(204, 121, 167)); // reddish purple

    private static final Rgb GREY = new Rgb(128, 128, 128);
    private static final double LIGHTEST = 0.4;
    private static final double DARKEST = -0.25;
    private static final double EVEN_LUMINANCE = 0.179;

    private PhaseColours() {}

    /** A block's fill and the ink that is readable on it, as CSS colours. */
    public record Look(String fill, String ink) {
        /** As an inline style that sets the looked-up colours which the style sheet uses. */
        public String style() {
            return "-phase-fill: " + fill + "; -phase-ink: " + ink + ";";
        }
    }

    /** For a phase that the procedure does not know. */
    public static Look unknown() {
        return new Look(GREY.css(), "#000000");
    }

    public static Look of(Procedure procedure, Term term) {
        List<Phase> coloured =
                procedure.phases().stream().filter(p -> !p.idle()).toList();
        int place = coloured.indexOf(term.phase());
        Rgb base = place < 0 ? GREY : SET.get(place % SET.size());
        Rgb fill = term.isStep() ? base.toned(tone(term)) : base;
        // black on light and white on dark grounds: the change lies where both have the same contrast
        return new Look(fill.css(), fill.luminance() > EVEN_LUMINANCE ? "#000000" : "#ffffff");
    }

    /** Steps spread evenly from the lightest to the darkest tone. */
    private static double tone(Term step) {
        List<Procedure.Step> steps = step.phase().steps();
        int place = 0;
        while (place < steps.size() && !steps.get(place).id().equals(step.id())) {
            place++;
        }
        return steps.size() < 2 ? LIGHTEST : LIGHTEST + (DARKEST - LIGHTEST) * place / (steps.size() - 1);
    }
}
