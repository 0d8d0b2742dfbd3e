package org.sideport.app.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.media.FrameRef;

/**
 * Asks for exact frames, one at a time; of several wishes made while one is being decoded only the newest is met.
 * Steps are counted from the frame last wished for, so fast key presses lose none. Screen's thread only.
 */
final class FrameQueue {

    /** How to find the frame that is wished for. */
    @FunctionalInterface
    interface Aim {
        FrameRef in(FrameSource source);
    }

    private final FrameSource source;
    private final Background background;
    private final Consumer<ShownFrame> show;
    private final Consumer<Throwable> failed;
    private final List<Runnable> whenSettled = new ArrayList<>();
    private Aim last = source -> source.frame(0);
    private @Nullable Aim waiting;
    private boolean busy;
    private boolean closed;

    /** An aim that is taken once and kept: for one that is dear to find. */
    static Aim once(Aim aim) {
        return new Aim() {
            private @Nullable FrameRef found;

            @Override
            public FrameRef in(FrameSource source) {
                FrameRef frame = found == null ? aim.in(source) : found;
                found = frame;
                return frame;
            }
        };
    }

    FrameQueue(FrameSource source, Background background, Consumer<ShownFrame> show, Consumer<Throwable> failed) {
        this.source = source;
        this.background = background;
        this.show = show;
        this.failed = failed;
    }

    boolean isBusy() {
        return busy;
    }

    void ask(Aim aim) {
        last = aim;
        if (busy) {
            waiting = aim;
        } else {
            start(aim);
        }
    }

    /** Asks for the frame {@code by} frames from the one last asked for, within the recording. */
    void step(long by) {
        Aim from = last;
        ask(frames -> frames.frame(
                Math.max(0, Math.min(frames.frameCount() - 1, from.in(frames).number() + by))));
    }

    /** Runs {@code action} when the frame last asked for is on the screen: at once if it is. */
    void whenSettled(Runnable action) {
        if (busy) {
            whenSettled.add(action);
        } else {
            action.run();
        }
    }

    void close() {
        closed = true;
        whenSettled.clear();
        background.run(
                progress -> {
                    source.close();
                    return source;
                },
                done -> {},
                failed);
    }

    private void start(Aim aim) {
        busy = true;
        background.run(
                progress -> {
                    FrameRef frame = aim.in(source);
                    return new ShownFrame(frame, source.picture(frame));
                },
                this::arrived,
                failure -> {
                    if (!closed) {
                        failed.accept(failure);
                        next();
                    }
                });
    }

    private void arrived(ShownFrame shown) {
        if (closed) {
            return;
        }
        if (waiting == null) {
            long number = shown.frame().number();
            last = frames -> frames.frame(number);
        }
        show.accept(shown);
        next();
    }

    private void next() {
        Aim newest = waiting;
        waiting = null;
        if (newest != null) {
            start(newest);
            return;
        }
        busy = false;
        List<Runnable> settled = List.copyOf(whenSettled);
        whenSettled.clear();
        settled.forEach(Runnable::run);
    }
}
