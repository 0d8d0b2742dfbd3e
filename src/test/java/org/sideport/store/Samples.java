package org.sideport.store;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;

/** Small made-up records, and a way into the store's file past the program. */
final class Samples {

    static final String RUBRIC = "made-up";
    static final String RUBRIC_TEXT = "{\"id\": \"made-up\", \"note\": \"kept letter by letter\"}";

    private Samples() {}

    static SurgicalCase surgicalCase(String code) {
        return new SurgicalCase(code, "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of("eye", "left"), null);
    }

    static SurgicalCase surgicalCase(String code, Path... files) {
        List<Segment> segments =
                java.util.Arrays.stream(files).map(Samples::segment).toList();
        return new SurgicalCase(code, "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), new Recording(segments));
    }

    /** Every number is another, so that a mix-up of columns shows. */
    static Segment segment(Path file) {
        return new Segment(
                file,
                "ab".repeat(32),
                5_000_000_000L,
                61_061_000,
                1830,
                33_367,
                30_000,
                1001,
                true,
                "h264",
                720,
                576,
                "16:15",
                90,
                true,
                false,
                List.of("title=list 7", "encoder=x"));
    }

    static Rating rating(String assessor, int rhexis) {
        return new Rating(
                RUBRIC,
                "1.0.0",
                assessor,
                false,
                true,
                List.of(
                        new ItemScore.Marked(
                                "rhexis",
                                rhexis,
                                null,
                                "second try",
                                List.of(MediaTime.ofMicros(61_000_001), MediaTime.ofMicros(7))),
                        new ItemScore.Marked("slips", 1, 2.5, "", List.of()),
                        new ItemScore.Excused(
                                "suture", NotApplicable.NOT_PERFORMED, "", List.of(MediaTime.ofMicros(9)))),
                "steady hands",
                List.of("wider wound", "slower = surer"));
    }

    /** Runs one statement on the store's file with a connection of its own, foreign keys on. */
    static int raw(Path workspace, String sql) throws SQLException {
        try (Connection connection = connect(workspace);
                Statement statement = connection.createStatement()) {
            return statement.executeUpdate(sql);
        }
    }

    /** The first column of the first row as text. */
    static String rawText(Path workspace, String query) throws SQLException {
        try (Connection connection = connect(workspace);
                Statement statement = connection.createStatement();
                var rows = statement.executeQuery(query)) {
            return rows.next() ? rows.getString(1) : "(no row)";
        }
    }

    private static Connection connect(Path workspace) throws SQLException {
        return DriverManager.getConnection(
                "jdbc:sqlite:" + workspace.resolve(Workspace.STORE_FILE) + "?foreign_keys=true");
    }
}
