package org.sideport.app;

import java.util.function.Consumer;
import org.sideport.model.Progress;

/** A background that does everything at once, on the thread that asks. */
public final class RunNow implements Background {

    @Override
    public <T> Job run(Work<T> work, Consumer<T> done, Consumer<Throwable> failed, ProgressListener progress) {
        T result;
        try {
            result = work.call(Progress.NONE);
        } catch (Exception failure) {
            failed.accept(failure);
            return () -> {};
        }
        done.accept(result);
        return () -> {};
    }
}
