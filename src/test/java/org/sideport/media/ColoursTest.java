package org.sideport.media;

import static org.assertj.core.api.Assertions.assertThat;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_JPEG;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_MPEG;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_SPC_BT2020_NCL;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_SPC_BT709;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_SPC_SMPTE170M;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_BGRA;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P10;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV422P;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV422P10;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV444P;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_get_buffer;
import static org.bytedeco.ffmpeg.global.swscale.SWS_ACCURATE_RND;
import static org.bytedeco.ffmpeg.global.swscale.SWS_BICUBIC;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_BT2020;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_ITU601;
import static org.bytedeco.ffmpeg.global.swscale.SWS_CS_ITU709;
import static org.bytedeco.ffmpeg.global.swscale.SWS_FULL_CHR_H_INT;
import static org.bytedeco.ffmpeg.global.swscale.sws_freeContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_getCoefficients;
import static org.bytedeco.ffmpeg.global.swscale.sws_getContext;
import static org.bytedeco.ffmpeg.global.swscale.sws_scale;
import static org.bytedeco.ffmpeg.global.swscale.sws_setColorspaceDetails;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.swscale.SwsContext;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.DoublePointer;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/** Colours against the published equations in double precision, and against FFmpeg's scaler at its most accurate. */
class ColoursTest {

    /**
     * Signals beyond this, twice the light of white, overflow in FFmpeg's scaler, also in its most accurate mode: blue of
     * Y 250, Cb 243 becomes 0. They lie outside what BT.709-6 3.4 lets a camera send.
     */
    private static final double LARGEST = 1.99;

    /**
     * @param format FFmpeg's number
     * @param chromaX luma samples across to one of colour
     * @param kr weight of red in luma, {@code kb} of blue: ITU-R BT.601-7 2.5.1 (0.299, 0.114), BT.709-6 3.2 (0.2126,
     *     0.0722), BT.2020-2 table 4 (0.2627, 0.0593)
     */
    record Kind(
            String name,
            int format,
            int bits,
            int chromaX,
            int chromaY,
            boolean full,
            int space,
            int coefficients,
            double kr,
            double kb) {
        @Override
        public String toString() {
            return name;
        }
    }

    static List<Kind> kinds() {
        List<Kind> kinds = new ArrayList<>();
        for (boolean full : new boolean[] {false, true}) {
            for (int matrix = 0; matrix < 3; matrix++) {
                int space = new int[] {AVCOL_SPC_SMPTE170M, AVCOL_SPC_BT709, AVCOL_SPC_BT2020_NCL}[matrix];
                int table = new int[] {SWS_CS_ITU601, SWS_CS_ITU709, SWS_CS_BT2020}[matrix];
                double kr = new double[] {0.299, 0.2126, 0.2627}[matrix];
                double kb = new double[] {0.114, 0.0722, 0.0593}[matrix];
                String rest =
                        " " + new String[] {"BT.601", "BT.709", "BT.2020"}[matrix] + (full ? " full" : " limited");
                kinds.add(new Kind("4:2:0" + rest, AV_PIX_FMT_YUV420P, 8, 2, 2, full, space, table, kr, kb));
                kinds.add(new Kind("4:2:2" + rest, AV_PIX_FMT_YUV422P, 8, 2, 1, full, space, table, kr, kb));
                kinds.add(new Kind("4:4:4" + rest, AV_PIX_FMT_YUV444P, 8, 1, 1, full, space, table, kr, kb));
                kinds.add(new Kind("10-bit 4:2:0" + rest, AV_PIX_FMT_YUV420P10, 10, 2, 2, full, space, table, kr, kb));
                kinds.add(new Kind("10-bit 4:2:2" + rest, AV_PIX_FMT_YUV422P10, 10, 2, 1, full, space, table, kr, kb));
            }
        }
        return kinds;
    }

    /**
     * Even areas of many colours. Digital values to signals: limited range {@code Y' = (Y/2^(n-8) - 16)/219}, {@code C' =
     * (C/2^(n-8) - 128)/224} (BT.601-7 2.5.3, BT.709-6 3.4); full range {@code Y' = Y/(2^n - 1)}, {@code C' = (C - 2^(n-1)) /
     * (2^n - 1)} (BT.2100-2 table 9). Back to red, green and blue by solving {@code Y' = Kr R + Kg G + Kb B},
     * {@code Cb = (B - Y')/(2 (1 - Kb))}, {@code Cr = (R - Y')/(2 (1 - Kr))}.
     */
    @ParameterizedTest
    @MethodSource("kinds")
    void evenColoursAreWithinOneLevelOfThePublishedEquations(Kind kind) {
        int top = (1 << kind.bits()) - 1;
        AVFrame frame = frame(kind, 64, 32);
        Random random = new Random(3);
        int compared = 0;
        try (PictureConverter converter = new PictureConverter(1, 0)) {
            for (int i = 0; i < 150; i++) {
                int y = i < 2 ? i * top : random.nextInt(top + 1);
                int cb = random.nextInt(top + 1);
                int cr = random.nextInt(top + 1);
                fill(kind, frame, (plane, px, py) -> plane == 0 ? y : plane == 1 ? cb : cr);
                byte[] bgra = converter.convert(frame).bgra();
                double[] signals = published(kind, y, cb, cr);
                if (signals[0] > LARGEST || signals[1] > LARGEST || signals[2] > LARGEST) {
                    continue;
                }
                double[] rgb = {level(signals[0]), level(signals[1]), level(signals[2])};
                compared++;
                int at = (16 * 64 + 32) * 4;
                String what = "Y " + y + " Cb " + cb + " Cr " + cr;
                assertThat((double) (bgra[at] & 255)).as("blue of " + what).isBetween(rgb[2] - 1.5, rgb[2] + 1.5);
                assertThat((double) (bgra[at + 1] & 255)).as("green of " + what).isBetween(rgb[1] - 1.5, rgb[1] + 1.5);
                assertThat((double) (bgra[at + 2] & 255)).as("red of " + what).isBetween(rgb[0] - 1.5, rgb[0] + 1.5);
                assertThat(bgra[at + 3]).isEqualTo((byte) 255);
            }
            assertThat(compared).isGreaterThan(120);
        } finally {
            av_frame_free(frame);
        }
    }

