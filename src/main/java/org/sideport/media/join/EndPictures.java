package org.sideport.media.join;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndex;
import org.sideport.media.MediaInput;
import org.sideport.media.PacketDecoder;
import org.sideport.media.SmallPicture;
import org.sideport.media.SmallScaler;
import org.sideport.model.Progress;

/**
 * The first and the last pictures of a file, small and grey. A picture that cannot be decoded is {@code null}; a list is
 * empty where reaching it would take too long.
 */
record EndPictures(List<float @Nullable []> first, List<float @Nullable []> last) {

    /** Pictures looked at on each side of a border, at most, and how much time they may cover. */
    private static final int MOST = 100;

    private static final long MOST_US = 4_000_000;

    /** Pictures decoded to reach the last ones, at most. */
    private static final int LONGEST_WAY = 900;

    private static final int WIDTH = 160;

    /** Pixels of the small picture along the edge of a block that is averaged. */
    private static final int BLOCK = 5;

    static EndPictures read(MediaInput opened, FrameIndex index, Progress progress) {
        int width = Math.max(1, opened.video().codecpar().width());
        int height = opened.video().codecpar().height();
        int small = Math.min(WIDTH, width);
        boolean rough = width >= 4 * small;
        try (SmallScaler scaler =
                new SmallScaler(small, Math.max(2, (int) Math.round((double) height * small / width)))) {
            int size = index.size();
            int end = Math.max(1, Math.min(Math.min(size, MOST), index.at(MOST_US) + 1));
            List<float @Nullable []> first = new ArrayList<>();
            try (PacketDecoder decoder = PacketDecoder.open(MediaInput.open(opened.file()), index, rough)) {
                collect(decoder, index, 0, end, scaler, first, progress);
            }
            List<float @Nullable []> last = new ArrayList<>();
            int from = Math.max(Math.max(0, size - MOST), index.at(Math.max(0, index.durationUs() - MOST_US)));
            int key = index.keyFor(from);
            if (from - index.frameOfKey(key) <= LONGEST_WAY) {
                try (PacketDecoder decoder = PacketDecoder.open(MediaInput.open(opened.file()), index, rough)) {
                    if (decoder.start(key)) {
                        collect(decoder, index, from, size, scaler, last, progress);
                    }
                }
            }
            return new EndPictures(first, last);
        }
    }

    /** Frames {@code from} to {@code to}, exclusive. */
    private static void collect(
            PacketDecoder decoder,
            FrameIndex index,
            int from,
            int to,
            SmallScaler scaler,
            List<float @Nullable []> pictures,
            Progress progress) {
        for (int i = from; i < to; i++) {
            pictures.add(null);
        }
        int disorder = 0;
        while (decoder.next()) {
            progress.check();
            int frame = index.frameOf(decoder.ordinal());
            if (frame >= to) {
                if (++disorder > 16) {
                    return;
                }
            } else if (frame >= from) {
                pictures.set(frame - from, blocks(scaler.scale(decoder.frame())));
                if (frame == to - 1) {
                    return;
                }
            }
        }
    }

    /** Mean brightness of blocks of pixels: what is left of noise and of coding is small. */
    static float[] blocks(SmallPicture picture) {
        int columns = Math.max(1, picture.width() / BLOCK);
        int rows = Math.max(1, picture.height() / BLOCK);
        int wide = picture.width() / columns;
        int high = picture.height() / rows;
        float[] means = new float[columns * rows];
        for (int row = 0; row < rows; row++) {
            for (int column = 0; column < columns; column++) {
                int sum = 0;
                for (int y = row * high; y < (row + 1) * high; y++) {
                    for (int x = column * wide; x < (column + 1) * wide; x++) {
                        sum += picture.luma()[y * picture.width() + x] & 0xFF;
                    }
                }
                means[row * columns + column] = sum / (float) (wide * high);
            }
        }
        return means;
    }

    /** Mean absolute difference of brightness, 0 to 219; not a number where one is missing or they differ in size. */
    static double difference(float @Nullable [] a, float @Nullable [] b) {
        if (a == null || b == null || a.length != b.length) {
            return Double.NaN;
        }
        double sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += Math.abs(a[i] - b[i]);
        }
        return sum / a.length;
    }
}
