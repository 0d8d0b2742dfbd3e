package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.sideport.model.Procedure;
import org.sideport.rubric.ProcedureReader;

class PhaseColoursTest {

    private static Procedure phaco() throws Exception {
        Path file = Path.of(System.getProperty("sideport.home", "."), "rubrics", "phaco-procedure.json");
        return ProcedureReader.read(Files.readString(file), file.toString());
    }

    @Test
    void phasesTakeThePublishedSetInOrder() throws Exception {
        Procedure procedure = phaco();

        // Okabe and Ito (2008), Color Universal Design: orange, sky blue, bluish green
        assertThat(PhaseColours.of(procedure, procedure.find("incision").orElseThrow())
                        .fill())
                .isEqualTo("#e69f00");
        assertThat(PhaseColours.of(procedure, procedure.find("capsulotomy").orElseThrow())
                        .fill())
                .isEqualTo("#56b4e9");
        assertThat(PhaseColours.of(procedure, procedure.find("nucleus_division").orElseThrow())
                        .fill())
                .isEqualTo("#009e73");
    }

    @Test
    void noTwoTermsOfOnePhaseLookAlike() throws Exception {
        Procedure procedure = phaco();
        Set<String> looks = new HashSet<>();
        procedure.terms().stream()
                .filter(term -> !term.phase().idle())
                .forEach(term -> assertThat(
                                looks.add(PhaseColours.of(procedure, term).fill()))
                        .as(term.id())
                        .isTrue());
    }

    @Test
    void everyNameIsReadableOnItsColour() throws Exception {
        Procedure procedure = phaco();
        for (Procedure.Term term : procedure.terms()) {
            PhaseColours.Look look = PhaseColours.of(procedure, term);
            // WCAG 2.2, 1.4.3 asks for 4.5 : 1
            assertThat(contrast(look.fill(), look.ink())).as(term.id()).isGreaterThanOrEqualTo(4.5);
        }
    }

    /** WCAG 2.2 contrast ratio, worked out here anew. */
    private static double contrast(String one, String other) {
        double a = luminance(one);
        double b = luminance(other);
        return (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
    }

    private static double luminance(String css) {
        double[] weights = {0.2126, 0.7152, 0.0722};
        double sum = 0;
        for (int i = 0; i < 3; i++) {
            double channel = Integer.parseInt(css.substring(1 + 2 * i, 3 + 2 * i), 16) / 255.0;
            sum += weights[i] * (channel <= 0.04045 ? channel / 12.92 : Math.pow((channel + 0.055) / 1.055, 2.4));
        }
        return sum;
    }
}
