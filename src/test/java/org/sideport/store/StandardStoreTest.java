package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.AngoffRound;
import org.sideport.model.Decision;
import org.sideport.model.Standard;
import org.sideport.model.StandardMethod;

/** What people agreed cannot be changed, not even past the program. */
class StandardStoreTest {

    private static final Instant AT = Instant.parse("2026-03-10T08:15:00Z");

    @TempDir
    Path temp;

    private Workspace workspace;

    private static Standard standard(String id, int number) {
        return new Standard(
                id,
                Samples.RUBRIC,
                "1.0.0",
                number,
                StandardMethod.ANGOFF,
                0.69,
                0.025,
                0.61,
                0.77,
                0.95,
                4,
                LocalDate.of(2026, 3, 9),
                List.of("A1", "A2"),
                Map.of("odd", "a=b"),
                List.of("one", "two"),
                "d".repeat(64),
                "why\nnot",
                "D1",
                AT,
                null);
    }

    /** A closed round r with judge A1, an open one o; standard s2 in force over s1; decision d. */
    @BeforeEach
    void agreed() {
        workspace = FreshWorkspace.in(temp);
        workspace.change(s -> {
            s.ratings().keepRubric(Samples.RUBRIC, "1.0.0", Samples.RUBRIC_TEXT);
            for (String id : List.of("r", "o")) {
                s.rounds()
                        .add(new AngoffRound(
                                id,
                                Samples.RUBRIC,
                                "1.0.0",
                                id.equals("r") ? 1 : 2,
                                List.of("A2", "A1"),
                                List.of(),
                                "",
                                "D1",
                                AT,
                                "",
                                null));
                s.rounds().save(id, "A1", Map.of("rhexis", 2.5));
            }
            s.rounds().close("r", List.of("A2"), "said", "D1", AT);
            s.standards().add(standard("s1", 1));
            s.standards().add(standard("s2", 2));
            s.decisions()
                    .add(new Decision(
                            "d",
                            "T03",
                            Samples.RUBRIC,
                            "1.0.0",
                            "goes on",
                            LocalDate.of(2026, 3, 9),
                            List.of("A1"),
                            "{}",
                            "e".repeat(64),
                            "D1",
                            AT));
        });
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    @Test
    void everythingComesBackAsItWas() {
        workspace.read(s -> {
            assertThat(s.standards().inForce(Samples.RUBRIC, "1.0.0")).contains(standard("s2", 2));
            assertThat(s.standards().all()).extracting(Standard::supersededBy).containsExactly("s2", null);
            AngoffRound closed = s.rounds().find("r").orElseThrow();
            assertThat(closed.judges()).containsExactly("A2", "A1");
            assertThat(closed.counted()).containsExactly("A1");
            assertThat(closed.closedAt()).isEqualTo(AT);
            assertThat(s.rounds().values("r")).isEqualTo(Map.of("A1", Map.of("rhexis", 2.5)));
            Decision decision = s.decisions().of("T03").get(0);
            assertThat(decision.wording()).isEqualTo("goes on");
            assertThat(decision.shownDigest()).hasSize(64);
            assertThat(s.decisions().of("T04")).isEmpty();
            return true;
        });
    }

    @ParameterizedTest
    @ValueSource(
            strings = {
                "update standard set share = 0.5 where id = 's2'",
                "update standard set agreed_by = 'A9' where id = 's2'",
                "update standard set lower_limit = null where id = 's2'",
                "update standard set n = 40 where id = 's2'",
                "update standard set superseded_by = null where id = 's1'",
                "update standard set superseded_by = 's1' where id = 's1'",
                "update standard set share = 0.5, superseded_by = 's1' where id = 's2'",
                "delete from standard where id = 's2'",
                "insert or replace into standard select * from standard where id = 's2'",
                "update angoff_round set note = 'x' where id = 'r'",
                "update angoff_round set state = 'open' where id = 'r'",
                "delete from angoff_round where id = 'r'",
                "update angoff_value set points = 1 where round_id = 'r'",
                "update angoff_value set points = 1, round_id = 'r' where round_id = 'o'",
                "delete from angoff_value where round_id = 'r'",
                "insert into angoff_value values ('r', 'A1', 'slips', 1)",
                "insert or replace into angoff_value values ('r', 'A1', 'rhexis', 1)",
                "insert into angoff_judge values ('r', 'A3', 3, 1)",
                "update angoff_judge set counted = 1 where round_id = 'r' and judge = 'A2'",
                "delete from angoff_judge where round_id = 'r'",
                "update decision set wording = 'stops' where id = 'd'",
                "update decision set shown = '' where id = 'd'",
                "delete from decision where id = 'd'",
                "insert or replace into decision select * from decision where id = 'd'"
            })
    void theDatabaseItselfRefuses(String sql) {
        assertThatThrownBy(() -> Samples.raw(temp, sql))
                .isInstanceOf(SQLException.class)
                .hasMessageMatching("(?s).*(cannot be (changed|deleted)|begins open).*");
    }

    /** So that the test above proves the triggers and not a fault in its statements. */
    @Test
    void anOpenRoundCanBeChanged() throws SQLException {
        assertThat(Samples.raw(temp, "update angoff_value set points = 1 where round_id = 'o'"))
                .isEqualTo(1);
        assertThat(Samples.raw(temp, "insert into angoff_value values ('o', 'A1', 'slips', 1)"))
                .isEqualTo(1);
        assertThat(Samples.raw(temp, "update angoff_round set note = 'x' where id = 'o'"))
                .isEqualTo(1);
    }
}
