package org.sideport.cli.stats;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import tools.jackson.databind.JsonNode;

/** The command as a user runs it. Expected numbers: eRm 1.0.2, src/test/oracle/rasch/erm.R, facets-*-erm.csv. */
class SeverityCommandTest extends OneStatsRun {

    private static final String RESOURCE = "src/test/resources/org/sideport/stats/rasch/facets.csv";

    private String csv = "";

    @BeforeEach
    void read() throws IOException {
        csv = Files.readString(Path.of(RESOURCE));
    }

    private int severity(String text, String... options) throws IOException {
        return call(with(options, "severity", file(text)));
    }

    private static JsonNode find(JsonNode list, String key, String label) {
        for (JsonNode node : list) {
            if (node.at("/" + key).asString().equals(label)) {
                return node;
            }
        }
        throw new AssertionError(label + " in " + list);
    }

    @Test
    void conditionalSeveritiesAreThoseOfR() throws IOException {
        assertThat(severity(csv, "--estimation", "conditional", "--json")).isZero();
        JsonNode json = json();
        JsonNode a1 = find(json.at("/assessors"), "assessor", "A1");
        assertThat(a1.at("/severity/estimate").asDouble()).isCloseTo(-0.48253, within(1e-4));
        assertThat(a1.at("/severity/se").asDouble()).isCloseTo(0.12516, within(1e-4));
        assertThat(a1.at("/severity/lower").asDouble()).isCloseTo(-0.48253 - 1.959964 * 0.12516, within(2e-4));
        assertThat(a1.at("/n").asInt()).isEqualTo(120);
        assertThat(a1.at("/extreme").isNull()).isTrue();
        assertThat(find(json.at("/items"), "item", "I4")
                        .at("/difficulty/estimate")
                        .asDouble())
                .isCloseTo(0.77835, within(1e-4));
        assertThat(json.at("/conditional_log_likelihood").asDouble()).isCloseTo(-261.97824, within(1e-5));
        assertThat(json.at("/model").asString()).isEqualTo("rating_scale");
        assertThat(json.at("/estimation").asString()).isEqualTo("conditional");
        assertThat(json.at("/steps")).hasSize(3);
        // psi 1 is the first deviation
        assertThat(json.at("/steps/0/deviation/estimate").asDouble()).isCloseTo(-1.41813, within(1e-4));
        assertThat(json.at("/steps/0/deviation/se").asDouble()).isCloseTo(0.19748, within(1e-4));
        assertThat(json.at("/trainees")).hasSize(45);
        assertThat(json.at("/equal_severity_test/df").asInt()).isEqualTo(2);
        assertThat(json.at("/equal_severity_test/p").asDouble()).isLessThan(1e-3);
        assertThat(json.at("/separation/trainees/reliability").asDouble()).isBetween(.5, .95);
        assertThat(severity(csv, "--model", "partial-credit", "--estimation", "conditional", "--json"))
                .isZero();
        assertThat(find(json().at("/assessors"), "assessor", "A3")
                        .at("/severity/estimate")
                        .asDouble())
                .isCloseTo(0.46395, within(1e-4));
        assertThat(json().at("/steps")).hasSize(12);
    }

    @Test
    void theTablesNameTheMostSevereFirstAndSayTheCaution() throws IOException {
        assertThat(severity(csv)).isZero();
        String text = out.toString();
        assertThat(text)
                .contains("360 marks at levels 0 to 3, ")
                .contains("rating-scale model, conditional maximum likelihood, bias reduced")
                .contains("95 % limits")
                .contains("All equally severe? chi-square ")
                .contains("p < 0.001")
                .contains("A3, the most severe assessor")
                .contains("and A1, the most lenient")
                .contains("hardly chance")
                .contains("no trainee pass or fail on a corrected figure alone");
        assertThat(text.indexOf("\nA3 ")).isPositive().isLessThan(text.indexOf("\nA2 "));
        assertThat(text.indexOf("\nA2 ")).isLessThan(text.indexOf("\nA1 "));
    }

