package org.sideport.workflow.handout;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.concurrent.CancellationException;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.model.Role;
import org.sideport.report.Cautions;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.handout.WriteFeedback.Wanted;

/** Who gets which feedback, and what is on the disk then. */
class WriteFeedbackTest {

    private static final String CODE = "C-01";

    @TempDir
    Path dir;

    private Workspace workspace;

    @BeforeEach
    void aMarkedCase() {
        workspace = FreshWorkspace.in(dir.resolve("w"));
        new ImportRecording(workspace)
                .addCase(new NewCase(CODE, "T04", LocalDate.of(2026, 3, 4), "phaco", Map.of()), null);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void sign(String who, boolean self, String text) {
        MarkCase marks = new MarkCase(workspace);
        marks.rate(CODE, HandoutCase.rating(who, self, text));
        marks.sign(CODE, HandoutCase.RUBRIC.id(), who, self);
    }

    private WriteFeedback as(String code, Role role) {
        return new WriteFeedback(workspace.as(new Caller.Person(code, Set.of(role))));
    }

    private Path page() {
        return dir.resolve("page.html");
    }

    private static Wanted marksOnly() {
        return new Wanted(CODE, "en", false, false, List.of());
    }

    @Test
    void aTraineeMarksOneselfBeforeTheFeedback() throws IOException {
        sign("A1", false, "well held");
        assertThatThrownBy(() -> as("T04", Role.TRAINEE).write(marksOnly(), page(), Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("have not marked case C-01 yourself yet");
        assertThat(page()).doesNotExist();

        assertThat(new WriteFeedback(workspace)
                        .write(marksOnly(), page(), Progress.NONE)
                        .warnings())
                .as("whoever else makes it is told")
                .anyMatch(w -> w.contains("has not marked this case yet"));
        Files.delete(page());

        sign("T04", true, "my own view");
        as("T04", Role.TRAINEE).write(marksOnly(), page(), Progress.NONE);
        assertThat(page()).content().contains("well held", "my own view");
    }

    @Test
    void draftsAndMarksOfOthersTraineesStayOut() {
        sign("T04", true, "my own view");
        new MarkCase(workspace).rate(CODE, HandoutCase.rating("A2", false, "only a draft"));
        assertThatThrownBy(() -> new WriteFeedback(workspace).write(marksOnly(), page(), Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no signed marks");
        sign("A1", false, "well held");
        new WriteFeedback(workspace).write(marksOnly(), page(), Progress.NONE);
        assertThat(page()).content().contains("well held").doesNotContain("only a draft");
        assertThatThrownBy(() -> as("T05", Role.TRAINEE).write(marksOnly(), page(), Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("may not");
    }

    @Test
    void theFiguresAreThoseOfTheScore() {
        sign("A1", false, "well held");
        new WriteFeedback(workspace).write(marksOnly(), page(), Progress.NONE);
        Score score = Scorer.score(HandoutCase.RUBRIC, HandoutCase.rating("A1", false, "well held"));
        String digest = workspace.read(stores -> stores.seals()
                .find(stores.ratings().ofCase(CODE).get(0).id())
                .orElseThrow()
                .digest());
        assertThat(page())
                .content()
                .contains(
                        Math.round(100 * score.share()) + "\u00a0%",
                        score.marked() + " of " + score.items() + " items marked",
                        digest);
    }

    @Test
    void bothLanguagesHaveTheSameWordsAndTheCautionsOfEveryReport() throws IOException {
        Properties english = words("words.properties");
        Properties german = words("words_de.properties");
        assertThat(german.keySet()).isEqualTo(english.keySet());
        for (int i = 0; i < Cautions.LINES.size(); i++) {
            assertThat(english.getProperty("caution." + (i + 1))).isEqualTo(Cautions.LINES.get(i));
        }
        assertThat(english.getProperty("caution.short")).isEqualTo(Cautions.SHORT);
        sign("A1", false, "well held");
        new WriteFeedback(workspace).write(new Wanted(CODE, "de", false, false, List.of()), page(), Progress.NONE);
        assertThat(page()).content().contains("lang=\"de\"", "Mit Bedacht lesen", "beurteilt von A1");
        assertThatThrownBy(() -> new WriteFeedback(workspace)
                        .write(new Wanted(CODE, "fr", false, false, List.of()), page(), Progress.NONE))
                .isInstanceOf(InputException.class);
    }

    private static Properties words(String name) throws IOException {
        Properties words = new Properties();
        try (var in = org.sideport.report.page.PageWords.class.getResourceAsStream(name)) {
            words.load(new java.io.InputStreamReader(in, java.nio.charset.StandardCharsets.UTF_8));
        }
        return words;
    }

    @Test
    void aFolderOfOthersIsNotTouchedAndNothingIsLeftAfterCancelling() throws IOException {
        sign("A1", false, "well held");
        Path others = Files.createDirectory(dir.resolve("page-media"));
        Files.writeString(others.resolve("letter.txt"), "mine");
        assertThatThrownBy(() -> new WriteFeedback(workspace).write(marksOnly(), page(), Progress.NONE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("something else lies");
        assertThat(others.resolve("letter.txt")).hasContent("mine");
        Files.delete(others.resolve("letter.txt"));
        Files.delete(others);
        Progress cancelled = new Progress() {
            @Override
            public void report(double share, String what) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        assertThatThrownBy(() -> new WriteFeedback(workspace).write(marksOnly(), page(), cancelled))
                .isInstanceOf(CancellationException.class);
        try (var left = Files.list(dir)) {
            assertThat(left).containsExactly(dir.resolve("w"));
        }
    }
}
