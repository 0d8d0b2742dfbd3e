package org.sideport.app.review;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.function.BiConsumer;
import java.util.function.Consumer;
import javafx.scene.image.Image;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.picture.FrameSource;
import org.sideport.app.timeline.FrameGrid;
import org.sideport.app.timeline.PictureProvider;
import org.sideport.media.FramePicture;
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

    /** A picture in blue, green, red, alpha. */
    @SuppressWarnings("ArrayRecordComponent") // pixel data is compared by nobody
    private record Small(int width, int height, byte[] bgra) {}

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
            work.run(
                    progress -> {
                        open.close();
                        return open;
                    },
                    done -> {},
                    failure -> {});
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
                progress -> small(open.picture(open.frameAt(MediaTime.ofMicros(wish.us()))), wish.height()),
                small -> {
                    busy = false;
                    if (closed) {
                        release();
                        return;
                    }
                    WritableImage image = new WritableImage(small.width(), small.height());
                    image.getPixelWriter()
                            .setPixels(
                                    0,
                                    0,
                                    small.width(),
                                    small.height(),
                                    PixelFormat.getByteBgraInstance(),
                                    small.bgra(),
                                    0,
                                    small.width() * 4);
                    wish.use().accept(wish.us(), image);
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

    /** The mean of every pixel's share of the picture. */
    private static Small small(FramePicture picture, int height) {
        int rows = Math.max(1, Math.min(height, picture.height()));
        int columns = Math.max(1, Math.min(picture.width(), (int) Math.round(rows * picture.displayAspect())));
        byte[] out = new byte[rows * columns * 4];
        for (int y = 0; y < rows; y++) {
            int top = y * picture.height() / rows;
            int bottom = Math.max(top + 1, (y + 1) * picture.height() / rows);
            for (int x = 0; x < columns; x++) {
                int left = x * picture.width() / columns;
                int right = Math.max(left + 1, (x + 1) * picture.width() / columns);
                for (int channel = 0; channel < 4; channel++) {
                    out[(y * columns + x) * 4 + channel] = mean(picture, left, right, top, bottom, channel);
                }
            }
        }
        return new Small(columns, rows, out);
    }

    private static byte mean(FramePicture picture, int left, int right, int top, int bottom, int channel) {
        long sum = 0;
        for (int y = top; y < bottom; y++) {
            int row = y * picture.width() * 4 + channel;
            for (int x = left; x < right; x++) {
                sum += picture.bgra()[row + x * 4] & 0xff;
            }
        }
        return (byte) (sum / ((long) (right - left) * (bottom - top)));
    }
}
