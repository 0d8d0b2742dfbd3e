package org.sideport.media.join;

import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.sideport.media.Damage;
import org.sideport.media.FrameIndex;
import org.sideport.media.MediaInput;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.ProbedFile;
import org.sideport.model.Progress;

/**
 * What a file shows and says at its two ends, by which files of one recording are compared. Immutable; equal only to
 * itself.
 */
public final class FileEnds {

    private static final long TELLING_US = 5_000_000;

    private final Path file;
    private final long size;
    private final FrameIndex index;
    private final FileClocks clocks;
    private final EndPictures pictures;
    private final boolean endsBroken;

    private FileEnds(
            Path file, long size, FrameIndex index, FileClocks clocks, EndPictures pictures, boolean endsBroken) {
        this.file = file;
        this.size = size;
        this.index = index;
        this.clocks = clocks;
        this.pictures = pictures;
        this.endsBroken = endsBroken;
    }

    /**
     * Decodes some pictures at both ends.
     *
     * @throws org.sideport.media.MediaException if the file cannot be opened any more
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static FileEnds read(ProbedFile probed, Progress progress) {
        Path file = probed.segment().file();
        progress.report(0, "Comparing the ends of " + file.getFileName());
        try (MediaInput input = MediaInput.open(file)) {
            boolean broken = probed.warnings().stream().anyMatch(w -> w.code() == Code.CUT_SHORT)
                    || probed.damage().stream()
                            .anyMatch(d -> d.kind() == Damage.Kind.ZERO_TAIL
                                    || d.spoiledToUs() >= probed.index().durationUs());
            return new FileEnds(
                    file,
                    probed.segment().size(),
                    probed.index(),
                    FileClocks.of(input),
                    EndPictures.read(input, probed.index(), progress),
                    broken);
        }
    }

    String name() {
        return String.valueOf(file.getFileName());
    }

    long size() {
        return size;
    }

    FileClocks clocks() {
        return clocks;
    }

    /** When the file was changed last; {@code null} where files are so short that it says nothing of their order. */
    @Nullable
    Long modifiedUs() {
        return durationUs() < TELLING_US ? null : clocks.modifiedUs();
    }

    EndPictures pictures() {
        return pictures;
    }

    /** It was not closed as it should, or its end is damaged. */
    boolean endsBroken() {
        return endsBroken;
    }

    /** Its first pictures lean on others that are not there. */
    boolean startsMidway() {
        return index.startsMidway();
    }

    /** In the file's own clock. */
    long firstUs() {
        return index.firstUs();
    }

    /** When its last picture leaves the screen, in the file's own clock. */
    long endUs() {
        return index.firstUs() + index.durationUs();
    }

    long durationUs() {
        return index.durationUs();
    }

    /** How long a frame lasts on average. */
    long frameUs() {
        return index.durationUs() / index.size();
    }

    /** How long its first frames last together. */
    long lengthOfFirst(int frames) {
        return index.startUs(frames);
    }
}
