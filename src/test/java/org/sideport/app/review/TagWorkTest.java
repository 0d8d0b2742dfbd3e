package org.sideport.app.review;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import java.util.Objects;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Notices;
import org.sideport.app.RunNow;
import org.sideport.app.Texts;
import org.sideport.app.settings.Language;
import org.sideport.model.MediaTime;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.store.TestPostgres;
import org.sideport.store.Workspace;
import org.sideport.workflow.ComputeTimings;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.TagSession;

/** Tagging on the screen while a real database goes away and comes back. */
class TagWorkTest {

    @TempDir
    Path temp;

    private TagWork.Outcome latest;
    private TagSession session;

    @Test
    @Timeout(240)
    void tagsSetWhileTheDatabaseIsAwayShowAtOnceAreSaidToBeKeptAndAreSavedLater() {
        TestPostgres server = TestPostgres.begin();
        Workspace workspace = Workspace.create(temp, server.newDatabase(), TestPostgres.KEEPER);
        try {
            workspace.change(s ->
                    s.cases().add(new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
            Notices notices = new Notices(new Texts(Language.of("en")));
            TagWork work = new TagWork(
                    new ComputeTimings(workspace), new RunNow(), notices, () -> false, outcome -> latest = outcome);
            work.open(() -> new TagRecording(workspace).open("C-1", "A1"), () -> true, opened -> session = opened);
            work.edit(tags -> tags.startPhase("incision", MediaTime.ofSeconds(1), null));
            assertThat(latest.tagging().spans()).hasSize(1);
            assertThat(latest.timing()).isNotNull();
            assertThat(notices.all()).isEmpty();

            server.kill();
            work.edit(tags -> tags.startPhase("rhexis", MediaTime.ofSeconds(9), null));
            // the tag is on the screen; its times need what only the database knows
            assertThat(latest.tagging().spans()).hasSize(2);
            assertThat(latest.timing()).isNull();
            assertThat(latest.canUndo()).isTrue();
            assertThat(Objects.requireNonNull(notices.currentProperty().get()).what())
                    .contains("kept on this computer");
            work.edit(TagSession::undo);
            assertThat(latest.tagging().spans()).hasSize(1);
            assertThat(latest.canRedo()).isTrue();
            work.edit(TagSession::redo);
            assertThat(latest.tagging().spans()).hasSize(2);
            assertThat(session.isKept()).isTrue();

            server.start();
            work.edit(tags -> tags.startPhase("hydrodissection", MediaTime.ofSeconds(20), null));
            assertThat(latest.tagging().spans()).hasSize(3);
            assertThat(latest.timing()).isNotNull();
            assertThat(session.isKept()).isFalse();
            assertThat(notices.all()).isEmpty();
            assertThat(workspace.<Tagging>read(
                            s -> s.taggings().find("C-1", "A1").orElseThrow()))
                    .isEqualTo(latest.tagging());
        } finally {
            workspace.close();
            server.kill();
        }
    }
}
