package org.sideport.workflow.progress;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Locale;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.sideport.stats.Refusal;

class RefusalWordsTest {

    @ParameterizedTest
    @EnumSource
    void everyReasonWhyThereIsNoNumberIsSaidInTheLanguageOfTheScreen(Refusal.Reason reason) {
        Refusal refusal = new Refusal(reason, "only 1 case", "mark more");
        ProgressWords english = new ProgressWords(Locale.UK);
        assertThat(english.why(refusal)).isEqualTo("only 1 case");
        assertThat(english.remedy(refusal)).isEqualTo("mark more");
        ProgressWords german = new ProgressWords(Locale.GERMANY);
        assertThat(german.why(refusal)).isNotBlank().doesNotContain("case");
        assertThat(german.remedy(refusal)).isNotBlank().doesNotContain("mark more");
    }
}
