package org.sideport.media;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.CancellationException;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.TimeoutException;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReferenceArray;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Progress;

/** Indexes the files of a recording, as many at once as there are processors. */
final class SegmentIndexes {

    private static final long LOOK_EVERY_MS = 50;

    private SegmentIndexes() {}

    /**
     * @return in the order of the files
     * @throws MediaException for the first file, in order, that cannot be read
     * @throws CancellationException if the progress is cancelled; nothing runs on then
     */
    static List<FrameIndex> of(List<Path> files, @Nullable FrameIndexCache cache, Progress progress) {
        if (files.size() == 1) {
            return List.of(index(files.get(0), cache, progress));
        }
        int threads = Math.max(1, Math.min(files.size(), Runtime.getRuntime().availableProcessors()));
        ExecutorService workers = Executors.newFixedThreadPool(threads, SegmentIndexes::worker);
        AtomicBoolean stopped = new AtomicBoolean();
        AtomicReferenceArray<Double> done = new AtomicReferenceArray<>(files.size());
        List<Future<FrameIndex>> running = new ArrayList<>();
        for (int i = 0; i < files.size(); i++) {
            Path file = files.get(i);
            Progress part = partOf(done, i, stopped);
            running.add(workers.submit(() -> index(file, cache, part)));
        }
        workers.shutdown();
        try {
            List<FrameIndex> indexes = new ArrayList<>();
            for (Future<FrameIndex> one : running) {
                indexes.add(await(one, done, progress));
            }
            return indexes;
        } finally {
            stopped.set(true);
            awaitEnd(workers);
        }
    }

    static FrameIndex index(Path file, @Nullable FrameIndexCache cache, Progress progress) {
        return cache == null ? FrameIndexer.index(file, progress) : cache.index(file, progress);
    }

    private static Thread worker(Runnable work) {
        Thread thread = new Thread(work, "frame-index");
        thread.setDaemon(true);
        return thread;
    }

    private static Progress partOf(AtomicReferenceArray<Double> done, int place, AtomicBoolean stopped) {
        return new Progress() {
            @Override
            public void report(double fraction, String message) {
                done.set(place, fraction);
            }

            @Override
            public boolean isCancelled() {
                return stopped.get();
            }
        };
    }

    /** Waits on the caller's thread, which alone reports. */
    private static FrameIndex await(Future<FrameIndex> one, AtomicReferenceArray<Double> done, Progress progress) {
        while (true) {
            progress.check();
            progress.report(mean(done), "Reading frame times");
            try {
                return one.get(LOOK_EVERY_MS, TimeUnit.MILLISECONDS);
            } catch (TimeoutException e) {
                // not yet: look for a cancel and go on waiting
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
                CancellationException cancelled = new CancellationException("interrupted");
                cancelled.initCause(e);
                throw cancelled;
            } catch (ExecutionException e) {
                if (e.getCause() instanceof RuntimeException fault) {
                    throw fault;
                }
                throw new IllegalStateException(e.getCause());
            }
        }
    }

    private static double mean(AtomicReferenceArray<Double> done) {
        double sum = 0;
        for (int i = 0; i < done.length(); i++) {
            Double fraction = done.get(i);
            sum += fraction == null ? 0 : Math.max(0, fraction);
        }
        return sum / done.length();
    }

    /** Native memory of the workers is free once they have seen the stop. */
    private static void awaitEnd(ExecutorService workers) {
        boolean interrupted = false;
        while (true) {
            try {
                if (workers.awaitTermination(1, TimeUnit.SECONDS)) {
                    break;
                }
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }
}
