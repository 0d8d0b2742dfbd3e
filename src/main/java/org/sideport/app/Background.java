package org.sideport.app;

import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Progress;

/**
 * Where work goes that must not hold up the screen. Pieces of work given to one background run one after the other;
 * results come back on the screen's thread. View models know only this, so that tests can run everything at once.
 */
public interface Background {

    /** A piece of work. It gets everything it needs when made, and touches no property. */
    @FunctionalInterface
    interface Work<T extends @Nullable Object> {
        T call(Progress progress) throws Exception;
    }

    /** Work under way. */
    interface Job {
        /** Asks the work to stop. Its failure, a {@code CancellationException}, is reported as any other. */
        void cancel();
    }

    /** Hears how far the work is, on the screen's thread. */
    @FunctionalInterface
    interface ProgressListener {
        /** @param fraction 0 to 1, or negative where it is unknown */
        void progressed(double fraction, String message);
    }

    /** Runs {@code work}, then exactly one of {@code done} and {@code failed}. */
    <T extends @Nullable Object> Job run(
            Work<T> work, Consumer<T> done, Consumer<Throwable> failed, ProgressListener progress);

    default <T extends @Nullable Object> Job run(Work<T> work, Consumer<T> done, Consumer<Throwable> failed) {
        return run(work, done, failed, (fraction, message) -> {});
    }

    /**
     * The same background, which lists what is run in it among the jobs under way.
     *
     * @param nameKey key of the text that says what the job is
     */
    default Background named(String nameKey) {
        return this;
    }
}
