package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.sql.SQLException;
import java.util.List;
import org.jdbi.v3.core.JdbiException;
import org.jdbi.v3.core.statement.UnableToExecuteStatementException;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.InputException;
import org.sideport.model.SurgicalCase;

class StoreFaultsTest {

    @TempDir
    Path temp;

    @Test
    void aFullDiskIsExplainedAndWhatWasThereStays() {
        try (Workspace workspace = Workspace.create(temp)) {
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-01")));
            assertThatThrownBy(() -> workspace.change(s -> {
                        // SQLite's own limit stands in for the disk's; it then reports SQLITE_FULL (13)
                        s.handle.execute("pragma max_page_count = 1");
                        for (int i = 0; i < 500; i++) {
                            s.cases().add(Samples.surgicalCase("X-" + i, temp.resolve("long".repeat(50) + i)));
                        }
                    }))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("nothing was saved")
                    .hasMessageContaining("the disk is full: free some space and try again");
            assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all()))
                    .containsExactly(Samples.surgicalCase("C-01"));
        }
    }

    // Result codes: https://www.sqlite.org/rescode.html
    @ParameterizedTest
    @CsvSource({
        "5, another program is using the file",
        "8, the file may not be written",
        "10, the drive reports a fault",
        "778, the drive reports a fault", // SQLITE_IOERR_WRITE = 10 | (3 << 8)
        "11, the file is damaged",
        "13, the disk is full",
        "14, the file may not be written",
        "26, the file is damaged",
        "1544, the file may not be written", // SQLITE_READONLY_DIRECTORY = 8 | (6 << 8)
    })
    void eachFaultOfTheFileHasItsRemedy(int code, String remedy) {
        RuntimeException told = StoreFaults.explain(fault(code), temp.resolve("sideport.db"), "not done");
        assertThat(told)
                .isInstanceOf(InputException.class)
                .hasMessageContaining(temp.resolve("sideport.db").toString())
                .hasMessageContaining(remedy)
                .hasMessageContaining("not done: code " + code);
    }

    @Test
    void aMistakeOfTheProgramIsNotDressedUpAsTheUsers() {
        JdbiException fault = fault(1); // SQLITE_ERROR: a wrong statement
        assertThat(StoreFaults.explain(fault, temp, "not done")).isSameAs(fault);
    }

    private static JdbiException fault(int code) {
        return new UnableToExecuteStatementException(new SQLException("code " + code, null, code), null);
    }
}
