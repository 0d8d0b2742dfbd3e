package org.sideport.media.export;

import java.util.List;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexer;
import org.sideport.media.MediaInput;
import org.sideport.media.export.SourceFiles.Part;
import org.sideport.media.export.SourceFiles.Span;
import org.sideport.model.Progress;

/**
 * Looks at a masked copy beside its recording, frame by frame: where it is masked it must show what was painted, and not
 * what the recording shows there.
 */
final class MaskCheck {

    /** Mean difference of brightness, of 255, that compression may make in a masked area. */
    private static final double TOLERATED = 10;

    /** From this mean difference on a mask changes an area at all: black over black cannot be told apart. */
    private static final double TELLING = 12;

    private final OutputFile file;
    private final Masker masker;
    private final int width;
    private final int height;

    private MaskCheck(OutputFile file, Masker masker, int width, int height) {
        this.file = file;
        this.masker = masker;
        this.width = width;
        this.height = height;
    }

    /**
     * @return number of masked frames
     * @throws org.sideport.model.InputException if an area is not hidden in some frame
     */
    static long run(List<Span> spans, OutputFile file, Masker masker, int width, int height, Progress progress) {
        return new MaskCheck(file, masker, width, height).check(spans, progress);
    }

    private long check(List<Span> spans, Progress progress) {
        long masked = 0;
        long done = 0;
        try (FrameFeed copy = FrameFeed.open(wholeCopy());
                FrameShaper copyShape = new FrameShaper(width, height, file.target());
                FrameShaper sourceShape = new FrameShaper(width, height, file.target())) {
            for (Span span : spans) {
                try (FrameFeed source = FrameFeed.open(span)) {
                    for (AVFrame frame = source.next(); frame != null; frame = source.next()) {
                        progress.check();
                        progress.report(Math.min(0.999, ++done / (double) copyFrames), "Checking the mask");
                        AVFrame written = copy.next();
                        if (written == null) {
                            throw Faults.notFaithful(file.target(), "it ends before the recording");
                        }
                        Part part = span.part();
                        long us = part.startUs() + part.index().startUs(source.number());
                        List<CodedBox> boxes = masker.at(us);
                        if (!boxes.isEmpty()) {
                            masked++;
                            compare(
                                    boxes,
                                    sourceShape.shape(frame, file.target()),
                                    copyShape.shape(written, file.target()),
                                    us);
                        }
                    }
                }
            }
        }
        return masked;
    }

    private long copyFrames = 1;

    private Span wholeCopy() {
        try (MediaInput input = Inputs.open(file.partial())) {
            FrameIndex index = FrameIndexer.index(input, Progress.NONE);
            copyFrames = index.size();
            Part part = new Part(file.partial(), index, 0, 0, width, height, 1, 1, 0, 0, 0);
            return new Span(part, 0, index.size());
        }
    }

    private void compare(List<CodedBox> boxes, AVFrame source, AVFrame copy, long us) {
        List<byte[]> original = boxes.stream().map(b -> luma(source, b)).toList();
        masker.apply(source, us);
        for (int i = 0; i < boxes.size(); i++) {
            byte[] seen = luma(copy, boxes.get(i));
            byte[] painted = luma(source, boxes.get(i));
            double fromPainted = difference(seen, painted);
            boolean shows =
                    difference(original.get(i), painted) > TELLING && difference(seen, original.get(i)) < fromPainted;
            if (fromPainted > TOLERATED || shows) {
                throw Faults.notFaithful(file.target(), "an area is not hidden at " + us / 1e6 + " s");
            }
        }
    }

    private static byte[] luma(AVFrame picture, CodedBox box) {
        return Masker.read(picture, Masker.patches(box).get(0));
    }

    /** Mean absolute difference of brightness. */
    private static double difference(byte[] a, byte[] b) {
        long sum = 0;
        for (int i = 0; i < a.length; i++) {
            sum += Math.abs((a[i] & 0xFF) - (b[i] & 0xFF));
        }
        return sum / (double) a.length;
    }
}
