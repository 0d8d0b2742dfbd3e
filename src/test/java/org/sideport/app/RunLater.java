package org.sideport.app;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.Consumer;
import org.sideport.model.Progress;

/** A background whose work waits until the test lets one piece of it happen. */
public final class RunLater implements Background {

    private final Deque<Runnable> waiting = new ArrayDeque<>();

    @Override
    public <T> Job run(Work<T> work, Consumer<T> done, Consumer<Throwable> failed, ProgressListener progress) {
        waiting.add(() -> {
            T result;
            try {
                result = work.call(Progress.NONE);
            } catch (Exception failure) {
                failed.accept(failure);
                return;
            }
            done.accept(result);
        });
        return () -> {};
    }

    public int size() {
        return waiting.size();
    }

    /** Does the oldest piece of work. */
    public void one() {
        waiting.remove().run();
    }

    public void all() {
        while (!waiting.isEmpty()) {
            one();
        }
    }
}
