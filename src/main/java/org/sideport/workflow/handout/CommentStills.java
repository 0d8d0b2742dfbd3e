package org.sideport.workflow.handout;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javax.imageio.IIOImage;
import javax.imageio.ImageIO;
import javax.imageio.ImageWriteParam;
import javax.imageio.ImageWriter;
import javax.imageio.stream.MemoryCacheImageOutputStream;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.FrameRef;
import org.sideport.media.RecordingFrames;
import org.sideport.media.film.FilmMaker;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.MaskArea;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.report.page.Feedback.Still;

/**
 * Pictures of the moments that were drawn on, each with its drawing, square pixels, as JPEG: what paper shows, and a page
 * until its player has found the frame.
 */
final class CommentStills {

    private static final int WIDEST = 960;
    private static final float QUALITY = 0.85f;

    private CommentStills() {}

    /** Puts a picture where the page finds it. */
    @FunctionalInterface
    interface Keep {

        /** @return what {@link Still#picture} says of it */
        String keep(String name, byte[] jpeg);
    }

    static boolean any(List<CommentThread> comments) {
        return comments.stream().anyMatch(thread -> !thread.comment().drawing().isEmpty());
    }

    /**
     * @param recording whose files are where it says
     * @return by the ids of the comments; those without a drawing have none
     * @throws org.sideport.media.MediaException if it cannot be read
     */
    static Map<String, Still> of(
            Recording recording,
            FrameIndexCache index,
            List<CommentThread> comments,
            List<MaskArea> masks,
            Keep keep,
            Progress progress) {
        Map<String, Still> all = new LinkedHashMap<>();
        List<Comment> drawn = comments.stream()
                .map(CommentThread::comment)
                .filter(comment -> !comment.drawing().isEmpty())
                .toList();
        if (drawn.isEmpty()) {
            return all;
        }
        try (RecordingFrames frames = RecordingFrames.open(recording, index, progress.part(0, 0.1))) {
            FilmMaker maker = new FilmMaker(frames, masks);
            for (Comment comment : drawn) {
                progress.check();
                progress.report(0.1 + 0.9 * all.size() / drawn.size(), "Pictures");
                FrameRef frame = frames.frameAt(comment.from());
                BufferedImage picture = maker.still(frame, comment.drawing(), WIDEST);
                String name = "still-" + (all.size() + 1) + ".jpg";
                all.put(
                        comment.id(),
                        new Still(keep.keep(name, jpeg(picture)), picture.getWidth(), picture.getHeight()));
            }
        }
        return all;
    }

    private static byte[] jpeg(BufferedImage picture) {
        ImageWriter writer = ImageIO.getImageWritersByFormatName("jpeg").next();
        ByteArrayOutputStream bytes = new ByteArrayOutputStream();
        try (MemoryCacheImageOutputStream out = new MemoryCacheImageOutputStream(bytes)) {
            ImageWriteParam how = writer.getDefaultWriteParam();
            how.setCompressionMode(ImageWriteParam.MODE_EXPLICIT);
            how.setCompressionQuality(QUALITY);
            writer.setOutput(out);
            writer.write(null, new IIOImage(picture, null, null), how);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        } finally {
            writer.dispose();
        }
        return bytes.toByteArray();
    }
}
