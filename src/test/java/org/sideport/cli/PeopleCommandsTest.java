package org.sideport.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.console.Console;
import org.sideport.workflow.SignIn;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** People and signing in on the command line, one run of the program after the other on one store. */
class PeopleCommandsTest {

    private static final String DIRECTORS = "eight brown kettles";
    private static final String TRAINEES = "nine yellow lamps";

    @TempDir
    Path home;

    private record Ran(int code, String out, String err) {
        JsonNode json() {
            return JsonMapper.builder().build().readTree(out);
        }
    }

    private Ran run(Map<String, String> secrets, String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        Map<String, String> environment = new HashMap<>(secrets);
        environment.put("SIDEPORT_CONFIG", home.resolve("config").toString());
        int code = new CommandTree(
                        new Console(new PrintWriter(out, true), new PrintWriter(err, true), environment, home))
                .run(arguments);
        return new Ran(code, out.toString(), err.toString());
    }

    private Ran as(String person, String password, String... arguments) {
        String[] all = java.util.Arrays.copyOf(arguments, arguments.length + 2);
        all[arguments.length] = "--as";
        all[arguments.length + 1] = person;
        return run(Map.of("SIDEPORT_PASSWORD", password), all);
    }

    private void beginWithADirector() {
        assertThat(run(Map.of(), "workspace", "init", home.resolve("unit").toString())
                        .code())
                .isZero();
        Ran added = run(
                Map.of("SIDEPORT_NEW_PASSWORD", DIRECTORS),
                "people",
                "add",
                "D1",
                "--role",
                "director,assessor",
                "--choose",
                "--json");
        assertThat(added.code()).as(added.err()).isZero();
        assertThat(added.json().at("/code").asString()).isEqualTo("D1");
        assertThat(added.json().at("/roles").toString()).isEqualTo("[\"assessor\",\"director\"]");
        assertThat(added.json().at("/first_password").isNull()).isTrue();
    }

    @Test
    void withoutPeopleNothingChangesAndAsIsRefused() {
        assertThat(run(Map.of(), "workspace", "init", home.resolve("unit").toString())
                        .code())
                .isZero();
        assertThat(run(Map.of(), "case", "list", "--json").code()).isZero();
        assertThat(run(Map.of(), "people", "list", "--json").json().at("/people"))
                .isEmpty();
        Ran named = as("A1", "x", "case", "list");
        assertThat(named.code()).isEqualTo(2);
        assertThat(named.err()).contains("nobody signs in", "leave out --as");
    }

    @Test
    void fromTheFirstPersonOnEveryCommandSignsIn() {
        beginWithADirector();
        Ran without = run(Map.of(), "case", "list");
        assertThat(without.code()).isEqualTo(2);
        assertThat(without.err()).contains("people sign in", "--as CODE", "SIDEPORT_PASSWORD");
        Ran wrong = as("D1", "wrong", "case", "list");
        assertThat(wrong.code()).isEqualTo(2);
        assertThat(wrong.err()).contains("do not belong together").doesNotContain("wrong\n");
        Ran unasked = run(Map.of(), "case", "list", "--as", "D1");
        assertThat(unasked.code()).isEqualTo(2);
        assertThat(unasked.err()).contains("SIDEPORT_PASSWORD");
        Ran right = as("d1", DIRECTORS, "case", "list", "--json");
        assertThat(right.code()).as(right.err()).isZero();
    }

    @Test
    void aTraineeIsAddedChangesTheFirstPasswordAndReachesOwnCasesOnly() {
        beginWithADirector();
        String first = as("D1", DIRECTORS, "people", "add", "T03", "--role", "trainee", "--json")
                .json()
                .at("/first_password")
                .asString();
        for (String[] one : new String[][] {{"C-1", "T03"}, {"C-2", "T04"}}) {
            Ran added = as(
                    "D1",
                    DIRECTORS,
                    "case",
                    "add",
                    "--code",
                    one[0],
                    "--trainee",
                    one[1],
                    "--date",
                    "2026-03-09",
                    "--procedure",
                    "phaco");
            assertThat(added.code()).as(added.err()).isZero();
        }
        Ran early = as("T03", first, "case", "list");
        assertThat(early.code()).isEqualTo(2);
        assertThat(early.err()).contains("made by somebody else", "people password --as T03");
        Ran changed = run(
                Map.of("SIDEPORT_PASSWORD", first, "SIDEPORT_NEW_PASSWORD", TRAINEES),
                "people",
                "password",
                "--as",
                "T03");
        assertThat(changed.code()).as(changed.err()).isZero();
        Ran own = as("T03", TRAINEES, "case", "list", "--json");
        assertThat(own.out()).contains("C-1").doesNotContain("C-2");
        Ran others = as("T03", TRAINEES, "case", "show", "C-2");
        assertThat(others.code()).isEqualTo(2);
        assertThat(others.err()).contains("you may not");
        Ran more = as("T03", TRAINEES, "people", "add", "T05", "--role", "director");
        assertThat(more.code()).isEqualTo(2);
        assertThat(more.err()).contains("manage people");
    }

    @Test
    void rolesBlockingAndResettingShowInTheList() {
        beginWithADirector();
        assertThat(as("D1", DIRECTORS, "people", "add", "A2", "--role", "assessor")
                        .out())
                .contains("First password, shown this once");
        assertThat(as("D1", DIRECTORS, "people", "roles", "A2", "--role", "trainee")
                        .code())
                .isZero();
        assertThat(as("D1", DIRECTORS, "people", "block", "A2").out()).contains("A2: trainee, blocked");
        JsonNode listed = as("D1", DIRECTORS, "people", "list", "--json").json().at("/people");
        assertThat(listed.size()).isEqualTo(2);
        assertThat(listed.at("/0/code").asString()).isEqualTo("A2");
        assertThat(listed.at("/0/active").asBoolean()).isFalse();
        assertThat(listed.at("/0/roles").toString()).isEqualTo("[\"trainee\"]");
        assertThat(listed.at("/0/must_change_password").asBoolean()).isTrue();
        assertThat(listed.at("/0/locked_until").isNull()).isTrue();
        assertThat(as("D1", DIRECTORS, "people", "unblock", "A2").out()).doesNotContain("blocked");
        assertThat(as("D1", DIRECTORS, "people", "password", "--reset", "A2", "--json")
                        .json()
                        .at("/first_password")
                        .asString())
                .hasSize(19);
        Ran last = as("D1", DIRECTORS, "people", "block", "D1");
        assertThat(last.code()).isEqualTo(2);
        assertThat(last.err()).contains("no director would be left");
    }

    @Test
    void aLockOutIsToldAndHolds() {
        beginWithADirector();
        String told = "";
        for (int i = 0; i < SignIn.FREE; i++) {
            told = as("D1", "wrong", "people", "list").err();
        }
        assertThat(told).contains("the next attempt can be in 30 s");
        assertThat(as("D1", DIRECTORS, "people", "list").err()).contains("too many wrong passwords for D1", "wait");
    }

    /** OWASP ASVS 5.0, 14.2.1 in spirit: no secret in what others can read, such as the list of processes. */
    @Test
    void noCommandTakesAPasswordAsAnArgument() {
        beginWithADirector();
        for (String option : new String[] {"--password", "--password=x", "-p"}) {
            assertThat(run(Map.of(), "people", "list", "--as", "D1", option).code())
                    .as(option)
                    .isEqualTo(2);
        }
    }
}
