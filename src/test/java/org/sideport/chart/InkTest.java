package org.sideport.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.util.Arrays;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** Colours by the formulas of WCAG 2.1 (relative luminance, contrast ratio) and CIE 1976 L*. */
class InkTest {

    /** Okabe & Ito 2008, as printed there in 8-bit RGB. */
    private static final Set<Integer> PALETTE = Set.of(
            rgb(0, 0, 0),
            rgb(230, 159, 0),
            rgb(86, 180, 233),
            rgb(0, 158, 115),
            rgb(240, 228, 66),
            rgb(0, 114, 178),
            rgb(213, 94, 0),
            rgb(204, 121, 167));

    private static int rgb(int red, int green, int blue) {
        return red << 16 | green << 8 | blue;
    }

    private static double luminance(int rgb) {
        double[] weights = {0.2126, 0.7152, 0.0722};
        double sum = 0;
        for (int i = 0; i < 3; i++) {
            double c = (rgb >> (16 - 8 * i) & 0xFF) / 255.0;
            sum += weights[i] * (c <= 0.03928 ? c / 12.92 : Math.pow((c + 0.055) / 1.055, 2.4));
        }
        return sum;
    }

    private static double contrast(int one, int other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    /** CIE 1976: how light it looks in grey, 0 to 100. */
    private static double lightness(int rgb) {
        double y = luminance(rgb);
        return y > 0.008856 ? 116 * Math.cbrt(y) - 16 : 903.3 * y;
    }

    @Test
    void theFormulasGiveTheBestKnownContrasts() {
        // WCAG 2.1: black on white is 21:1; #767676 on white is the well-known 4.54:1 (from memory)
        assertThat(contrast(0, 0xFFFFFF)).isCloseTo(21, within(1e-9));
        assertThat(contrast(0x767676, 0xFFFFFF)).isCloseTo(4.54, within(0.005));
    }

    @Test
    void everyInkIsOneOfThePublishedPalette() {
        for (Look look : Look.values()) {
            assertThat(Arrays.stream(Ink.values()).map(ink -> ink.rgb(look))).allMatch(PALETTE::contains);
        }
    }

    @Test
    void everyInkStandsThreeToOneOrMoreAgainstItsGround() {
        for (Look look : Look.values()) {
            for (Ink ink : Ink.values()) {
                assertThat(contrast(ink.rgb(look), look.background()))
                        .as(ink + " on " + look)
                        .isGreaterThanOrEqualTo(3);
            }
            // words: WCAG 2.1, 1.4.3
            assertThat(contrast(look.text(), look.background())).isGreaterThanOrEqualTo(4.5);
        }
    }

    @Test
    void inGreyNoTwoInksLookAlikeAndTheirDashesDifferWhereTheyAreNear() {
        for (Look look : Look.values()) {
            for (Ink one : Ink.values()) {
                for (Ink other : Ink.values()) {
                    if (one.ordinal() < other.ordinal() && !(one == Ink.MAIN && other == Ink.BEFORE)) {
                        double step = Math.abs(lightness(one.rgb(look)) - lightness(other.rgb(look)));
                        assertThat(step)
                                .as(one + " and " + other + " on " + look)
                                .isGreaterThan(6);
                        assertThat(step > 15 || !one.dash().equals(other.dash()))
                                .as("dash of " + one + " and " + other)
                                .isTrue();
                    }
                }
            }
        }
    }

    /** One thing, now and before: one colour, and another dash. */
    @Test
    void whatItWasBeforeIsTheSameColourBroken() {
        for (Look look : Look.values()) {
            assertThat(Ink.BEFORE.rgb(look)).isEqualTo(Ink.MAIN.rgb(look));
        }
        assertThat(Ink.BEFORE.dash()).isNotEqualTo(Ink.MAIN.dash());
    }

    @Test
    void everyMarkHasAShapeOfItsOwn() {
        Set<String> shapes = new HashSet<>();
        for (Mark mark : Mark.values()) {
            Chart chart = new Chart(
                    "m",
                    "",
                    SampleCharts.CASES,
                    SampleCharts.SECONDS,
                    java.util.List.of(new Layer.Points("p", Ink.MAIN, mark, java.util.List.of(new Layer.At(10, 100)))),
                    "",
                    "one");
            shapes.add(ChartFiles.svg(chart, 200, 200, Look.LIGHT, 12));
        }
        assertThat(shapes).hasSize(Mark.values().length);
    }
}
