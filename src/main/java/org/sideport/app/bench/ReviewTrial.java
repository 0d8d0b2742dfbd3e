package org.sideport.app.bench;

import java.lang.management.ManagementFactory;
import java.lang.management.MemoryUsage;
import java.nio.file.Path;
import java.time.Clock;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.locks.LockSupport;
import javafx.application.Platform;
import javafx.event.Event;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.sideport.app.AppContext;
import org.sideport.app.FxThread;
import org.sideport.app.frame.MainWindow;
import org.sideport.app.timeline.TimelineView;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.store.CommitWatch;
import org.sideport.store.Workspace;
import org.sideport.workflow.TagRecording;

/**
 * Reviews a recording in the real window, by keys: goes to a frame, presses a phase's key, and waits until the store has
 * committed the tag. Between the tags the picture and the timeline are moved.
 */
public final class ReviewTrial {

    private static final long LONGEST_S = 120;
    private static final long STEP_US = 400_000;
    private static final String ANNOTATOR = "B1";

    private final FxThread screen = new FxThread();
    private final Workspace workspace;
    private @Nullable AppContext context;
    private @Nullable Stage stage;

    /**
     * @param keyMs from each key to the commit of its tag, milliseconds
     * @param heapMb of Java's heap in use after a collection, at the end of the reviewing, megabytes of 2^20 bytes; the
     *     pictures are not in it, they lie in the libraries' memory
     * @param heapMostMb the most that was in use at any of the tags, what is not collected yet included
     */
    public record Result(List<Double> keyMs, double heapMb, double heapMostMb) {

        public Result {
            keyMs = keyMs.stream().sorted().toList();
        }

        public double keyMedianMs() {
            return (keyMs.get((keyMs.size() - 1) / 2) + keyMs.get(keyMs.size() / 2)) / 2;
        }
    }

    private ReviewTrial(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * Starts the screen's thread, measures and ends it: once in the life of a program.
     *
     * @param folder a workspace; it is opened and closed here
     * @param code a case in it with a recording that can be read
     * @param tags how many are set, each {@value #STEP_US} microseconds after the one before
     */
    public static Result run(Path folder, String code, int tags) throws Exception {
        ReviewTrial trial = new ReviewTrial(Workspace.open(folder));
        Platform.startup(() -> {});
        try {
            try (CommitWatch commits = new CommitWatch(trial.workspace)) {
                return trial.review(code, tags, commits);
            }
        } finally {
            trial.end();
        }
    }

    private Result review(String code, int tags, CommitWatch commits) throws Exception {
        AppContext context = onScreen(this::open);
        onScreen(() -> {
            context.current().open(code);
            press(KeyCode.DIGIT2, true);
            return true;
        });
        until(() -> context.desk().shownProperty().get() != null);
        var opened = context.current().opened();
        if (opened == null) {
            throw new IllegalStateException(code + " is not open");
        }
        Procedure procedure = opened.procedure();
        var terms = procedure.terms().stream()
                .filter(term -> !term.phase().idle() && !term.key().isEmpty())
                .toList();
        List<Double> times = new ArrayList<>();
        double most = 0;
        for (int i = 0; i < tags; i++) {
            MediaTime at = MediaTime.ofMicros((i + 1) * STEP_US);
            Procedure.Term term = terms.get(i % terms.size());
            onScreen(() -> {
                context.desk().seek(at);
                return true;
            });
            until(() -> context.desk().timeProperty().get().equals(at));
            long before = commits.version();
            CompletableFuture<Long> pressed = new CompletableFuture<>();
            screen.execute(() -> {
                pressed.complete(System.nanoTime());
                press(KeyCode.getKeyCode(term.key().toUpperCase(Locale.ROOT)), false);
            });
            times.add((untilStored(commits, before, code, i + 1) - pressed.get(LONGEST_S, TimeUnit.SECONDS)) / 1e6);
            most = Math.max(most, usedMb());
            moveTimeline(i);
        }
        System.gc();
        return new Result(times, usedMb(), Math.max(most, usedMb()));
    }

    /** When the commit was there that the tag came with; the store is looked at to be sure. */
    private long untilStored(CommitWatch commits, long before, String code, int wanted) {
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(LONGEST_S);
        long seen = before;
        while (System.nanoTime() < end) {
            long now = commits.version();
            long at = System.nanoTime();
            if (now != seen) {
                seen = now;
                int stored = new TagRecording(workspace)
                        .open(code, ANNOTATOR)
                        .tagging()
                        .spans()
                        .size();
                if (stored >= wanted) {
                    return at;
                }
            }
            LockSupport.parkNanos(100_000);
        }
        throw new IllegalStateException("the tag of a key press is not in the store");
    }

    private static double usedMb() {
        MemoryUsage heap = ManagementFactory.getMemoryMXBean().getHeapMemoryUsage();
        return heap.getUsed() / (1024.0 * 1024.0);
    }

    private AppContext open() {
        Stage shown = new Stage();
        AppContext made = new AppContext(workspace, Clock.system(ZoneId.systemDefault()));
        stage = shown;
        context = made;
        // before the screens are made, which read it then
        made.settings().put("annotator", ANNOTATOR);
        MainWindow window = new MainWindow(made, shown);
        window.show();
        made.findPlayer();
        return made;
    }

    private void moveTimeline(int i) throws Exception {
        onScreen(() -> {
            if (stage != null && stage.getScene().lookup("#timeline-lane") instanceof TimelineView lane) {
                lane.zoom(i % 2 == 0 ? 1.6 : 1 / 1.6);
                lane.pan(i % 2 == 0 ? 60 : -60);
            }
            return true;
        });
    }

    private void press(KeyCode code, boolean alt) {
        if (stage != null) {
            var scene = stage.getScene();
            var focus = scene.getFocusOwner() == null ? scene.getRoot() : scene.getFocusOwner();
            String text = code.getChar().toLowerCase(Locale.ROOT);
            Event.fireEvent(focus, new KeyEvent(KeyEvent.KEY_PRESSED, text, text, code, false, false, alt, false));
        }
    }

    private <T> T onScreen(Callable<T> work) throws Exception {
        CompletableFuture<T> done = new CompletableFuture<>();
        screen.execute(() -> {
            try {
                done.complete(work.call());
            } catch (Exception | LinkageError failure) {
                done.completeExceptionally(failure);
            }
        });
        return done.get(LONGEST_S, TimeUnit.SECONDS);
    }

    private void until(Callable<Boolean> condition) throws Exception {
        long end = System.nanoTime() + TimeUnit.SECONDS.toNanos(LONGEST_S);
        while (!onScreen(condition)) {
            if (System.nanoTime() > end) {
                throw new IllegalStateException("the recording was not shown in " + LONGEST_S + " s");
            }
            LockSupport.parkNanos(5_000_000);
        }
    }

    private void end() throws Exception {
        onScreen(() -> {
            if (stage != null) {
                stage.close();
            }
            if (context != null) {
                context.close();
            } else {
                workspace.close();
            }
            return true;
        });
        Platform.exit();
    }
}
