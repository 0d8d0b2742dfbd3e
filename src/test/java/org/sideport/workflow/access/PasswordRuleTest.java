package org.sideport.workflow.access;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.InputException;

/** OWASP ASVS 5.0, 6.2.1 (eight letters), 6.2.4 (top 3000), 6.2.5 (no composition), 6.2.9 (64 letters), 6.2.11 (own words). */
class PasswordRuleTest {

    private final PasswordRule rule = new PasswordRule();

    @ParameterizedTest
    @ValueSource(
            strings = {
                "only small letters",
                "4815162342471108",
                "Zwölf Boxkämpfer",
                "ключ от старого сарая",
                "🐟🐠🐡🦈🐙🦀🦐🦑",
                "vbqmwxzr"
            })
    void takesAnyKindOfLetters(String password) {
        rule.require("A1", password.toCharArray());
    }

    @Test
    void takesALongOneOf64Letters() {
        rule.require("A1", "correct staple ".repeat(5).substring(0, 64).toCharArray());
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "seven77", "🐟🐠🐡🦈🐙🦀🦐"})
    void refusesFewerThanEightLetters(String password) {
        refused("A1", password, "letters");
    }

    /** Known from every published list of the commonest passwords (from memory), in whatever case. */
    @ParameterizedTest
    @ValueSource(
            strings = {
                "password",
                "Password",
                "12345678",
                "123456789",
                "1234567890",
                "qwertyuiop",
                "iloveyou",
                "sunshine",
                "princess",
                "football",
                "baseball",
                "11111111",
                "password1",
                "1q2w3e4r"
            })
    void refusesTheCommonest(String password) {
        refused("A1", password, "tried first");
    }

    @ParameterizedTest
    @ValueSource(strings = {"zzzzzzzzzz", "abababababab"})
    void refusesOneOrTwoLettersRepeated(String password) {
        refused("A1", password, "tried first");
    }

    @ParameterizedTest
    @ValueSource(strings = {"trainee-03", "TRAINEE-03!", "trainee-03trainee-03", "sideport2026", "Cataract-123"})
    void refusesLittleMoreThanTheOwnCodeOrTheProgramsWords(String password) {
        refused("Trainee-03", password, "little more");
    }

    @Test
    void knowsMoreThanThreeThousandCommonOnes() {
        assertThat(rule.commonCount()).isGreaterThanOrEqualTo(3000);
    }

    @Test
    void makesPasswordsThatItTakesItselfAndNoTwoAlike() {
        String one = new String(rule.make());
        assertThat(one).matches("([a-z2-9]{4}-){3}[a-z2-9]{4}").isNotEqualTo(new String(rule.make()));
        rule.require("A1", one.toCharArray());
    }

    private void refused(String code, String password, String why) {
        assertThatThrownBy(() -> rule.require(code, password.toCharArray()))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(why);
    }
}
