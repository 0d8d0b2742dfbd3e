package org.sideport.app.bench;

import atlantafx.base.theme.PrimerDark;
import com.sun.management.OperatingSystemMXBean;
import com.sun.management.ThreadMXBean;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.concurrent.CompletableFuture;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutionException;
import javafx.application.Application;
import javafx.application.Platform;
import javafx.scene.Scene;
import javafx.scene.SnapshotParameters;
import javafx.scene.image.WritableImage;
import javafx.scene.layout.StackPane;
import org.sideport.app.FxThread;
import org.sideport.app.Texts;
import org.sideport.app.timeline.TimelineView;

/**
 * How long a crowded timeline takes to be drawn anew: pans and zooms in turn, each until its pixels are there. That is the
 * drawing of the canvas, its rasterising and one copy of all pixels out of the scene, so rather more than a pulse does.
 */
public final class TimelineBench {

    private static final int WIDTH = 1920;
    private static final int HEIGHT = 320;
    private static final int WARM_UPS = 300;

    private TimelineBench() {}

    /**
     * @param redrawMs median of a redraw until its pixels are there, milliseconds
     * @param redrawMsP95 95th percentile of the same
     * @param cpuMs mean time that the whole program computes for a redraw, all threads together, milliseconds: the figure
     *     to go by while other programs keep the machine busy
     * @param allocatedBytes median of what the screen's thread allocates for a redraw
     * @param allocatedBytesMost most of the same
     */
    public record Result(
            int spans,
            int points,
            int curves,
            int redraws,
            double redrawMs,
            double redrawMsP95,
            double cpuMs,
            long allocatedBytes,
            long allocatedBytesMost) {}

    /**
     * Starts the toolkit where it does not run yet; needs a screen, a virtual one will do.
     *
     * @param redraws how many are measured
     */
    public static Result measure(int redraws) throws InterruptedException {
        CountDownLatch started = new CountDownLatch(1);
        try {
            Platform.startup(started::countDown);
        } catch (IllegalStateException running) {
            started.countDown();
        }
        started.await();
        CompletableFuture<Result> result = new CompletableFuture<>();
        new FxThread().execute(() -> {
            try {
                result.complete(onScreenThread(redraws));
            } catch (RuntimeException | LinkageError failure) {
                result.completeExceptionally(failure);
            }
        });
        try {
            return result.get();
        } catch (ExecutionException failure) {
            throw new IllegalStateException("the timeline could not be measured", failure.getCause());
        }
    }

    private static Result onScreenThread(int redraws) {
        String before = Application.getUserAgentStylesheet();
        Application.setUserAgentStylesheet(new PrimerDark().getUserAgentStylesheet());
        try {
            TimelineView view = new TimelineView(new Texts());
            StackPane root = new StackPane(view);
            new Scene(root, WIDTH, HEIGHT);
            view.modelProperty().set(CrowdedTimeline.model(5_000, 2_000, 4));
            view.framesProperty().set(CrowdedTimeline.frames());
            root.applyCss();
            root.resize(WIDTH, HEIGHT);
            root.layout();
            WritableImage image = new WritableImage(WIDTH, HEIGHT);
            SnapshotParameters parameters = new SnapshotParameters();
            for (int i = 0; i < WARM_UPS; i++) {
                change(view, i);
                root.snapshot(parameters, image);
            }
            double[] times = new double[redraws];
            long[] bytes = new long[redraws];
            long cpu = cpuNanos();
            for (int i = 0; i < redraws; i++) {
                long allocated = allocated();
                long start = System.nanoTime();
                change(view, i);
                root.snapshot(parameters, image);
                times[i] = (System.nanoTime() - start) / 1e6;
                bytes[i] = allocated() - allocated;
            }
            double cpuMs = (cpuNanos() - cpu) / 1e6 / redraws;
            Arrays.sort(times);
            Arrays.sort(bytes);
            return new Result(
                    5_000,
                    2_000,
                    4,
                    redraws,
                    times[redraws / 2],
                    times[Math.min(redraws - 1, redraws * 95 / 100)],
                    cpuMs,
                    bytes[redraws / 2],
                    bytes[redraws - 1]);
        } finally {
            Application.setUserAgentStylesheet(before);
        }
    }

    /** The whole, then closer and closer in seventeen steps (44-fold in the end) with a pan after each, and again. */
    private static void change(TimelineView view, int i) {
        int step = i % 34;
        if (step == 0) {
            view.showWhole();
            view.pan(1);
            view.zoom(1.0001);
        } else if (step % 2 == 1) {
            view.zoom(1.25);
        } else {
            view.pan(40);
        }
    }

    private static long cpuNanos() {
        return ManagementFactory.getOperatingSystemMXBean() instanceof OperatingSystemMXBean system
                ? system.getProcessCpuTime()
                : 0;
    }

    private static long allocated() {
        return ManagementFactory.getThreadMXBean() instanceof ThreadMXBean threads
                ? threads.getThreadAllocatedBytes(Thread.currentThread().getId())
                : 0;
    }
}
