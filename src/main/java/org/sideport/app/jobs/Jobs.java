package org.sideport.app.jobs;

import java.util.concurrent.CancellationException;
import java.util.function.Consumer;
import javafx.beans.property.ReadOnlyIntegerProperty;
import javafx.beans.property.ReadOnlyIntegerWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Texts;

/**
 * The background jobs that take long enough to be worth a line: those under way, and those that ended until somebody
 * takes them off. A job that is over at once is never listed, unless it failed. Screen's thread only.
 */
public final class Jobs {

    /** Jobs that are over sooner are not listed, seconds. */
    private static final double WORTH_A_LINE = 1.0;

    /** How many that ended are kept. */
    private static final int KEPT = 50;

    private final Texts texts;
    private final java.util.function.LongSupplier nanos;
    private final ObservableList<ListedJob> all = FXCollections.observableArrayList();
    private final ReadOnlyIntegerWrapper running = new ReadOnlyIntegerWrapper(0);
    private final ReadOnlyIntegerWrapper failed = new ReadOnlyIntegerWrapper(0);

    /** @param nanos a clock such as {@link System#nanoTime} */
    public Jobs(Texts texts, java.util.function.LongSupplier nanos) {
        this.texts = texts;
        this.nanos = nanos;
    }

    /** Newest first. */
    public ObservableList<ListedJob> all() {
        return all;
    }

    public ReadOnlyIntegerProperty runningProperty() {
        return running.getReadOnlyProperty();
    }

    /** How many that failed are still listed. */
    public ReadOnlyIntegerProperty failedProperty() {
        return failed.getReadOnlyProperty();
    }

    /** Takes off a job that ended. */
    public void dismiss(ListedJob job) {
        if (!job.isRunning()) {
            all.remove(job);
            count();
        }
    }

    /** Takes off all that ended. */
    public void dismissEnded() {
        all.removeIf(job -> !job.isRunning());
        count();
    }

    /** A background that lists all that is run in it under the name of a text's key. */
    public Background listing(Background background, String nameKey) {
        return new Listing(background, texts.get(nameKey));
    }

    /**
     * A background that lists nothing by itself, but what is {@linkplain Background#named named} in it.
     */
    public Background naming(Background background) {
        return new Naming(background);
    }

    private void count() {
        running.set((int) all.stream().filter(ListedJob::isRunning).count());
        failed.set((int) all.stream()
                .filter(job -> job.stateProperty().get() == ListedJob.State.FAILED)
                .count());
    }

    private void end(ListedJob job, long startedAt, @Nullable Throwable failure) {
        if (failure instanceof CancellationException) {
            job.ended(ListedJob.State.STOPPED, "", null);
        } else if (failure != null) {
            Notice notice = Notice.of(failure, texts);
            job.ended(ListedJob.State.FAILED, notice == null ? "" : notice.text(), failure);
        } else {
            // one line says it for all of a kind that went well, such as the pictures of many cases
            all.removeIf(
                    old -> old.name().equals(job.name()) && old.stateProperty().get() == ListedJob.State.DONE);
            job.ended(ListedJob.State.DONE, "", null);
        }
        boolean brief = (nanos.getAsLong() - startedAt) / 1e9 < WORTH_A_LINE;
        if (brief && job.stateProperty().get() != ListedJob.State.FAILED) {
            all.remove(job);
        }
        long ended = all.stream().filter(one -> !one.isRunning()).count();
        for (int i = all.size() - 1; i >= 0 && ended > KEPT; i--) {
            if (!all.get(i).isRunning()) {
                all.remove(i);
                ended--;
            }
        }
        count();
    }

    private final class Naming implements Background {

        private final Background background;

        Naming(Background background) {
            this.background = background;
        }

        @Override
        public Background named(String nameKey) {
            return listing(background, nameKey);
        }

        @Override
        public <T extends @Nullable Object> Job run(
                Work<T> work, Consumer<T> done, Consumer<Throwable> failure, ProgressListener progress) {
            return background.run(work, done, failure, progress);
        }
    }

    private final class Listing implements Background {

        private final Background background;
        private final String name;

        Listing(Background background, String name) {
            this.background = background;
            this.name = name;
        }

        @Override
        public Background named(String nameKey) {
            return listing(background, nameKey);
        }

        @Override
        public <T extends @Nullable Object> Job run(
                Work<T> work, Consumer<T> done, Consumer<Throwable> failure, ProgressListener progress) {
            ListedJob line = new ListedJob(name);
            long startedAt = nanos.getAsLong();
            all.add(0, line);
            count();
            Job job = background.run(
                    work,
                    result -> {
                        end(line, startedAt, null);
                        done.accept(result);
                    },
                    problem -> {
                        end(line, startedAt, problem);
                        failure.accept(problem);
                    },
                    (fraction, message) -> {
                        line.progressed(fraction, message);
                        progress.progressed(fraction, message);
                    });
            line.runs(job);
            return job;
        }
    }
}