    @Test
    void columnsMayHaveOtherNamesAndEmptyMarksAreLeftOut() throws IOException {
        String usual = csv.replaceFirst("trainee,assessor,item,level", "Subject,Rater,item,Score") + "T001,A1,I1,\n";
        assertThat(severity(usual, "--json")).isZero();
        assertThat(json().at("/n").asInt()).isEqualTo(360);
        double severity = json().at("/assessors/0/severity/estimate").asDouble();
        String own = csv.replaceFirst("trainee,assessor,item,level", "who,by,what,mark");
        assertThat(severity(own, "--trainee", "who", "--assessor", "by", "--item", "what", "--mark", "Mark", "--json"))
                .isZero();
        assertThat(json().at("/assessors/0/severity/estimate").asDouble()).isEqualTo(severity);
        assertThat(severity(own)).isEqualTo(2);
        assertThat(err.toString()).contains("there is no column trainee");
    }

    @Test
    void casesMayBeMeasuredApart() throws IOException {
        StringBuilder text = new StringBuilder("trainee,case,assessor,item,level\n");
        for (String line : csv.lines().skip(1).toList()) {
            String[] cells = line.split(",");
            int number = Integer.parseInt(cells[0].substring(1));
            text.append("T" + number / 2 + ",C" + number % 2 + "," + cells[1] + "," + cells[2] + "," + cells[3] + "\n");
        }
        assertThat(severity(text.toString(), "--case", "case", "--json")).isZero();
        assertThat(json().at("/trainees")).hasSize(45);
        assertThat(json().at("/trainees/0/trainee").asString()).contains("/C");
        double apart = json().at("/assessors/0/severity/estimate").asDouble();
        assertThat(severity(csv, "--json")).isZero();
        assertThat(json().at("/assessors/0/severity/estimate").asDouble()).isCloseTo(apart, within(1e-9));
        assertThat(severity(text.toString(), "--case", "case")).isZero();
        assertThat(out.toString()).contains("Cases of trainees");
    }

    @Test
    void unconnectedGroupsEndWithARefusalThatNamesThem() throws IOException {
        StringBuilder text = new StringBuilder("trainee,assessor,item,level\n");
        for (int t = 0; t < 8; t++) {
            for (int i = 0; i < 3; i++) {
                text.append("T" + t + ",A" + t / 4 + ",I" + i + "," + (1 + (t * 7 + i * 5 + t * i) % 4) + "\n");
            }
        }
        assertThat(severity(text.toString(), "--json")).isEqualTo(1);
        assertThat(json().at("/refused/reason").asString()).isEqualTo("not_connected");
        assertThat(json().at("/refused/why").asString())
                .contains("trainee T0, T1, T2, T3 with assessor A0; trainee T4, T5, T6, T7 with assessor A1");
    }

    @Test
    void oneAssessorIsNotJudgedAndTopMarksAreNoted() throws IOException {
        StringBuilder text = new StringBuilder("trainee,assessor,item,level\n");
        for (int t = 0; t < 12; t++) {
            for (int i = 0; i < 3; i++) {
                int level = t == 0 ? 5 : 2 + (t * 7 + i * 5 + t * i) % 4;
                text.append("T" + t + ",A1,I" + i + "," + level + "\n");
            }
        }
        assertThat(severity(text.toString())).isZero();
        assertThat(out.toString())
                .contains("With one assessor that can be compared, severity and difficulty are not told apart.")
                .contains("only top marks")
                .contains("Trainee T0 has only top marks");
    }

    @Test
    void whatCannotBeReadIsNamed() throws IOException {
        assertThat(severity("trainee,assessor,item,level\nT1,A1,I1,2.5\n")).isEqualTo(2);
        assertThat(err.toString()).contains("the level 2.5 is no whole number").contains("line 2");
        assertThat(severity("trainee,assessor,item,level\nT1,A1,I1,\n")).isEqualTo(2);
        assertThat(err.toString()).contains("no row has a level");
        assertThat(severity(csv, "--model", "quadratic")).isEqualTo(2);
        assertThat(err.toString()).contains("there is no quadratic").contains("rating-scale, partial-credit");
        assertThat(severity(csv, "--confidence", "1.5")).isEqualTo(2);
    }
}
