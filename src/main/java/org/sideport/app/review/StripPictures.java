package org.sideport.app.review;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import javafx.scene.image.Image;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.picture.FrameSource;
import org.sideport.app.picture.SmallPicture;
import org.sideport.app.timeline.FrameGrid;
import org.sideport.app.timeline.PictureProvider;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.model.Segment;

/** Small pictures of a recording out of frames of its own, so that the picture on the screen waits for none of them. */
final class StripPictures implements PictureProvider {

    private final Background work;
    private final double aspect;
    private final Deque<Wish> wishes = new ArrayDeque<>();
    private @Nullable FrameSource source;
    private boolean busy = true;
    private boolean closed;

    private record Wish(long us, int height, BiConsumer<Long, Image> use) {}

    private record Opened(FrameSource source, FrameGrid grid) {}

    /** @param ready gets the starts of all frames once they are known */
    StripPictures(Recording recording, FrameSource.Opener opener, Background work, Consumer<FrameGrid> ready) {
        this.work = work;
        aspect = aspectOf(recording.segments().get(0));
        work.run(
                progress -> {
                    FrameSource frames = opener.open(recording, progress);
                    long[] starts = new long[Math.toIntExact(frames.frameCount())];
                    for (int i = 0; i < starts.length; i++) {
                        starts[i] = frames.frame(i).start().micros();
                    }
                    return new Opened(frames, new FrameGrid(starts));
                },
                opened -> {
                    source = opened.source();
                    busy = false;
                    if (closed) {
                        release();
                    } else {
                        ready.accept(opened.grid());
                        next();
                    }
                },
                // the picture itself says what is wrong with the recording
                failure -> {});
    }

    private static double aspectOf(Segment segment) {
        String[] sample = segment.sampleAspect().split(":", 2);
        double pixel = 1;
        try {
            pixel = Double.parseDouble(sample[0]) / Double.parseDouble(sample[1]);
        } catch (NumberFormatException | ArrayIndexOutOfBoundsException e) {
            // square, as almost all are
        }
        double wide = segment.width() * (pixel > 0 && pixel < 100 ? pixel : 1) / segment.height();
        return segment.rotation() % 180 == 0 ? wide : 1 / wide;
    }

    @Override
    public double aspect() {
        return aspect;
    }

    @Override
    public void ask(long us, int height, BiConsumer<Long, Image> use) {
        wishes.add(new Wish(us, height, use));
        next();
    }

    @Override
    public void forget() {
        wishes.clear();
    }

    void close() {
        closed = true;
        wishes.clear();
        if (!busy) {
            release();
        }
    }

    private void release() {
        FrameSource open = source;
        source = null;
        if (open != null) {
            open.closeOn(work, failure -> {});
        }
    }

    private void next() {
        FrameSource open = source;
        Wish wish = busy || open == null ? null : wishes.poll();
        if (wish == null || open == null) {
            return;
        }
        busy = true;
        work.run(
                progress -> SmallPicture.of(open.picture(open.frameAt(MediaTime.ofMicros(wish.us()))), wish.height()),
                small -> {
                    busy = false;
                    if (closed) {
                        release();
                        return;
                    }
                    wish.use().accept(wish.us(), small.image());
                    next();
                },
                // a picture that cannot be had leaves its place empty
                failure -> {
                    busy = false;
                    if (closed) {
                        release();
                    } else {
                        next();
                    }
                });
    }
}
