package org.sideport.media.export;

import java.nio.file.Path;
import java.util.List;
import org.sideport.media.export.SourceFiles.Part;
import org.sideport.media.export.SourceFiles.Span;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** Cuts a stretch out of a recording. */
public final class Clip {

    private Clip() {}

    /**
     * What was cut.
     *
     * @param from start of the first frame of the clip, on the recording's timeline
     * @param to end of its last frame
     * @param frames in the clip
     * @param lost frames in the stretch that damage has swallowed
     * @param exact false if packets were copied, from key frame on
     */
    public record Result(
            Path file, MediaTime from, MediaTime to, long frames, long lost, boolean sound, boolean exact) {}

    /**
     * Cuts to the frame: every frame that is on the screen in {@code [from, to)}, each at its own distance from the
     * first, encoded anew as H.264, with AAC sound in step. The stretch may reach over several files.
     *
     * @param files of one recording, in order
     * @param out an MP4 file
     * @throws org.sideport.model.InputException if the stretch is empty, a file cannot be read, or the target exists
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public static Result exact(
            List<Path> files,
            MediaTime from,
            MediaTime to,
            boolean withSound,
            Path out,
            boolean replace,
            Progress progress) {
        OutputFile.guard(out, replace, files);
        SourceFiles source = SourceFiles.open(files, progress.part(0, 0.1));
        List<Span> spans = source.between(from.micros(), to.micros());
        try (OutputFile file = OutputFile.create(out, "mp4", replace, files)) {
            Transcode.Written written = Transcode.run(
                    spans, file, Encoding.FAITHFUL, withSound, FrameEdit.NONE, "Cutting", progress.part(0.1, 1));
            file.commit();
            progress.report(1, "Cut");
            return new Result(
                    file.target(),
                    start(spans.get(0)),
                    end(spans.get(spans.size() - 1)),
                    written.frames(),
                    written.lost(),
                    written.sound(),
                    true);
        }
    }

    /**
     * Cuts without encoding: copies packets from the key frame at or before {@code from} until all frames before
     * {@code to} are in, and says what that really is.
     *
     * @param out its ending should be {@link #fastExtension}
     * @throws org.sideport.model.InputException as for {@link #exact}, or if the files cannot be joined by copying
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public static Result fast(
            List<Path> files,
            MediaTime from,
            MediaTime to,
            boolean withSound,
            Path out,
            boolean replace,
            Progress progress) {
        OutputFile.guard(out, replace, files);
        SourceFiles source = SourceFiles.open(files, progress.part(0, 0.4));
        List<Span> spans = source.between(from.micros(), to.micros());
        return PacketClip.cut(spans, files, withSound, out, replace, progress.part(0.4, 1));
    }

    /** The file name ending of what {@link #fast} writes for this file. */
    public static String fastExtension(Path file) {
        return Container.of(file).extension();
    }

    static MediaTime start(Span span) {
        Part part = span.part();
        return MediaTime.ofMicros(part.startUs() + part.index().startUs(span.first()));
    }

    static MediaTime end(Span span) {
        Part part = span.part();
        return MediaTime.ofMicros(part.startUs() + part.index().startUs(span.end()));
    }
}
