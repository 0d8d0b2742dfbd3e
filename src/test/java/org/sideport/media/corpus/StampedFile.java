package org.sideport.media.corpus;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_BITEXACT;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_CLOSED_GOP;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_GLOBAL_HEADER;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_FLAG_INTERLACED_DCT;
import static org.bytedeco.ffmpeg.global.avformat.AVFMT_GLOBALHEADER;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P10;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUVJ420P;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.UnaryOperator;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avutil.AVRational;

/**
 * Recipe of a small video whose pictures carry their number: which coder, which container, and when each picture is
 * shown. Written straight with FFmpeg's libraries; see {@link StampedMuxer}.
 */
public final class StampedFile {

    /** What is written of one packet; times in the encoder's ticks. {@code null} from a filter drops the packet. */
    public record Stamp(int number, long pts, long dts, boolean key) {}

    String coder = "libx264";
    String container = "mp4";
    int width = 160;
    int height = 120;
    int tickNum = 1;
    int tickDen = 25;
    int gop = 12;
    int bFrames;
    boolean closedGop = true;
    boolean interlaced;
    boolean tenBit;
    int sarNum = 1;
    int sarDen = 1;
    int rotation;
    long offset;
    double soundFrom;
    double soundLength;
    boolean cover;
    boolean video = true;
    boolean noisy;
    long scene = -1;
    int firstStamp;
    UnaryOperator<Stamp> filter = s -> s;
    final Map<String, String> coderOptions = new LinkedHashMap<>();
    final Map<String, String> containerOptions = new LinkedHashMap<>();
    final Map<String, String> tags = new LinkedHashMap<>();
    final List<Long> pts = new ArrayList<>();

    private StampedFile() {}

    /** {@code count} pictures at {@code rate} a second, one tick each. */
    public static StampedFile frames(int count, int rate) {
        StampedFile file = new StampedFile();
        file.tickDen = rate;
        for (long n = 0; n < count; n++) {
            file.pts.add(n);
        }
        return file;
    }

    /** Pictures shown at these ticks of {@code 1 / perSecond} s. */
    public static StampedFile at(int perSecond, long... ticks) {
        StampedFile file = new StampedFile();
        file.tickDen = perSecond;
        for (long tick : ticks) {
            file.pts.add(tick);
        }
        return file;
    }

    public StampedFile as(String newCoder, String newContainer) {
        coder = newCoder;
        container = newContainer;
        return this;
    }

    public StampedFile size(int newWidth, int newHeight) {
        width = newWidth;
        height = newHeight;
        return this;
    }

    public StampedFile ticks(int num, int den) {
        tickNum = num;
        tickDen = den;
        return this;
    }

    public StampedFile gop(int every) {
        gop = every;
        return this;
    }

    public StampedFile openGop() {
        closedGop = false;
        return this;
    }

    public StampedFile b(int number) {
        bFrames = number;
        return this;
    }

    public StampedFile interlaced() {
        interlaced = true;
        return this;
    }

    public StampedFile tenBit() {
        tenBit = true;
        return this;
    }

    public StampedFile pixels(int num, int den) {
        sarNum = num;
        sarDen = den;
        return this;
    }

    /** Clockwise degrees for the player to turn the pictures. */
    public StampedFile rotated(int degrees) {
        rotation = degrees;
        return this;
    }

    /** Added to all times as they are written, in the encoder's ticks. */
    public StampedFile offset(long ticks) {
        offset = ticks;
        return this;
    }

    public StampedFile sound(double from, double length) {
        soundFrom = from;
        soundLength = length;
        return this;
    }

    public StampedFile cover() {
        cover = true;
        return this;
    }

    public StampedFile noPictures() {
        video = false;
        return this;
    }

    /** Fills the pictures with noise, so that packets are large beside what the container adds. */
    public StampedFile noisy() {
        noisy = true;
        return this;
    }

    /**
     * Paints a soft pattern that moves on steadily with the number of the picture and does not come back, in place of the
     * number.
     *
     * @param seed another one is another scene
     */
    public StampedFile scene(long seed) {
        scene = seed;
        return this;
    }

    /** A tag of the container. */
    public StampedFile tag(String key, String value) {
        tags.put(key, value);
        return this;
    }

    /** The number in the first picture. */
    public StampedFile stampsFrom(int number) {
        firstStamp = number;
        return this;
    }

    public StampedFile filter(UnaryOperator<Stamp> newFilter) {
        filter = newFilter;
        return this;
    }

    public StampedFile coderOption(String key, String value) {
        coderOptions.put(key, value);
        return this;
    }

    public StampedFile option(String key, String value) {
        containerOptions.put(key, value);
        return this;
    }

    /** @return sizes of the packets in the order in which they were written, bytes */
    public List<Integer> write(Path target) throws IOException {
        return StampedMuxer.write(this, target);
    }

    void describe(AVCodecContext encoder, int containerFlags) {
        boolean jpeg = coder.equals("mjpeg");
        encoder.width(width)
                .height(height)
                .pix_fmt(tenBit ? AV_PIX_FMT_YUV420P10 : jpeg ? AV_PIX_FMT_YUVJ420P : AV_PIX_FMT_YUV420P);
        encoder.time_base(new AVRational().num(tickNum).den(tickDen));
        encoder.framerate(new AVRational().num(tickDen).den(tickNum));
        encoder.sample_aspect_ratio(new AVRational().num(sarNum).den(sarDen));
        encoder.gop_size(gop).max_b_frames(bFrames).thread_count(1);
        int flags = AV_CODEC_FLAG_BITEXACT;
        flags |= (containerFlags & AVFMT_GLOBALHEADER) != 0 ? AV_CODEC_FLAG_GLOBAL_HEADER : 0;
        flags |= closedGop && bFrames > 0 ? (int) AV_CODEC_FLAG_CLOSED_GOP : 0;
        flags |= interlaced ? AV_CODEC_FLAG_INTERLACED_DCT : 0;
        encoder.flags(flags);
        if (coder.equals("libx264")) {
            coderOptions.putIfAbsent("preset", "veryfast");
            coderOptions.putIfAbsent("crf", "20");
            coderOptions.putIfAbsent(
                    "x264-params",
                    "scenecut=0:b-adapt=0:keyint=" + gop + ":min-keyint=" + gop + (closedGop ? "" : ":open-gop=1"));
        } else if (coder.equals("libx265")) {
            coderOptions.putIfAbsent("preset", "ultrafast");
            coderOptions.putIfAbsent(
                    "x265-params",
                    "log-level=none:pools=none:frame-threads=1:scenecut=0:b-adapt=0:bframes=" + bFrames + ":keyint="
                            + gop + ":min-keyint=" + gop + ":open-gop=" + (closedGop ? 0 : 1));
        } else {
            encoder.bit_rate(600_000);
            // a finer scale than this cannot write the step from black to white in older coders
            encoder.qmin(8).qmax(10);
            coderOptions.putIfAbsent("sc_threshold", "1000000000");
        }
    }
}
