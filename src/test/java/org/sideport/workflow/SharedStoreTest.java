package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.concurrent.atomic.AtomicBoolean;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.store.ConflictException;
import org.sideport.store.DatabaseAwayException;
import org.sideport.store.StoredRating;
import org.sideport.store.TestEngine;
import org.sideport.store.TestPostgres;
import org.sideport.store.Workspace;

/** Two windows at once, and a database that goes away: nothing is lost without a word. */
class SharedStoreTest {

    @TempDir
    Path temp;

    private static Rubric rubric(Workspace workspace) {
        return new Vocabularies(workspace).rubric("phaco-competency").rubric();
    }

    private static void addCase(Workspace workspace) {
        workspace.change(
                s -> s.cases().add(new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
    }

    private static MarkSession mark(Workspace workspace) {
        return new MarkCase(workspace).open("C-1", "A1", false, rubric(workspace));
    }

    private static TagSession tag(Workspace workspace) {
        return new TagRecording(workspace).open("C-1", "A1");
    }

    private static List<ItemScore> storedScores(Workspace workspace) {
        List<StoredRating> all = workspace.read(s -> s.ratings().ofCase("C-1"));
        assertThat(all).hasSize(1);
        return all.get(0).rating().scores();
    }

    @ParameterizedTest
    @EnumSource(TestEngine.class)
    void theSecondOfTwoWindowsIsToldAndOverwritesNothing(TestEngine engine) {
        try (Workspace workspace = engine.create(temp)) {
            addCase(workspace);
            List<Rubric.Item> items = rubric(workspace).items();
            String item = items.get(0).id();
            int points = rubric(workspace).pointsOf(items.get(0)).get(0);
            mark(workspace).mark(item, points);
            MarkSession first = mark(workspace);
            MarkSession second = mark(workspace);
            first.overallComment("of the first window");
            assertThatThrownBy(() -> second.overallComment("of the second window"))
                    .isInstanceOf(ConflictException.class)
                    .hasMessageContaining("changed in another window meanwhile")
                    .hasMessageContaining("open the rating again");
            assertThatThrownBy(second::sign).isInstanceOf(ConflictException.class);
            assertThat(workspace
                            .<Rating>read(s -> s.ratings().ofCase("C-1").get(0).rating())
                            .comment())
                    .isEqualTo("of the first window");
            MarkSession again = mark(workspace);
            assertThat(again.rating().comment()).isEqualTo("of the first window");
            again.overallComment("both");

            TagSession one = new TagRecording(workspace).open("C-1", "A1");
            TagSession other = new TagRecording(workspace).open("C-1", "A1");
            one.startPhase("incision", MediaTime.ofSeconds(1), null);
            assertThatThrownBy(() -> other.startPhase("rhexis", MediaTime.ofSeconds(5), null))
                    .isInstanceOf(ConflictException.class)
                    .hasMessageContaining("tags of C-1 by A1 were changed in another window");
            one.undo();
            one.redo();
            assertThat(new TagRecording(workspace).open("C-1", "A1").tagging()).isEqualTo(one.tagging());
        }
    }

    @Test
    @Timeout(240)
    void marksAndTagsMadeWhileTheDatabaseIsAwayAreKeptAndSavedWhenItIsBack() throws Exception {
        TestPostgres server = TestPostgres.begin();
        Workspace workspace = Workspace.create(temp, server.newDatabase(), TestPostgres.KEEPER);
        try {
            addCase(workspace);
            List<Rubric.Item> items = rubric(workspace).items();
            Rubric rubric = rubric(workspace);
            MarkSession session = mark(workspace);
            session.mark(items.get(0).id(), rubric.pointsOf(items.get(0)).get(0));

            TagSession tags = tag(workspace);
            tags.startPhase("incision", MediaTime.ofSeconds(1), null);

            // it dies while marks and tags are being saved one after the other
            AtomicBoolean ended = new AtomicBoolean();
            Thread marking = new Thread(() -> {
                int stroke = 0;
                while (!ended.get()) {
                    try {
                        session.overallComment("stroke " + stroke++);
                    } catch (DatabaseAwayException away) {
                        return;
                    }
                }
            });
            Thread tagging = new Thread(() -> {
                long second = 2;
                while (!ended.get()) {
                    try {
                        tags.startPhase(second % 2 == 0 ? "rhexis" : "incision", MediaTime.ofSeconds(second++), null);
                    } catch (DatabaseAwayException away) {
                        return;
                    }
                }
            });
            marking.start();
            tagging.start();
            Thread.sleep(500);
            server.kill();
            marking.join(60_000);
            tagging.join(60_000);
            ended.set(true);
            assertThat(session.isKept()).isTrue();
            assertThat(tags.isKept()).isTrue();
            int spans = tags.tagging().spans().size();
            assertThat(spans).isGreaterThan(1);

            assertThatThrownBy(() -> session.mark(
                            items.get(1).id(), rubric.pointsOf(items.get(1)).get(0)))
                    .isInstanceOf(DatabaseAwayException.class)
                    .hasMessageContaining("kept on this computer");
            MediaTime later = MediaTime.ofSeconds(100_000);
            assertThatThrownBy(() -> tags.startPhase("incision", later, null))
                    .isInstanceOf(DatabaseAwayException.class)
                    .hasMessageContaining("kept on this computer");
            // undoing works meanwhile, and is kept too
            assertThatThrownBy(tags::undo).isInstanceOf(DatabaseAwayException.class);
            assertThat(tags.tagging().spans()).hasSize(spans);
            assertThatThrownBy(tags::redo).isInstanceOf(DatabaseAwayException.class);
            assertThat(tags.tagging().spans()).hasSize(spans + 1);
            assertThat(files()).hasSize(2);
            server.start();
            // by itself, within some seconds
            for (int i = 0; i < 120 && (session.isKept() || tags.isKept()); i++) {
                Thread.sleep(500);
            }
            assertThat(session.isKept()).isFalse();
            assertThat(tags.isKept()).isFalse();
            assertThat(files()).isEmpty();
            assertThat(workspace.<Tagging>read(
                            s -> s.taggings().find("C-1", "A1").orElseThrow()))
                    .isEqualTo(tags.tagging());
            assertThat(storedScores(workspace))
                    .isEqualTo(session.rating().scores())
                    .hasSize(2);
            assertThat(workspace.<Rating>read(
                            s -> s.ratings().ofCase("C-1").get(0).rating()))
                    .isEqualTo(session.rating());
        } finally {
            workspace.close();
            server.kill();
        }
    }

    @Test
    @Timeout(240)
    void whatAProgramKeptThatEndedIsTakenUpWhenItIsOpenedAgain() throws Exception {
        TestPostgres server = TestPostgres.begin();
        String url = server.newDatabase();
        try {
            try (Workspace workspace = Workspace.create(temp.resolve("a"), url, TestPostgres.KEEPER)) {
                addCase(workspace);
                MarkSession session = mark(workspace);
                TagSession tags = tag(workspace);
                server.kill();
                // nothing is stored yet: the very first mark and tag are kept
                assertThatThrownBy(() -> session.overallComment("first words"))
                        .isInstanceOf(DatabaseAwayException.class);
                assertThatThrownBy(() -> tags.startPhase("incision", MediaTime.ofSeconds(1), null))
                        .isInstanceOf(DatabaseAwayException.class);
            }
            server.start();
            try (Workspace workspace = Workspace.open(temp.resolve("a"), TestPostgres.KEEPER)) {
                assertThat(mark(workspace).rating().comment()).isEqualTo("first words");
                assertThat(workspace
                                .<Rating>read(
                                        s -> s.ratings().ofCase("C-1").get(0).rating())
                                .comment())
                        .isEqualTo("first words");

                assertThat(tag(workspace).tagging().spans()).hasSize(1);
                assertThat(workspace
                                .<Tagging>read(
                                        s -> s.taggings().find("C-1", "A1").orElseThrow())
                                .spans())
                        .hasSize(1);

                // kept again, and meanwhile somebody marks at another computer: both are there, and it is said
                MarkSession session = mark(workspace);
                TagSession tags = tag(workspace);
                server.kill();
                assertThatThrownBy(() -> session.overallComment("kept here")).isInstanceOf(DatabaseAwayException.class);
                assertThatThrownBy(() -> tags.startPhase("rhexis", MediaTime.ofSeconds(9), null))
                        .isInstanceOf(DatabaseAwayException.class);
                workspace.close();
                server.start();
            }
            try (Workspace elsewhere = Workspace.create(temp.resolve("b"), url, TestPostgres.KEEPER)) {
                mark(elsewhere).overallComment("from elsewhere");
                tag(elsewhere).startPhase("hydrodissection", MediaTime.ofSeconds(30), null);
            }
            try (Workspace workspace = Workspace.open(temp.resolve("a"), TestPostgres.KEEPER)) {
                assertThatThrownBy(() -> mark(workspace))
                        .isInstanceOf(InputException.class)
                        .hasMessageContaining("changed in another window meanwhile")
                        .hasMessageContaining("your marks from while the database was away are in a file")
                        .hasMessageContaining(".conflict");
                assertThat(mark(workspace).rating().comment()).isEqualTo("from elsewhere");
                assertThatThrownBy(() -> tag(workspace))
                        .isInstanceOf(InputException.class)
                        .hasMessageContaining("changed in another window meanwhile")
                        .hasMessageContaining("your tags from while the database was away are in a file")
                        .hasMessageContaining(".conflict");
                assertThat(tag(workspace).tagging().spans())
                        .extracting(PhaseSpan::phase)
                        .containsExactly("incision", "hydrodissection");
                StringBuilder kept = new StringBuilder();
                for (String file : filesIn("a/pending")) {
                    kept.append(Files.readString(temp.resolve("a/pending").resolve(file)));
                }
                assertThat(kept).contains("kept here").contains("rhexis");
            }
        } finally {
            server.kill();
        }
    }

    private List<String> files() throws IOException {
        return filesIn("pending");
    }

    private List<String> filesIn(String folder) throws IOException {
        try (var all = Files.list(temp.resolve(folder))) {
            return all.map(file -> file.getFileName().toString()).toList();
        }
    }
}
