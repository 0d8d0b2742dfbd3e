package org.sideport.app.frame;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import atlantafx.base.theme.PrimerDark;
import atlantafx.base.theme.PrimerLight;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javafx.scene.paint.Color;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The colours that words and signs have on the grounds where they stand, in both themes. WCAG 2.2: 1.4.3 asks for 4.5 : 1
 * for text, 1.4.11 for 3 : 1 for signs that carry meaning.
 */
class ContrastTest {

    private static final Pattern DEFINITION = Pattern.compile("(-color-[a-z0-9-]+):\\s*([^;]+);");

    /** Text on ground, as app.css pairs them. */
    private static final List<List<String>> TEXT = List.of(
            List.of("-color-fg-default", "-color-bg-default"),
            List.of("-color-fg-default", "-color-bg-subtle"),
            List.of("-color-fg-default", "-color-bg-overlay"),
            List.of("-color-fg-default", "-color-bg-inset"),
            List.of("-color-fg-muted", "-color-bg-default"),
            List.of("-color-fg-muted", "-color-bg-subtle"),
            List.of("-color-fg-muted", "-color-bg-overlay"),
            List.of("-color-fg-muted", "-color-bg-inset"),
            List.of("-color-accent-fg", "-color-bg-default"),
            List.of("-color-accent-fg", "-color-bg-subtle"),
            List.of("-color-accent-fg", "-color-accent-subtle"),
            List.of("-color-danger-fg", "-color-bg-default"),
            List.of("-color-danger-fg", "-color-bg-subtle"),
            List.of("-color-warning-fg", "-color-bg-default"),
            List.of("-color-warning-fg", "-color-bg-subtle"),
            List.of("-color-fg-default", "-color-neutral-subtle"),
            List.of("-color-fg-default", "-color-accent-subtle"),
            List.of("-color-fg-emphasis", "-color-accent-emphasis"));

    /** Signs on ground. */
    private static final List<List<String>> SIGNS = List.of(
            List.of("-color-accent-emphasis", "-color-bg-default"),
            List.of("-color-accent-fg", "-color-bg-subtle"),
            List.of("-color-danger-fg", "-color-bg-overlay"),
            List.of("-color-success-fg", "-color-bg-subtle"));

    private static Map<String, String> tokens(boolean light) throws Exception {
        String sheet = light ? new PrimerLight().getUserAgentStylesheet() : new PrimerDark().getUserAgentStylesheet();
        Map<String, String> found = new HashMap<>();
        try (InputStream in = PrimerLight.class.getResourceAsStream(sheet)) {
            Matcher matcher = DEFINITION.matcher(new String(in.readAllBytes(), StandardCharsets.UTF_8));
            while (matcher.find()) {
                found.putIfAbsent(matcher.group(1), matcher.group(2).strip());
            }
        }
        return found;
    }

    /** A token's colour; half-transparent ones as they look on the window's ground. */
    private static Color colour(Map<String, String> tokens, String name) {
        String value = name;
        while (value.startsWith("-color-")) {
            value = tokens.get(value);
            assertThat(value).as(name).isNotNull();
        }
        Color own = Color.web(value);
        if (own.isOpaque()) {
            return own;
        }
        Color ground = colour(tokens, "-color-bg-default");
        return ground.interpolate(Color.color(own.getRed(), own.getGreen(), own.getBlue()), own.getOpacity());
    }

    @ParameterizedTest
    @ValueSource(booleans = {false, true})
    void wordsAndSignsCanBeReadInBothThemes(boolean light) throws Exception {
        Map<String, String> tokens = tokens(light);
        List<String> faint = new ArrayList<>();
        for (List<String> pair : TEXT) {
            check(tokens, pair, 4.5, faint);
        }
        for (List<String> pair : SIGNS) {
            check(tokens, pair, 3, faint);
        }

        assertThat(faint).isEmpty();
    }

    private static void check(Map<String, String> tokens, List<String> pair, double wanted, List<String> faint) {
        double ratio = contrast(colour(tokens, pair.get(0)), colour(tokens, pair.get(1)));
        if (ratio < wanted) {
            faint.add(String.format(java.util.Locale.ROOT, "%s on %s: %.2f", pair.get(0), pair.get(1), ratio));
        }
    }

    /** WCAG's own examples: black on white is 21 : 1; #767676 on white is the lightest grey that passes 4.5 (4.54). */
    @Test
    void theRatioIsThatOfTheStandard() {
        assertThat(contrast(Color.BLACK, Color.WHITE)).isEqualTo(21.0, within(1e-9));
        assertThat(contrast(Color.web("#767676"), Color.WHITE)).isEqualTo(4.54, within(0.005));
        assertThat(contrast(Color.web("#777777"), Color.WHITE)).isLessThan(4.5);
    }

    private static double contrast(Color one, Color other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static double luminance(Color colour) {
        return 0.2126 * linear(colour.getRed())
                + 0.7152 * linear(colour.getGreen())
                + 0.0722 * linear(colour.getBlue());
    }

    private static double linear(double channel) {
        return channel <= 0.04045 ? channel / 12.92 : Math.pow((channel + 0.055) / 1.055, 2.4);
    }
}
