package org.sideport.media.export;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;
import org.sideport.media.PngFile;
import org.sideport.media.RecordingFrames;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** Stills at even distances side by side in one PNG picture. */
public final class Filmstrip {

    public static final int DEFAULT_STILLS = 12;
    public static final int DEFAULT_HEIGHT = 120;

    private static final int MOST_STILLS = 200;
    private static final int LEAST_HEIGHT = 16;
    private static final int MOST_HEIGHT = 1080;
    private static final long MOST_PIXELS = 60_000_000;

    private Filmstrip() {}

    /**
     * @param stills the frames shown, from left to right
     * @param width pixels of the whole strip
     */
    public record Result(Path file, List<FrameRef> stills, int width, int height) {

        public Result {
            stills = List.copyOf(stills);
        }
    }

    /**
     * Cuts the recording into {@code count} equal stretches and shows the frame in the middle of each.
     *
     * @param files of one recording, in order
     * @param count 1 to 200
     * @param height pixels of each still, 16 to 1080; its width follows from the picture's shape as displayed
     * @throws InputException if a file cannot be read, a number is out of range, or the target exists
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public static Result write(List<Path> files, int count, int height, Path out, boolean replace, Progress progress) {
        if (count < 1 || count > MOST_STILLS) {
            throw new InputException(count + " stills are no strip", null, "choose 1 to " + MOST_STILLS);
        }
        if (height < LEAST_HEIGHT || height > MOST_HEIGHT) {
            throw new InputException(
                    "a height of " + height + " pixels is no use",
                    null,
                    "choose " + LEAST_HEIGHT + " to " + MOST_HEIGHT);
        }
        Path target = OutputFile.guard(out, replace, files);
        try (RecordingFrames frames = RecordingFrames.open(files, progress.part(0, 0.3))) {
            List<FrameRef> stills = new ArrayList<>();
            BufferedImage strip = null;
            int width = 0;
            for (int i = 0; i < count; i++) {
                progress.check();
                progress.report(0.3 + 0.69 * i / count, "Taking stills");
                FrameRef frame = frames.frameAt(middle(frames.duration(), i, count));
                FramePicture picture = frames.picture(frame);
                if (strip == null) {
                    width = (int) Math.max(1, Math.round(height * picture.displayAspect()));
                    if ((long) width * count * height > MOST_PIXELS) {
                        throw new InputException("the strip would be too large", null, "choose fewer or lower stills");
                    }
                    strip = new BufferedImage(width * count, height, BufferedImage.TYPE_INT_RGB);
                }
                draw(picture, strip, i * width, width, height);
                stills.add(frame);
            }
            if (strip == null) {
                throw new IllegalStateException("no still was taken");
            }
            PngFile.write(asPicture(strip), target);
            progress.report(1, "Written");
            return new Result(target, stills, strip.getWidth(), height);
        }
    }

    private static MediaTime middle(MediaTime duration, int i, int count) {
        return MediaTime.ofMicros(Math.floorDiv(duration.micros() * (2L * i + 1), 2L * count));
    }

    private static void draw(FramePicture picture, BufferedImage strip, int left, int width, int height) {
        BufferedImage image = new BufferedImage(picture.width(), picture.height(), BufferedImage.TYPE_INT_RGB);
        int[] row = new int[picture.width()];
        byte[] bgra = picture.bgra();
        for (int y = 0; y < picture.height(); y++) {
            for (int x = 0; x < picture.width(); x++) {
                int at = (y * picture.width() + x) * 4;
                row[x] = (bgra[at + 2] & 255) << 16 | (bgra[at + 1] & 255) << 8 | bgra[at] & 255;
            }
            image.setRGB(0, y, picture.width(), 1, row, 0, picture.width());
        }
        // halved step by step, so that a strong reduction averages all pixels
        while (image.getWidth() >= 2 * width && image.getHeight() >= 2 * height) {
            image = scaled(image, image.getWidth() / 2, image.getHeight() / 2);
        }
        Graphics2D paint = strip.createGraphics();
        try {
            paint.drawImage(scaled(image, width, height), left, 0, null);
        } finally {
            paint.dispose();
        }
    }

    private static BufferedImage scaled(BufferedImage image, int width, int height) {
        BufferedImage small = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D paint = small.createGraphics();
        try {
            paint.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
            paint.drawImage(image, 0, 0, width, height, null);
        } finally {
            paint.dispose();
        }
        return small;
    }

    private static FramePicture asPicture(BufferedImage strip) {
        int width = strip.getWidth();
        int height = strip.getHeight();
        byte[] bgra = new byte[width * height * 4];
        int[] rgb = strip.getRGB(0, 0, width, height, null, 0, width);
        for (int i = 0; i < rgb.length; i++) {
            bgra[4 * i] = (byte) rgb[i];
            bgra[4 * i + 1] = (byte) (rgb[i] >> 8);
            bgra[4 * i + 2] = (byte) (rgb[i] >> 16);
            bgra[4 * i + 3] = (byte) 255;
        }
        return new FramePicture(width, height, width / (double) height, bgra);
    }
}
