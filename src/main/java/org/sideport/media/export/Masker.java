package org.sideport.media.export;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.javacpp.BytePointer;
import org.sideport.media.export.SourceFiles.Part;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;

/** Hides areas of 8-bit 4:2:0 pictures, by black or by a blur that mixes nothing but the area's own pixels. */
final class Masker implements FrameEdit {

    /** One plane of one box: which bytes of the frame. */
    record Patch(int plane, int left, int top, int width, int height) {}

    /** Black of the usual limited range (ITU-R BT.601); where the full range is used, hardly brighter than black. */
    private static final int BLACK = 16;

    private static final int GREY = 128;
    private static final int BLUR_PASSES = 3;
    private static final int LEAST_RADIUS = 8;

    private final List<MaskArea> areas;
    private final List<CodedBox> boxes = new ArrayList<>();
    private final boolean blur;

    /** @throws InputException if an area lies outside the picture */
    Masker(List<MaskArea> areas, boolean blur, Part part, int width, int height) {
        this.areas = List.copyOf(areas);
        this.blur = blur;
        for (MaskArea area : areas) {
            CodedBox box = CodedBox.of(area, part, width, height);
            if (box == null) {
                throw new InputException(
                        "the area " + area.x() + "," + area.y() + "," + area.width() + "," + area.height()
                                + " lies outside the picture",
                        part.file().toString(),
                        "measure it from the top left corner of the picture as it is shown");
            }
            boxes.add(box);
        }
    }

    @Override
    public void apply(AVFrame picture, long us) {
        for (CodedBox box : at(us)) {
            for (Patch patch : patches(box)) {
                byte[] pixels = blur ? blurred(read(picture, patch), patch) : filled(patch);
                write(picture, patch, pixels);
            }
        }
    }

    /** The boxes that are hidden at a time. */
    List<CodedBox> at(long us) {
        List<CodedBox> found = new ArrayList<>();
        for (int i = 0; i < areas.size(); i++) {
            if (areas.get(i).covers(us)) {
                found.add(boxes.get(i));
            }
        }
        return found;
    }

    static List<Patch> patches(CodedBox box) {
        List<Patch> patches = new ArrayList<>();
        patches.add(new Patch(0, box.left(), box.top(), box.width(), box.height()));
        for (int plane = 1; plane <= 2; plane++) {
            patches.add(new Patch(plane, box.left() / 2, box.top() / 2, box.width() / 2, box.height() / 2));
        }
        return patches;
    }

    static byte[] read(AVFrame picture, Patch patch) {
        byte[] pixels = new byte[patch.width() * patch.height()];
        BytePointer data = picture.data(patch.plane());
        long stride = picture.linesize(patch.plane());
        for (int y = 0; y < patch.height(); y++) {
            data.position((patch.top() + y) * stride + patch.left()).get(pixels, y * patch.width(), patch.width());
        }
        return pixels;
    }

    private static void write(AVFrame picture, Patch patch, byte[] pixels) {
        BytePointer data = picture.data(patch.plane());
        long stride = picture.linesize(patch.plane());
        for (int y = 0; y < patch.height(); y++) {
            data.position((patch.top() + y) * stride + patch.left()).put(pixels, y * patch.width(), patch.width());
        }
    }

    private static byte[] filled(Patch patch) {
        byte[] pixels = new byte[patch.width() * patch.height()];
        Arrays.fill(pixels, (byte) (patch.plane() == 0 ? BLACK : GREY));
        return pixels;
    }

    /**
     * Three running means each way, which come close to a Gaussian, over a quarter of the area's shorter side: letters
     * that fill an area are gone.
     */
    private static byte[] blurred(byte[] pixels, Patch patch) {
        int radius = Math.max(
                patch.plane() == 0 ? LEAST_RADIUS : LEAST_RADIUS / 2, Math.min(patch.width(), patch.height()) / 4);
        byte[] from = pixels;
        for (int pass = 0; pass < BLUR_PASSES; pass++) {
            from = mean(from, patch.height(), patch.width(), patch.width(), 1, radius);
            from = mean(from, patch.width(), patch.height(), 1, patch.width(), radius);
        }
        return from;
    }

    /** A running mean along lines; beyond a line's ends its last pixels go on. */
    private static byte[] mean(byte[] in, int lines, int length, int lineStep, int step, int radius) {
        byte[] out = new byte[in.length];
        int window = 2 * radius + 1;
        for (int line = 0; line < lines; line++) {
            int start = line * lineStep;
            int sum = 0;
            for (int i = -radius; i <= radius; i++) {
                sum += at(in, start, step, i, length);
            }
            for (int i = 0; i < length; i++) {
                out[start + i * step] = (byte) ((sum + radius) / window);
                sum += at(in, start, step, i + radius + 1, length) - at(in, start, step, i - radius, length);
            }
        }
        return out;
    }

    private static int at(byte[] in, int start, int step, int i, int length) {
        return in[start + Math.max(0, Math.min(length - 1, i)) * step] & 0xFF;
    }
}