    private static double[] published(Kind kind, int y, int cb, int cr) {
        double unit = 1 << (kind.bits() - 8);
        double top = (1 << kind.bits()) - 1;
        double luma = kind.full() ? y / top : (y / unit - 16) / 219;
        double middle = 1 << (kind.bits() - 1);
        double b = kind.full() ? (cb - middle) / top : (cb - middle) / unit / 224;
        double r = kind.full() ? (cr - middle) / top : (cr - middle) / unit / 224;
        double red = luma + 2 * (1 - kind.kr()) * r;
        double blue = luma + 2 * (1 - kind.kb()) * b;
        double green = (luma - kind.kr() * red - kind.kb() * blue) / (1 - kind.kr() - kind.kb());
        return new double[] {red, green, blue};
    }

    private static double level(double signal) {
        return 255 * Math.max(0, Math.min(1, signal));
    }

    /** Edges and slopes of colour, where the way of interpolating counts. */
    @ParameterizedTest
    @MethodSource("kinds")
    void edgesAreWithinTwoLevelsOfTheMostAccurateConversion(Kind kind) {
        int width = 128;
        int height = 64;
        int top = (1 << kind.bits()) - 1;
        AVFrame frame = frame(kind, width, height);
        fill(kind, frame, (plane, px, py) -> {
            boolean box = (px / 7 + py / 5) % 2 == 0;
            return plane == 0 ? top * (px + py) / 200 : box ? top * (3 + plane) / 8 : top * px / width;
        });
        try (PictureConverter converter = new PictureConverter(1, 0)) {
            byte[] ours = converter.convert(frame).bgra();
            byte[] reference = reference(kind, frame);
            int worst = 0;
            for (int i = 0; i < ours.length; i++) {
                worst = Math.max(worst, Math.abs((ours[i] & 255) - (reference[i] & 255)));
            }
            assertThat(worst).isLessThanOrEqualTo(2);
        } finally {
            av_frame_free(frame);
        }
    }

    private static byte[] reference(Kind kind, AVFrame frame) {
        int width = frame.width();
        int height = frame.height();
        SwsContext context = sws_getContext(
                width,
                height,
                kind.format(),
                width,
                height,
                AV_PIX_FMT_BGRA,
                SWS_BICUBIC | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT,
                null,
                null,
                (DoublePointer) null);
        sws_setColorspaceDetails(
                context,
                sws_getCoefficients(kind.coefficients()),
                kind.full() ? 1 : 0,
                sws_getCoefficients(SWS_CS_ITU601),
                1,
                0,
                1 << 16,
                1 << 16);
        AVFrame out = av_frame_alloc();
        out.format(AV_PIX_FMT_BGRA).width(width).height(height);
        av_frame_get_buffer(out, 0);
        sws_scale(context, frame.data(), frame.linesize(), 0, height, out.data(), out.linesize());
        byte[] bgra = new byte[width * height * 4];
        for (int row = 0; row < height; row++) {
            out.data(0).position((long) row * out.linesize(0)).get(bgra, row * width * 4, width * 4);
        }
        av_frame_free(out);
        sws_freeContext(context);
        return bgra;
    }

    private static AVFrame frame(Kind kind, int width, int height) {
        AVFrame frame = av_frame_alloc();
        frame.format(kind.format()).width(width).height(height);
        frame.colorspace(kind.space());
        frame.color_range(kind.full() ? AVCOL_RANGE_JPEG : AVCOL_RANGE_MPEG);
        av_frame_get_buffer(frame, 0);
        return frame;
    }

    private interface Samples {
        int at(int plane, int x, int y);
    }

    private static void fill(Kind kind, AVFrame frame, Samples samples) {
        for (int plane = 0; plane < 3; plane++) {
            int width = frame.width() / (plane == 0 ? 1 : kind.chromaX());
            int height = frame.height() / (plane == 0 ? 1 : kind.chromaY());
            int bytes = kind.bits() > 8 ? 2 : 1;
            BytePointer data = frame.data(plane);
            byte[] row = new byte[width * bytes];
            for (int y = 0; y < height; y++) {
                for (int x = 0; x < width; x++) {
                    int value = samples.at(plane, x, y);
                    row[x * bytes] = (byte) value;
                    if (bytes == 2) {
                        row[x * 2 + 1] = (byte) (value >> 8);
                    }
                }
                data.position((long) y * frame.linesize(plane)).put(row, 0, row.length);
            }
        }
    }
}
