package org.sideport.app.jobs;

import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;

/** One line of the list of background jobs. Screen's thread only. */
public final class ListedJob {

    public enum State {
        RUNNING,
        DONE,
        STOPPED,
        FAILED
    }

    private final String name;
    private final ReadOnlyObjectWrapper<State> state = new ReadOnlyObjectWrapper<>(State.RUNNING);
    private final ReadOnlyDoubleWrapper fraction = new ReadOnlyDoubleWrapper(-1);
    private final ReadOnlyStringWrapper message = new ReadOnlyStringWrapper("");
    private Background.@Nullable Job job;
    private @Nullable Throwable failure;

    ListedJob(String name) {
        this.name = name;
    }

    public String name() {
        return name;
    }

    public ReadOnlyObjectProperty<State> stateProperty() {
        return state.getReadOnlyProperty();
    }

    /** 0 to 1, negative where it is unknown. */
    public ReadOnlyDoubleProperty fractionProperty() {
        return fraction.getReadOnlyProperty();
    }

    /** What is being done, or what went wrong. */
    public ReadOnlyStringProperty messageProperty() {
        return message.getReadOnlyProperty();
    }

    public boolean isRunning() {
        return state.get() == State.RUNNING;
    }

    /** What it failed on; {@code null} unless it failed. */
    public @Nullable Throwable failure() {
        return failure;
    }

    /** Asks it to stop. */
    public void cancel() {
        if (job != null && isRunning()) {
            job.cancel();
        }
    }

    void runs(Background.Job underWay) {
        job = underWay;
    }

    void progressed(double done, String doing) {
        fraction.set(done);
        message.set(doing);
    }

    void ended(State end, String words, @Nullable Throwable why) {
        failure = why;
        message.set(words);
        state.set(end);
    }
}
