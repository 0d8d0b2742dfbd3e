package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import org.junit.jupiter.api.Test;

class HelpTextsTest {

    @Test
    void listsShowTheFirstSentenceWholeAndExamplesStayAsWritten() {
        assertThat(HelpTexts.lines(List.of(
                        "Shows a cohort by one rubric, and what",
                        "is missing. No verdict on anybody.",
                        "Example: sideport cohort show",
                        "         --json")))
                .containsExactly(
                        "Shows a cohort by one rubric, and what is missing.",
                        "No verdict on anybody.",
                        "Example: sideport cohort show",
                        "         --json");
        assertThat(HelpTexts.lines(List.of(
                        "Compares two tables. The CSV", "looks so:", "  case,value", "  C07,1", "", "Few are", "few.")))
                .containsExactly(
                        "Compares two tables.", "The CSV looks so:", "  case,value", "  C07,1", "", "Few are", "few.");
        assertThat(HelpTexts.lines(List.of("Turns 1.5 into 2 (Brennan 2001).")))
                .as("a figure ends no sentence")
                .containsExactly("Turns 1.5 into 2 (Brennan 2001).");
    }
}
