package org.sideport.app;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.Map;
import org.sideport.app.marking.MarkingViewModel;
import org.sideport.app.picture.FrameSource;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.review.CutsViewModel;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.model.Tagging;
import org.sideport.player.DemoRecordings;
import org.sideport.player.FakeVideoPlayer;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.AmendMark;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.ComputeTimings;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.OpenRecording;
import org.sideport.workflow.RecordingCuts;
import org.sideport.workflow.TagRecording;
import org.sideport.workflow.Vocabularies;

/**
 * Everything but the window: a real store with one case, real frames, a player with a settable clock, and a background
 * that does everything at once.
 */
public final class Bench implements AutoCloseable {

    public final Workspace workspace;
    public final Texts texts = new Texts();
    public final Notices notices = new Notices(texts);
    public final Settings settings;
    public final RunNow work = new RunNow();
    public final FakeVideoPlayer player = new FakeVideoPlayer();
    public final PictureDesk desk = new PictureDesk(player, FrameSource::of, work, notices);
    public final CurrentCase current;

    public Bench(Path folder) {
        workspace = FreshWorkspace.in(folder);
        settings = new Settings(folder.resolve("window.properties"));
        current = new CurrentCase(
                new CaseList(workspace),
                new Vocabularies(workspace),
                new OpenRecording(workspace),
                work,
                desk,
                notices);
    }

    /** Adds a case of trainee T02, with the files as its recording unless there are none. */
    public static void addCase(Workspace workspace, String code, String... files) {
        ImportRecording importer = new ImportRecording(workspace);
        importer.addCase(
                new NewCase(code, "T02", LocalDate.of(2026, 3, 4), "phaco", Map.of("eye", "left")),
                files.length == 0 ? null : DemoRecordings.preview(files));
    }

    public ReviewViewModel review() {
        return new ReviewViewModel(
                current,
                desk,
                new TagRecording(workspace),
                new ComputeTimings(workspace),
                work,
                notices,
                texts,
                settings);
    }

    public CutsViewModel cuts(ReviewViewModel review) {
        return new CutsViewModel(review, desk, new RecordingCuts(workspace), work, work, notices, texts);
    }

    public MarkingViewModel marking() {
        return new MarkingViewModel(
                current,
                desk,
                new MarkCase(workspace),
                new AmendMark(workspace),
                new Vocabularies(workspace),
                new TagRecording(workspace),
                work,
                notices,
                texts,
                settings);
    }

    /** What the store holds, read anew. */
    public Tagging stored(String code, String annotator) {
        return new TagRecording(workspace).open(code, annotator).tagging();
    }

    public String notice() {
        Notice notice = notices.currentProperty().get();
        return notice == null ? "" : notice.what();
    }

    @Override
    public void close() {
        desk.close();
        settings.close();
        workspace.close();
    }
}
