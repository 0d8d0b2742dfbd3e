package org.sideport.media;

import java.nio.file.Path;
import java.util.List;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Recording;

/** One small picture of a recording for lists. */
public final class Thumbnail {

    private Thumbnail() {}

    /**
     * Writes the frame a third into the recording, scaled to {@code height} pixels, as PNG.
     *
     * @throws MediaException if the frame cannot be decoded
     * @throws org.sideport.model.InputException if a file cannot be read or the picture not written
     */
    public static void write(Recording recording, FrameIndexCache cache, int height, Path out, Progress progress) {
        MediaTime third = MediaTime.ofMicros(recording.duration().micros() / 3);
        int segment = recording.segmentAt(third);
        Recording part = new Recording(List.of(recording.segments().get(segment)));
        MediaTime inside =
                MediaTime.ofMicros(third.micros() - recording.startOf(segment).micros());
        try (RecordingFrames frames = RecordingFrames.open(part, cache, progress)) {
            FramePicture whole = frames.picture(frames.frameAt(inside));
            FramePicture picture = new Cover(recording.covered())
                    .over(whole, part.segments().get(0).uprightHeight(), third);
            progress.check();
            PngFile.write(scaled(picture, height), out);
        }
    }

    /** Each small pixel is the mean of the pixels that it covers; square pixels whatever the recording's are. */
    static FramePicture scaled(FramePicture picture, int wantedHeight) {
        int height = Math.min(wantedHeight, picture.height());
        int width = Math.max(1, (int) Math.round(height * picture.displayAspect()));
        byte[] small = new byte[width * height * 4];
        for (int y = 0; y < height; y++) {
            int top = y * picture.height() / height;
            int bottom = Math.max(top + 1, (y + 1) * picture.height() / height);
            for (int x = 0; x < width; x++) {
                int left = Math.min(picture.width() - 1, x * picture.width() / width);
                int right = Math.max(left + 1, (x + 1) * picture.width() / width);
                mean(picture, left, right, top, bottom, small, (y * width + x) * 4);
            }
        }
        return new FramePicture(width, height, (double) width / height, small);
    }

    private static void mean(FramePicture from, int left, int right, int top, int bottom, byte[] to, int at) {
        byte[] pixels = from.bgra();
        int count = (right - left) * (bottom - top);
        for (int channel = 0; channel < 4; channel++) {
            long sum = 0;
            for (int y = top; y < bottom; y++) {
                for (int x = left; x < right; x++) {
                    sum += pixels[(y * from.width() + x) * 4 + channel] & 0xFF;
                }
            }
            to[at + channel] = (byte) ((sum + count / 2) / count);
        }
    }
}
