package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.av_frame_clone;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_image_get_buffer_size;

import java.util.HashMap;
import java.util.Map;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;

/**
 * Decoded frames by number, bounded by bytes of native memory. Where it is full, those go first that lie farthest from
 * where the user is, the ones that he leaves behind sooner than those to which he moves. Thread-confined; must be closed.
 */
final class FrameCache implements AutoCloseable {

    /** A frame left behind counts as so many times farther away. */
    private static final long BEHIND = 3;

    private final long budget;
    private final Map<Integer, AVFrame> frames = new HashMap<>();
    private long used;
    private int focus;
    private int direction;

    FrameCache(long budgetBytes) {
        this.budget = budgetBytes;
    }

    /**
     * Where the user is now and which way he moves.
     *
     * @param towards 1 forward, -1 back, 0 if unknown
     */
    void focus(int number, int towards) {
        focus = number;
        direction = towards;
    }

    @Nullable
    AVFrame get(int number) {
        return frames.get(number);
    }

    /** The last frame kept before this one or, if there is none, the first after it. */
    @Nullable
    AVFrame nearest(int number) {
        int best = -1;
        for (int kept : frames.keySet()) {
            boolean closer = kept <= number ? best < kept || best > number : best > number && kept < best;
            if (best < 0 || closer) {
                best = kept;
            }
        }
        return best < 0 ? null : frames.get(best);
    }

    /** Keeps a new reference to the frame's data, unless all that is kept is nearer. */
    void put(int number, AVFrame frame) {
        if (frames.containsKey(number)) {
            return;
        }
        long size = bytes(frame);
        while (used + size > budget && !frames.isEmpty()) {
            int farthest = farthest();
            if (distance(farthest) < distance(number)) {
                return;
            }
            AVFrame dropped = frames.remove(farthest);
            used -= bytes(dropped);
            av_frame_free(dropped);
        }
        AVFrame copy = av_frame_clone(frame);
        if (copy != null) {
            frames.put(number, copy);
            used += size;
        }
    }

    long usedBytes() {
        return used;
    }

    private int farthest() {
        int farthest = -1;
        for (int kept : frames.keySet()) {
            if (farthest < 0 || distance(kept) > distance(farthest)) {
                farthest = kept;
            }
        }
        return farthest;
    }

    private long distance(int number) {
        long away = (long) number - focus;
        return away * direction < 0 ? BEHIND * Math.abs(away) : Math.abs(away);
    }

    private static long bytes(AVFrame frame) {
        return Math.max(1, av_image_get_buffer_size(frame.format(), frame.width(), frame.height(), 32));
    }

    @Override
    public void close() {
        frames.values().forEach(frame -> av_frame_free(frame));
        frames.clear();
        used = 0;
    }
}
