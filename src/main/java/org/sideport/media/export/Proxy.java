package org.sideport.media.export;

import java.nio.file.Path;
import java.util.List;
import org.sideport.model.Progress;

/** A smaller copy of a recording, in one file, for slow machines: every frame at the same time as in the recording. */
public final class Proxy {

    public static final int DEFAULT_HEIGHT = 360;

    private static final int SMALLEST = 64;
    private static final int LARGEST = 4320;
    private static final int QUALITY = 26;

    private Proxy() {}

    /**
     * @param width coded pixels
     * @param lost frames that damage has swallowed in the original
     */
    public record Result(Path file, long frames, long lost, long durationUs, int width, int height, boolean sound) {}

    /**
     * @param files of one recording, in order
     * @param height coded rows, 64 to 4320; a smaller picture keeps its size
     * @throws org.sideport.model.InputException if a file cannot be read, or the target exists
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public static Result write(
            List<Path> files, int height, boolean withSound, Path out, boolean replace, Progress progress) {
        if (height < SMALLEST || height > LARGEST) {
            throw new org.sideport.model.InputException(
                    "a height of " + height + " pixels is no use", null, "choose " + SMALLEST + " to " + LARGEST);
        }
        OutputFile.guard(out, replace, files);
        SourceFiles source = SourceFiles.open(files, progress.part(0, 0.1));
        Encoding small = new Encoding("veryfast", QUALITY, 1, height);
        try (OutputFile file = OutputFile.create(out, "mp4", replace, files)) {
            Transcode.Written written = Transcode.run(
                    source.whole(),
                    file,
                    small,
                    withSound,
                    FrameEdit.NONE,
                    "Writing the small copy",
                    progress.part(0.1, 1));
            file.commit();
            progress.report(1, "Written");
            return new Result(
                    file.target(),
                    written.frames(),
                    written.lost(),
                    written.durationUs(),
                    written.width(),
                    written.height(),
                    written.sound());
        }
    }
}
