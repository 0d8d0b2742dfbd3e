package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

@ParameterizedClass
@EnumSource(TestEngine.class)
class CaseStoreTest {

    @Parameter
    TestEngine engine;

    @TempDir
    Path temp;

    @Test
    void aCaseComesBackWithEveryDetailOfItsFiles() {
        SurgicalCase stored = Samples.surgicalCase(
                "C-01",
                temp.resolve("part 1.mp4"),
                temp.resolve("../elsewhere/part 2.mp4").normalize());
        try (Workspace workspace = engine.create(temp.resolve("w"))) {
            workspace.change(s -> s.cases().add(stored));
            assertThat(workspace.<SurgicalCase>read(s -> s.cases().get("C-01"))).isEqualTo(stored);
            assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all())).containsExactly(stored);
        }
    }

    @Test
    void aCodeIsTakenOnceHoweverItIsWritten() {
        try (Workspace workspace = engine.create(temp)) {
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-01a")));
            assertThatThrownBy(() -> workspace.change(s -> s.cases().add(Samples.surgicalCase("c-01A"))))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("there is a case c-01A already");
            assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all())).hasSize(1);
            assertThat(workspace.<String>read(s -> s.cases().get("c-01A").code()))
                    .isEqualTo("C-01a");
        }
    }

    @Test
    void aCaseThatIsNotThereIsToldOf() {
        try (Workspace workspace = engine.create(temp)) {
            assertThatThrownBy(() -> workspace.read(s -> s.cases().get("C-09")))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("there is no case C-09")
                    .hasMessageContaining("sideport case list");
            assertThatThrownBy(() -> workspace.read(s -> s.taggings().find("C-09", "A1")))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("there is no case C-09");
        }
    }

    @Test
    void casesAreListedByDateThenCode() {
        try (Workspace workspace = engine.create(temp)) {
            workspace.change(s -> {
                for (String[] one :
                        new String[][] {{"C-3", "2026-01-02"}, {"C-2", "2026-01-02"}, {"C-9", "2025-12-31"}}) {
                    s.cases().add(new SurgicalCase(one[0], "T03", LocalDate.parse(one[1]), "phaco", Map.of(), null));
                }
            });
            assertThat(workspace.<List<SurgicalCase>>read(s -> s.cases().all()))
                    .extracting(SurgicalCase::code)
                    .containsExactly("C-9", "C-2", "C-3");
        }
    }

    @Test
    void filesInAndBesideTheWorkspaceAreKeptByTheirWayFromIt() throws SQLException {
        Path dir = temp.resolve("shelf/unit");
        try (Workspace workspace = engine.create(dir)) {
            workspace.change(s -> s.cases()
                    .add(Samples.surgicalCase(
                            "C-01", dir.resolve("media/a.mp4"), temp.resolve("shelf/recordings/b.mp4"))));
        }
        assertThat(engine.rawText(dir, "select path from segment where ordinal = 0"))
                .isEqualTo("media/a.mp4");
        assertThat(engine.rawText(dir, "select path from segment where ordinal = 1"))
                .isEqualTo("../recordings/b.mp4");
    }

    @Test
    void aWorkspaceMovedTogetherWithItsRecordingsStillKnowsThem() throws IOException {
        Path recordings = Files.createDirectories(temp.resolve("old/recordings"));
        Files.writeString(recordings.resolve("a.mp4"), "stands for a recording");
        try (Workspace workspace = engine.create(temp.resolve("old/unit"))) {
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-01", recordings.resolve("a.mp4"))));
        }
        Files.move(temp.resolve("old"), temp.resolve("new"));
        try (Workspace workspace = engine.open(temp.resolve("new/unit"))) {
            Path file = files(workspace, "C-01").get(0);
            assertThat(file).isEqualTo(temp.resolve("new/recordings/a.mp4")).hasContent("stands for a recording");
        }
    }

    @Test
    void aNewPlaceOfAFileIsRemembered() {
        try (Workspace workspace = engine.create(temp)) {
            SurgicalCase stored = Samples.surgicalCase("C-01", temp.resolve("a.mp4"), temp.resolve("b.mp4"));
            workspace.change(s -> s.cases().add(stored));
            List<Segment> moved =
                    List.of(Samples.segment(temp.resolve("a.mp4")), Samples.segment(temp.resolve("drive/b again.mp4")));
            workspace.change(s -> s.cases().moveSegments("c-01", moved));
            assertThat(files(workspace, "C-01"))
                    .containsExactly(temp.resolve("a.mp4"), temp.resolve("drive/b again.mp4"));
        }
    }

    @Test
    void theCasesThatUseAFileAreFoundByItsContent() {
        try (Workspace workspace = engine.create(temp)) {
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-02", temp.resolve("a.mp4"))));
            workspace.change(s -> s.cases().add(Samples.surgicalCase("C-01", temp.resolve("copy of a.mp4"))));
            assertThat(workspace.<List<String>>read(s -> s.cases().usingContent("ab".repeat(32))))
                    .containsExactly("C-01", "C-02");
            assertThat(workspace.<List<String>>read(s -> s.cases().usingContent("cd".repeat(32))))
                    .isEmpty();
        }
    }

    @Test
    void whatHangsOnACaseGoesWithIt() throws SQLException {
        try (Workspace workspace = engine.create(temp)) {
            workspace.change(s -> {
                s.cases().add(Samples.surgicalCase("C-01", temp.resolve("a.mp4")));
                s.cases().add(Samples.surgicalCase("C-02"));
                Tagging tagging = new Tagging(
                        TaggingStyle.START_AND_END,
                        List.of(new PhaseSpan("rhexis", MediaTime.ofSeconds(1), MediaTime.ofSeconds(2), null)),
                        List.of(new PointEvent("take_over", MediaTime.ofSeconds(1), null, "")));
                s.taggings().save("C-01", "A1", tagging);
                s.taggings().save("C-02", "A1", tagging);
            });
        }
        assertThat(engine.raw(temp, "delete from surgical_case where code = 'C-01'"))
                .isPositive();
        assertThat(engine.rawText(temp, "select count(*) from surgical_case")).isEqualTo("1");
        for (String table : List.of("tagging", "phase_span", "point_event")) {
            assertThat(engine.rawText(temp, "select count(*) from " + table))
                    .as(table)
                    .isEqualTo("1");
        }
        assertThat(engine.rawText(temp, "select count(*) from segment")).isEqualTo("0");
        assertThat(engine.rawText(temp, "select count(*) from case_descriptor")).isEqualTo("1");
    }

    private static List<Path> files(Workspace workspace, String code) {
        return workspace.read(
                s -> java.util.Objects.requireNonNull(s.cases().get(code).recording()).segments().stream()
                        .map(Segment::file)
                        .toList());
    }
}
