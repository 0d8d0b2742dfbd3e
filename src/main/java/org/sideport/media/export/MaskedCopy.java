package org.sideport.media.export;

import java.nio.file.Path;
import java.util.List;
import org.sideport.media.export.SourceFiles.Part;
import org.sideport.media.export.SourceFiles.Span;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.Progress;

/**
 * A copy of a recording in which areas are hidden, such as a name burnt into the picture. It is encoded anew, so nothing
 * of what lay under the mask is in it; every frame keeps its time. Sound, in which people speak, is left out unless asked
 * for.
 */
public final class MaskedCopy {

    private MaskedCopy() {}

    /** How areas are hidden. */
    public enum Style {
        FILL,
        /** gentler to look at; black hides more surely, above all large letters */
        BLUR
    }

    /**
     * @param masked frames in which an area is hidden
     * @param lost frames that damage has swallowed in the original
     */
    public record Result(Path file, long frames, long masked, long lost, long durationUs, boolean sound) {}

    /**
     * @param files of one recording, in order; the copy is one file
     * @param areas at least one
     * @throws InputException if a file cannot be read, an area lies outside the picture, the target exists, or the
     *     check of the written file finds an area not hidden
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public static Result write(
            List<Path> files,
            List<MaskArea> areas,
            Style style,
            boolean withSound,
            Path out,
            boolean replace,
            Progress progress) {
        if (areas.isEmpty()) {
            throw new InputException("there is no area to hide", null, "name at least one with --area");
        }
        OutputFile.guard(out, replace, files);
        SourceFiles source = SourceFiles.open(files, progress.part(0, 0.1));
        List<Span> spans = source.whole();
        SourceFiles.requireOneShape(spans);
        Part first = source.first();
        int width = Encoding.FAITHFUL.width(first);
        int height = Encoding.FAITHFUL.height(first);
        Masker masker = new Masker(areas, style == Style.BLUR, first, width, height);
        requireWithin(areas, source);
        try (OutputFile file = OutputFile.create(out, "mp4", replace, files)) {
            Transcode.Written written = Transcode.run(
                    spans, file, Encoding.FAITHFUL, withSound, masker, "Masking", progress.part(0.1, 0.75));
            long masked = MaskCheck.run(spans, file, masker, width, height, progress.part(0.75, 1));
            progress.check();
            file.commit();
            progress.report(1, "Masked");
            return new Result(
                    file.target(), written.frames(), masked, written.lost(), written.durationUs(), written.sound());
        }
    }

    private static void requireWithin(List<MaskArea> areas, SourceFiles source) {
        for (MaskArea area : areas) {
            if (area.from().micros() >= source.durationUs()) {
                throw new InputException(
                        "the recording ends at " + source.durationUs() / 1e6
                                + " s, before an area is to be hidden from "
                                + area.from().toSecondsText() + " s on",
                        source.first().file().toString(),
                        "choose an earlier time");
            }
        }
    }
}
