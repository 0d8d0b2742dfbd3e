package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.av_frame_clone;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_image_get_buffer_size;

import java.util.Iterator;
import java.util.LinkedHashMap;
import java.util.Map;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;

/**
 * Decoded frames by number, the least recently used dropped first, bounded by bytes of native memory: stepping back
 * shows what was decoded on the way. Thread-confined; must be closed.
 */
final class FrameCache implements AutoCloseable {

    private final long budget;
    private final LinkedHashMap<Integer, AVFrame> frames = new LinkedHashMap<>(64, 0.75f, true);
    private long used;

    FrameCache(long budgetBytes) {
        this.budget = budgetBytes;
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

    /** Keeps a new reference to the frame's data. */
    void put(int number, AVFrame frame) {
        if (frames.containsKey(number)) {
            return;
        }
        AVFrame copy = av_frame_clone(frame);
        if (copy == null) {
            return;
        }
        frames.put(number, copy);
        used += bytes(copy);
        Iterator<Map.Entry<Integer, AVFrame>> oldest = frames.entrySet().iterator();
        while (used > budget && frames.size() > 1 && oldest.hasNext()) {
            AVFrame dropped = oldest.next().getValue();
            oldest.remove();
            used -= bytes(dropped);
            av_frame_free(dropped);
        }
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
