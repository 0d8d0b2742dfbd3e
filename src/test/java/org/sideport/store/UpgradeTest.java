package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.sql.SQLException;
import org.flywaydb.core.Flyway;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.RatingState;

class UpgradeTest {

    @TempDir
    Path temp;

    @Test
    void aStoreOfTheFirstVersionKeepsItsRatingsAndGetsTheLaterLocks() throws SQLException {
        Flyway.configure()
                .dataSource("jdbc:sqlite:" + temp.resolve(Workspace.STORE_FILE), null, null)
                .locations("classpath:org/sideport/store/migration")
                .target("1")
                .load()
                .migrate();
        Samples.raw(temp, "insert into surgical_case values (1, 'C-01', 'T03', '2026-03-09', 'phaco')");
        Samples.raw(temp, "insert into rubric_document values ('made-up', '1.0.0', '{}')");
        Samples.raw(
                temp,
                "insert into rating values (1, 1, 'made-up', '1.0.0', 'A1', 0, 0, 'calm', 'signed',"
                        + " '2026-03-10T08:15:00Z', '2026-03-10T08:15:00Z', null, null)");

        try (Workspace workspace = Workspace.open(temp)) {
            StoredRating kept = workspace.read(s -> s.ratings().find(1).orElseThrow());
            assertThat(kept.state()).isEqualTo(RatingState.SIGNED);
            assertThat(kept.rating().comment()).isEqualTo("calm");
            assertThatThrownBy(() -> Samples.raw(temp, "delete from rating"))
                    .isInstanceOf(SQLException.class)
                    .hasMessageContaining("a signed rating cannot be deleted");
        }
    }
}
