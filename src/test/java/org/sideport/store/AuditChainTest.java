package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Instant;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.AuditEvent;

/** The audit trail of a shared store: many write, the database itself says who, and the chain holds. */
class AuditChainTest {

    @TempDir
    Path temp;

    @Test
    void theChainHoldsHoweverManyWriteAndNobodyWritesInAnothersName() throws Exception {
        try (SharedUnit unit = new SharedUnit(temp)) {
            ExecutorService threads = Executors.newFixedThreadPool(4);
            List<Callable<Boolean>> work = new ArrayList<>();
            for (String person : List.of("A1", "A2", "T01", "D1")) {
                work.add(() -> {
                    try (Workspace workspace = unit.open(person)) {
                        for (int i = 0; i < 15; i++) {
                            workspace.change(s -> s.audit().add("test.é", "C-1", "", "ü"));
                        }
                    }
                    return true;
                });
            }
            for (Future<Boolean> done : threads.invokeAll(work)) {
                assertThat(done.get()).isTrue();
            }
            threads.shutdown();
            unit.sql(
                    "A1",
                    "insert into audit_event (at, who, deed, subject, before, after, previous, digest) values"
                            + " ('1999-01-01T00:00:00Z', 'D1', 'lie', 'C-1', '', '', 'x', 'x')");

            List<AuditEvent> all = unit.keeper.read(s -> s.audit().all());
            assertThat(all)
                    .filteredOn(e -> List.of("test.é", "lie").contains(e.deed()))
                    .hasSize(61);
            String previous = "";
            for (AuditEvent event : all) {
                assertThat(event.previous()).isEqualTo(previous);
                // the digest that the program works out: two programs, one result
                previous = AuditStore.digest(
                        event.at().toString(),
                        event.who(),
                        event.deed(),
                        event.subject(),
                        event.before(),
                        event.after(),
                        event.previous());
                assertThat(event.digest()).isEqualTo(previous);
            }
            assertThat(all.get(all.size() - 1).who()).isEqualTo("A1");
            assertThat(Instant.parse(all.get(all.size() - 1).at()))
                    .isAfter(Instant.parse(all.get(0).at()));
            for (String sql :
                    List.of("update sideport.audit_event set who = 'x'", "delete from sideport.audit_event")) {
                assertThatThrownBy(() -> unit.sql(TestPostgres.KEEPER, sql))
                        .isInstanceOf(SQLException.class)
                        .hasMessageContaining("the audit trail is only added to");
            }
        }
    }
}
