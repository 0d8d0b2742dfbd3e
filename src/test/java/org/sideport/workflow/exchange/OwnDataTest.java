package org.sideport.workflow.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.StringReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.AgreedMark;
import org.sideport.model.Caller;
import org.sideport.model.Decision;
import org.sideport.model.Role;
import org.sideport.model.Sha256;
import org.sideport.model.SurgicalCase;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** A person's right to what is held about him or her: GDPR, Article 15 (3), and Article 20 (1), "machine-readable". */
class OwnDataTest {

    @TempDir
    Path temp;

    private Workspace workspace;
    private Path out;

    @BeforeEach
    void aUnitWithAnotherTrainee() throws Exception {
        workspace = FreshWorkspace.in(temp.resolve("unit"));
        Hospital.fill(workspace, temp.resolve("shelf"));
        workspace.change(s -> {
            s.cases()
                    .add(new SurgicalCase(
                            "D-099", "T77", LocalDate.of(2026, 3, 1), "phaco", Map.of("eye", "right"), null));
            long id = s.ratings().addDraft("D-099", Hospital.rating("A1", false, 1), null, null);
            s.ratings().sign(id, Hospital.SIGNED);
            s.comments().save("D-099", Hospital.comment("c-99", "A1", "about somebody else", null));
        });
        out = temp.resolve("T03.zip");
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    @Test
    void everythingAboutThePersonAndNothingAboutAnother() throws Exception {
        assertThat(new ExportOwnData(workspace).export("T03", out)).isEqualTo(1);
        Map<String, byte[]> entries = Zips.read(out);
        String voice = workspace.read(s -> s.comments().voices()).iterator().next();
        assertThat(entries.keySet())
                .containsExactly(
                        "README.txt",
                        "data.json",
                        "cases.csv",
                        "phases.csv",
                        "events.csv",
                        "comments.csv",
                        "measurements.csv",
                        "marks.csv",
                        "agreed.csv",
                        "decisions.csv",
                        "deeds.csv",
                        "rubrics/phaco-competency/" + Hospital.RUBRIC.version() + ".json",
                        "voice/" + voice + ".ogg");
        assertThat(new String(entries.get("voice/" + voice + ".ogg"), StandardCharsets.UTF_8))
                .isEqualTo("not a real sound, but bytes all the same");
        for (Map.Entry<String, byte[]> entry : entries.entrySet()) {
            assertThat(new String(entry.getValue(), StandardCharsets.UTF_8))
                    .as(entry.getKey())
                    .doesNotContain("T77", "D-099", "somebody else");
        }
        JsonNode json = JsonMapper.builder().build().readTree(entries.get("data.json"));
        assertThat(json.path("person").asString()).isEqualTo("T03");
        JsonNode one = json.path("cases").get(0);
        assertThat(one.path("comments").size()).isEqualTo(2);
        // A1's superseded and amended marks and the own ones; A2's draft is nobody's mark yet
        assertThat(one.path("ratings").size()).isEqualTo(3);
        List<CSVRecord> marks = csv(entries.get("marks.csv"));
        assertThat(marks).hasSize(3 * Hospital.RUBRIC.items().size());
        assertThat(marks).extracting(r -> r.get("assessor")).containsOnly("A1", "T03");
        assertThat(marks.get(1).get("comment")).isEqualTo("'=SUM(A1)");
        assertThat(csv(entries.get("phases.csv")))
                .extracting(r -> r.get("phase"), r -> r.get("start_us"), r -> r.get("end_us"))
                .containsExactly(
                        org.assertj.core.groups.Tuple.tuple("incision", "1000000", "5040000"),
                        org.assertj.core.groups.Tuple.tuple("rhexis", "6000000", "30000000"));
    }

    /** What a panel decided about a person is held about that person. */
    @Test
    void whatWasDecidedAndAgreedGoesWithIt() throws Exception {
        decide("T03", "goes on under supervision");
        decide("T77", "somebody else's decision");
        workspace.change(s -> s.agreedMarks()
                .add(new AgreedMark(
                        "g-1",
                        "D-017",
                        Hospital.RUBRIC.id(),
                        Hospital.RUBRIC.version(),
                        AgreedMark.Purpose.ADJUDICATION,
                        null,
                        "A1, A2",
                        "looked at it together",
                        Hospital.SIGNED.plusSeconds(7200),
                        Hospital.rating("A1", false, 2).scores())));
        new ExportOwnData(workspace).export("T03", out);
        Map<String, byte[]> entries = Zips.read(out);
        assertThat(csv(entries.get("decisions.csv")))
                .singleElement()
                .satisfies(r -> assertThat(r.toMap())
                        .containsEntry("wording", "goes on under supervision")
                        .containsEntry("decided_on", "2026-05-04")
                        .containsEntry("decided_by", "D1 D2"));
        assertThat(csv(entries.get("agreed.csv")))
                .hasSize(Hospital.RUBRIC.items().size())
                .allSatisfy(r -> assertThat(r.get("agreed_by")).isEqualTo("A1, A2"));
        JsonNode json = JsonMapper.builder().build().readTree(entries.get("data.json"));
        assertThat(json.path("decisions").get(0).path("figures").path("n").asInt())
                .isEqualTo(3);
        assertThat(json.path("agreed").get(0).path("case").asString()).isEqualTo("D-017");
    }

    private void decide(String trainee, String wording) {
        String figures = "{\"n\":3}";
        workspace.change(s -> s.decisions()
                .add(new Decision(
                        "d-" + trainee,
                        trainee,
                        Hospital.RUBRIC.id(),
                        Hospital.RUBRIC.version(),
                        wording,
                        LocalDate.of(2026, 5, 4),
                        List.of("D1", "D2"),
                        figures,
                        Sha256.of(figures),
                        "D1",
                        Hospital.SIGNED)));
    }

    private static List<CSVRecord> csv(byte[] bytes) throws Exception {
        return CSVFormat.RFC4180
                .builder()
                .setHeader()
                .setSkipHeaderRecord(true)
                .get()
                .parse(new StringReader(new String(bytes, StandardCharsets.UTF_8)))
                .getRecords();
    }

    @Test
    void marksOfOthersWaitForTheOwnOnesThatWereBegun() throws Exception {
        workspace.change(s -> s.ratings()
                .addDraft(
                        "D-017",
                        Hospital.rating("T03", true, 2),
                        s.ratings().ofCase("D-017").get(2).id(),
                        "again"));
        new ExportOwnData(workspace).export("T03", out);
        assertThat(csv(Zips.read(out).get("marks.csv")))
                .extracting(r -> r.get("assessor"))
                .containsOnly("T03");
    }

    @Test
    void onlyThePersonOrADirectorMayAskForThem() {
        ExportOwnData other = new ExportOwnData(workspace.as(new Caller.Person("T77", Set.of(Role.TRAINEE))));
        ExportOwnData assessor = new ExportOwnData(workspace.as(new Caller.Person("A1", Set.of(Role.ASSESSOR))));
        for (ExportOwnData job : List.of(other, assessor)) {
            assertThatThrownBy(() -> job.export("T03", out)).hasMessageContaining("of another person");
        }
        assertThat(out).doesNotExist();
        assertThat(new ExportOwnData(workspace.as(new Caller.Person("T03", Set.of(Role.TRAINEE)))).export("T03", out))
                .isEqualTo(1);
        assertThatThrownBy(() -> new ExportOwnData(workspace).export("T55", out))
                .hasMessageContaining("there is nothing about T55");
    }
}
