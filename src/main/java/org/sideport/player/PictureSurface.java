package org.sideport.player;

import java.nio.ByteBuffer;
import java.util.concurrent.Executor;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.scene.image.Image;
import javafx.scene.image.PixelBuffer;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import org.jspecify.annotations.Nullable;

/**
 * Carries decoded pictures from the player's thread to the screen's. Two buffers of our own take turns: the player
 * copies into the one that is not on the screen, so no picture is overwritten while it is shown. However fast pictures
 * come, at most one hand-over waits for the screen's thread; it takes the newest.
 */
public final class PictureSurface {

    private final Executor screenThread;
    private final boolean seen;
    private final ReadOnlyObjectWrapper<@Nullable Image> image = new ReadOnlyObjectWrapper<>(null);

    private final Object lock = new Object();
    private @Nullable Buffers buffers;
    private int shown = -1;
    private int ready = -1;
    private boolean handOverWaits;
    private volatile long displays;

    /** @param screenThread runs what it is given on the JavaFX thread, later */
    public PictureSurface(Executor screenThread) {
        this(screenThread, true);
    }

    private PictureSurface(Executor screenThread, boolean seen) {
        this.screenThread = screenThread;
        this.seen = seen;
    }

    /** One without a screen: a picture counts as shown when it comes, and no image is made of it. For measurements. */
    public static PictureSurface withoutScreen() {
        return new PictureSurface(Runnable::run, false);
    }

    /** The newest picture; changes on the JavaFX thread only. A picture stays unchanged while it is the newest. */
    public ReadOnlyObjectProperty<@Nullable Image> imageProperty() {
        return image.getReadOnlyProperty();
    }

    /** How many pictures have come from the player so far. */
    long displays() {
        return displays;
    }

    /** A copy of the picture on the screen; {@code null} before the first. May be called from any thread. */
    @Nullable
    LivePicture shown() {
        synchronized (lock) {
            Buffers now = buffers;
            if (now == null || shown < 0) {
                return null;
            }
            ByteBuffer pixels = now.bytes[shown].duplicate();
            pixels.clear();
            byte[] bgra = new byte[pixels.capacity()];
            pixels.get(bgra);
            return new LivePicture(now.width, now.height, bgra, now.display[shown], now.nanos[shown]);
        }
    }

    /** Called by the player's thread before pictures of a new size come. */
    void resize(int width, int height) {
        synchronized (lock) {
            if (buffers != null && buffers.width == width && buffers.height == height) {
                return;
            }
            buffers = new Buffers(width, height);
            shown = -1;
            ready = -1;
        }
    }

    /** Called by the player's thread with a picture of BGRA pixels, top row first, without gaps between rows. */
    void display(ByteBuffer picture) {
        synchronized (lock) {
            Buffers now = buffers;
            if (now == null) {
                return;
            }
            int free = shown == 0 ? 1 : 0;
            ByteBuffer target = now.bytes[free];
            ByteBuffer source = picture.duplicate();
            source.rewind();
            if (source.remaining() < target.capacity()) {
                return;
            }
            source.limit(target.capacity());
            target.clear();
            target.put(source);
            target.clear();
            ready = free;
            displays++;
            now.display[free] = displays;
            now.nanos[free] = System.nanoTime();
            if (handOverWaits) {
                return;
            }
            handOverWaits = true;
        }
        screenThread.execute(this::handOver);
    }

    private void handOver() {
        WritableImage next;
        synchronized (lock) {
            handOverWaits = false;
            Buffers now = buffers;
            if (now == null || ready < 0) {
                return;
            }
            shown = ready;
            ready = -1;
            if (!seen) {
                return;
            }
            next = now.show(shown);
        }
        image.set(next);
    }

    /** Two buffers of one size, with the images over them, which are made on the screen's thread when first needed. */
    private static final class Buffers {

        private final int width;
        private final int height;
        private final ByteBuffer[] bytes;
        private final long[] display = new long[2];
        private final long[] nanos = new long[2];
        private final @Nullable Shown[] images = new @Nullable Shown[2];

        Buffers(int width, int height) {
            this.width = width;
            this.height = height;
            int size = Math.multiplyExact(Math.multiplyExact(width, height), 4);
            bytes = new ByteBuffer[] {ByteBuffer.allocateDirect(size), ByteBuffer.allocateDirect(size)};
        }

        WritableImage show(int index) {
            Shown made = images[index];
            if (made == null) {
                PixelBuffer<ByteBuffer> pixels =
                        new PixelBuffer<>(width, height, bytes[index], PixelFormat.getByteBgraPreInstance());
                made = new Shown(pixels, new WritableImage(pixels));
                images[index] = made;
            }
            made.pixels.updateBuffer(all -> null);
            return made.image;
        }
    }

    private record Shown(PixelBuffer<ByteBuffer> pixels, WritableImage image) {}
}
