package org.sideport.app.picture;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Consumer;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.media.Fields;
import org.sideport.media.FrameRef;

/**
 * Asks for exact frames, one at a time; of several wishes made while one is being decoded only the newest is met.
 * Steps are counted from the frame last wished for, so fast key presses lose none. While the user drags, drafts are
 * asked for, and the full picture of the last one once no newer wish waits. Screen's thread only.
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
    /** A frame, and whether a draft of it will do. */
    private record Wish(Aim aim, boolean draft) {}

    private Aim last = source -> source.frame(0);
    private @Nullable Wish waiting;
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
        ask(new Wish(aim, false));
    }

    /** As {@link #ask(Aim)}, with a draft first: for while the user drags. */
    void askDraft(Aim aim) {
        ask(new Wish(aim, true));
    }

    private void ask(Wish wish) {
        last = wish.aim();
        if (busy) {
            waiting = wish;
        } else {
            start(wish);
        }
    }

    /** Shows the last frame anew, with other fields of interlaced pictures. */
    void showFields(Fields fields) {
        Aim again = last;
        ask(frames -> {
            frames.showFields(fields);
            return again.in(frames);
        });
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
        source.closeOn(background, failed);
    }

    private void start(Wish wish) {
        busy = true;
        background.run(
                progress -> {
                    FrameRef frame = wish.aim().in(source);
                    return new ShownFrame(frame, wish.draft() ? source.draft(frame) : source.picture(frame));
                },
                shown -> arrived(shown, wish.draft()),
                failure -> {
                    if (!closed) {
                        failed.accept(failure);
                        next();
                    }
                });
    }

    private void arrived(ShownFrame shown, boolean draft) {
        if (closed) {
            return;
        }
        if (waiting == null) {
            long number = shown.frame().number();
            last = frames -> frames.frame(number);
            if (draft) {
                waiting = new Wish(last, false);
            }
        }
        show.accept(shown);
        next();
    }

    private void next() {
        Wish newest = waiting;
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
