package org.sideport.media.film;

import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.image.BufferedImage;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.file.Path;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sideport.media.Cover;
import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;
import org.sideport.media.RecordingFrames;
import org.sideport.media.export.FilmFile;
import org.sideport.media.voice.VoiceReader;
import org.sideport.media.voice.VoiceWriter;
import org.sideport.model.DrawnMark;
import org.sideport.model.MaskArea;
import org.sideport.model.Progress;

/** Makes films and stills out of a recording's exact frames. The sound is the voices'; the recording's own stays out. */
public final class FilmMaker {

    private static final int FINE = 1000;

    private final RecordingFrames recording;
    private final Cover cover;

    /** @param masks areas that are black wherever they are shown */
    public FilmMaker(RecordingFrames recording, List<MaskArea> masks) {
        this.recording = recording;
        this.cover = new Cover(masks);
    }

    /**
     * @param marks what is drawn on each picture
     * @param extras chapters and subtitles; its length and sound are those of the plan
     * @throws org.sideport.model.InputException if the file cannot be written or is not what it should be; nothing is left
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left
     */
    public void film(
            List<Shot> shots,
            FilmPlan plan,
            Function<FilmPlan.Picture, List<DrawnMark>> marks,
            FilmFile.Extras extras,
            Path out,
            boolean replace,
            List<Path> sources,
            Progress progress) {
        FramePicture first = recording.picture(plan.pictures().get(0).frame());
        try (FilmFile film = FilmFile.create(out, replace, sources, shape(first), extras);
                Narration narration = new Narration(shots, film)) {
            for (int i = 0; i < plan.pictures().size(); i++) {
                progress.check();
                progress.report(0.95 * i / plan.pictures().size(), "Making the film");
                FilmPlan.Picture one = plan.pictures().get(i);
                narration.advance(one.atUs());
                BufferedImage picture = picture(one.frame(), marks.apply(one));
                film.picture(pixels(picture, first), one.atUs(), plan.lengthOf(i), one.starts());
            }
            narration.advance(plan.lengthUs());
            film.finish(progress.part(0.95, 1));
        }
    }

    private static FilmFile.Shape shape(FramePicture picture) {
        int width = picture.width() & ~1;
        int height = picture.height() & ~1;
        double pixel = picture.displayAspect() * picture.height() / picture.width();
        return Math.abs(pixel - 1) < 1e-3
                ? new FilmFile.Shape(width, height, 1, 1)
                : new FilmFile.Shape(width, height, (int) Math.round(pixel * FINE), FINE);
    }

    private static int[] pixels(BufferedImage picture, FramePicture like) {
        int width = like.width() & ~1;
        int height = like.height() & ~1;
        BufferedImage fits = picture;
        if (picture.getWidth() != like.width() || picture.getHeight() != like.height()) {
            // a later file of another size
            fits = new BufferedImage(like.width(), like.height(), BufferedImage.TYPE_INT_RGB);
            Graphics2D g = fits.createGraphics();
            g.drawImage(picture, 0, 0, like.width(), like.height(), null);
            g.dispose();
        }
        return fits.getRGB(0, 0, width, height, null, 0, width);
    }

    /**
     * A frame with its drawing, masked, in square pixels: what slides, paper and pages show.
     *
     * @param widest pixels; wider ones are made smaller
     */
    public BufferedImage still(FrameRef frame, List<DrawnMark> marks, int widest) {
        FramePicture decoded = recording.picture(frame);
        BufferedImage picture = picture(decoded, frame, marks);
        double seenWidth = picture.getHeight() * decoded.displayAspect();
        double scale = Math.min(1, widest / seenWidth);
        int width = (int) Math.round(seenWidth * scale);
        int height = (int) Math.round(picture.getHeight() * scale);
        if (width == picture.getWidth() && height == picture.getHeight()) {
            return picture;
        }
        BufferedImage square = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        Graphics2D g = square.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BICUBIC);
        g.drawImage(picture, 0, 0, width, height, null);
        g.dispose();
        return square;
    }

    /** A frame with its drawing, masked. */
    public BufferedImage picture(FrameRef frame, List<DrawnMark> marks) {
        return picture(recording.picture(frame), frame, marks);
    }

    private BufferedImage picture(FramePicture whole, FrameRef frame, List<DrawnMark> marks) {
        FramePicture decoded = cover.over(whole, whole.height(), frame.start());
        int[] argb = new int[decoded.width() * decoded.height()];
        // bytes of blue, green, red, alpha are integers of alpha, red, green, blue in this order
        ByteBuffer.wrap(decoded.bgra())
                .order(ByteOrder.LITTLE_ENDIAN)
                .asIntBuffer()
                .get(argb);
        BufferedImage picture = new BufferedImage(decoded.width(), decoded.height(), BufferedImage.TYPE_INT_RGB);
        picture.setRGB(0, 0, decoded.width(), decoded.height(), argb, 0, decoded.width());
        MarkPainter.paint(picture, marks);
        return picture;
    }

    /** The voices of the shots, each from its shot's start, put in step with the pictures. */
    private static final class Narration implements AutoCloseable {

        private final List<Shot> shots;
        private final FilmFile film;
        private int number = -1;
        private long shotEndUs;
        private long place;
        private long endPlace;
        private @Nullable VoiceReader voice;

        Narration(List<Shot> shots, FilmFile film) {
            this.shots = shots;
            this.film = film;
        }

        void advance(long untilUs) {
            while (true) {
                VoiceReader reading = voice;
                while (reading != null && place < Math.min(endPlace, samples(untilUs))) {
                    short[] block = reading.next();
                    if (block == null) {
                        close();
                        break;
                    }
                    // a voice never reaches into the next shot
                    int count = (int) Math.min(block.length, endPlace - place);
                    film.sound(place, count == block.length ? block : java.util.Arrays.copyOf(block, count));
                    place += block.length;
                }
                if (number + 1 >= shots.size() || untilUs < shotEndUs) {
                    return;
                }
                open(shots.get(++number));
            }
        }

        private void open(Shot shot) {
            close();
            place = samples(shotEndUs);
            shotEndUs += shot.lengthUs();
            endPlace = samples(shotEndUs);
            Path file = shot.voice();
            voice = file == null ? null : VoiceReader.open(file);
        }

        private static long samples(long us) {
            return us * VoiceWriter.RATE / 1_000_000;
        }

        @Override
        public void close() {
            if (voice != null) {
                voice.close();
                voice = null;
            }
        }
    }
}
