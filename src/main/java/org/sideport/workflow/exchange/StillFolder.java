package org.sideport.workflow.exchange;

import java.awt.image.BufferedImage;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.UUID;
import javax.imageio.ImageIO;
import org.sideport.media.FrameRef;
import org.sideport.media.RecordingFrames;
import org.sideport.media.film.FilmMaker;
import org.sideport.model.Comment;
import org.sideport.model.InputException;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Progress;
import org.sideport.report.exchange.Annotated;
import org.sideport.report.exchange.StillIndex;

/** A folder of stills with a list of them, whole or not at all. */
final class StillFolder {

    private final Path folder;
    private final Annotated notes;
    private final FilmMaker maker;
    private final RecordingFrames frames;

    StillFolder(Path folder, Annotated notes, FilmMaker maker, RecordingFrames frames) {
        this.folder = folder.toAbsolutePath();
        this.notes = notes;
        this.maker = maker;
        this.frames = frames;
    }

    void write(List<Comment> comments, Progress progress) {
        Path part = folder.resolveSibling("." + folder.getFileName() + "." + UUID.randomUUID() + ".part");
        try {
            if (Files.exists(folder) && (!Files.isDirectory(folder) || !isEmpty())) {
                throw new InputException("the folder is not empty", folder.toString(), "name a new one");
            }
            Files.createDirectory(part);
            try {
                fill(part, comments, progress);
                Files.deleteIfExists(folder);
                Files.move(part, folder);
            } finally {
                delete(part);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the stills cannot be written: " + e.getMessage(),
                    folder.toString(),
                    "choose a folder that may be written to and has room",
                    e);
        }
    }

    private boolean isEmpty() throws IOException {
        try (var files = Files.list(folder)) {
            return files.findAny().isEmpty();
        }
    }

    private static void delete(Path part) throws IOException {
        if (Files.isDirectory(part)) {
            try (var files = Files.list(part)) {
                for (Path file : files.toList()) {
                    Files.delete(file);
                }
            }
            Files.delete(part);
        }
    }

    private void fill(Path part, List<Comment> comments, Progress progress) throws IOException {
        List<Comment> sorted = new ArrayList<>(comments);
        sorted.sort(Comparator.comparing(Comment::from));
        List<StillIndex.Entry> index = new ArrayList<>();
        for (int i = 0; i < sorted.size(); i++) {
            progress.check();
            progress.report((double) i / sorted.size(), "Stills");
            Comment comment = sorted.get(i);
            FrameRef frame = frames.frameAt(comment.from());
            String name = String.format(Locale.ROOT, "%s_%02d.png", notes.code(), i + 1);
            BufferedImage square = maker.still(frame, comment.drawing(), Integer.MAX_VALUE);
            if (!ImageIO.write(square, "png", part.resolve(name).toFile())) {
                throw new IllegalStateException("this Java cannot write PNG files");
            }
            PhaseSpan span = notes.tagging().spanAt(comment.from());
            String phase = span == null
                    ? ""
                    : notes.procedure()
                            .find(span.phase())
                            .map(Procedure.Term::name)
                            .orElse(span.phase());
            index.add(new StillIndex.Entry(name, comment.from(), phase, comment.text()));
        }
        Files.writeString(part.resolve("index.csv"), StillIndex.write(notes.code(), index), StandardCharsets.UTF_8);
    }
}
