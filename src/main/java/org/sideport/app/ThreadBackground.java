package org.sideport.app;

import java.util.concurrent.CancellationException;
import java.util.concurrent.Executor;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicBoolean;
import java.util.concurrent.atomic.AtomicReference;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Progress;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/** A background of one named daemon thread. */
final class ThreadBackground implements Background, AutoCloseable {

    private static final Logger LOG = LoggerFactory.getLogger(ThreadBackground.class);

    private final ExecutorService thread;
    private final Executor screenThread;

    ThreadBackground(String name, Executor screenThread) {
        this.screenThread = screenThread;
        this.thread = Executors.newSingleThreadExecutor(work -> {
            Thread made = new Thread(work, name);
            made.setDaemon(true);
            return made;
        });
    }

    @Override
    public <T extends @Nullable Object> Job run(
            Work<T> work, Consumer<T> done, Consumer<Throwable> failed, ProgressListener progress) {
        Reporting reporting = new Reporting(progress);
        if (thread.isShutdown()) {
            return reporting;
        }
        thread.execute(() -> {
            try {
                reporting.check();
                T result = work.call(reporting);
                screenThread.execute(() -> done.accept(result));
            } catch (CancellationException cancelled) {
                screenThread.execute(() -> failed.accept(cancelled));
            } catch (Exception | LinkageError | OutOfMemoryError failure) {
                LOG.info("background work failed", failure);
                screenThread.execute(() -> failed.accept(failure));
            }
        });
        return reporting;
    }

    @Override
    public void close() {
        thread.shutdown();
        try {
            if (!thread.awaitTermination(5, TimeUnit.SECONDS)) {
                thread.shutdownNow();
            }
        } catch (InterruptedException interrupted) {
            Thread.currentThread().interrupt();
        }
    }

    /** Passes on the newest report only, and at most one at a time. */
    private final class Reporting implements Progress, Job {

        private record Report(double fraction, String message) {}

        private final ProgressListener listener;
        private final AtomicBoolean cancelled = new AtomicBoolean();
        private final AtomicReference<@Nullable Report> newest = new AtomicReference<>();

        Reporting(ProgressListener listener) {
            this.listener = listener;
        }

        @Override
        public void report(double fraction, String message) {
            if (newest.getAndSet(new Report(fraction, message)) == null) {
                screenThread.execute(() -> {
                    Report report = newest.getAndSet(null);
                    if (report != null) {
                        listener.progressed(report.fraction(), report.message());
                    }
                });
            }
        }

        @Override
        public boolean isCancelled() {
            return cancelled.get();
        }

        @Override
        public void cancel() {
            cancelled.set(true);
        }
    }
}
