package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_DATA_DISPLAYMATRIX;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_side_data_get;
import static org.bytedeco.ffmpeg.global.avformat.AV_DISPOSITION_ATTACHED_PIC;
import static org.bytedeco.ffmpeg.global.avformat.av_guess_sample_aspect_ratio;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_close_input;
import static org.bytedeco.ffmpeg.global.avformat.avformat_find_stream_info;
import static org.bytedeco.ffmpeg.global.avformat.avformat_open_input;
import static org.bytedeco.ffmpeg.global.avformat.avio_feof;
import static org.bytedeco.ffmpeg.global.avutil.AVERROR_EOF;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_AUDIO;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_VIDEO;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_display_rotation_get;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avcodec.AVPacketSideData;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVInputFormat;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.ffmpeg.global.avcodec;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.IntPointer;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.dicom.DicomVideo;

/** An opened media file with its video stream chosen. Thread-confined; must be closed. */
public final class MediaInput implements AutoCloseable {

    private static final int MIN_HEAD = 12;

    private static final int EINVAL = -22;

    /** Reading goes on after so many faults in a row. */
    private static final int RETRIES = 100;

    /** Containers of moving pictures that hold all they show themselves. */
    private static final String FORMATS =
            "mov,mp4,m4a,3gp,3g2,mj2,matroska,webm,avi,mpegts,mpeg,mpegvideo,m4v,h264,hevc,"
                    + "vvc,vc1,vc1test,av1,obu,ivf,h263,h261,asf,flv,mxf,gxf,dv,ogg,nut,rm,wtv,dirac,mjpeg,mjpeg_2000,yuv4mpegpipe";

    private static final Set<String> BARE_STREAMS = Set.of("h264", "hevc", "m4v", "mpegvideo", "vc1");

    private final Path file;
    private final AVFormatContext context;
    private final AVStream video;
    private final @Nullable DicomVideo dicom;
    private final @Nullable RangeInput ranges;

    private MediaInput(
            Path file,
            AVFormatContext context,
            AVStream video,
            @Nullable DicomVideo dicom,
            @Nullable RangeInput ranges) {
        this.file = file;
        this.context = context;
        this.video = video;
        this.dicom = dicom;
        this.ranges = ranges;
    }

    /**
     * @throws MediaException if the file is missing, empty, unfinished, unreadable or holds no moving picture
     */
    public static MediaInput open(Path file) {
        Ffmpeg.quiet();
        requireContent(file);
        DicomVideo dicom = DicomVideo.find(file);
        RangeInput ranges = dicom == null ? null : RangeInput.open(dicom.stream());
        boolean done = false;
        try {
            MediaInput input = open(file, dicom, ranges);
            done = true;
            return input;
        } finally {
            if (!done && ranges != null) {
                ranges.close();
            }
        }
    }

    private static MediaInput open(Path file, @Nullable DicomVideo dicom, @Nullable RangeInput ranges) {
        AVFormatContext context = ranges == null ? new AVFormatContext(null) : avformat_alloc_context();
        if (ranges != null) {
            context.pb(ranges.io());
        }
        try (BytePointer url = Ffmpeg.url(file)) {
            AVDictionary options = new AVDictionary(null);
            // transport streams: look for the next good packet however far damage reaches
            av_dict_set(options, "resync_size", Integer.toString(Integer.MAX_VALUE), 0);
            // formats that name further files would be read from wherever they point to
            av_dict_set(options, "format_whitelist", FORMATS, 0);
            av_dict_set(options, "protocol_whitelist", "file", 0);
            int code = avformat_open_input(context, ranges == null ? url : null, (AVInputFormat) null, options);
            av_dict_free(options);
            if (code < 0) {
                throw cannotOpen(file, dicom, code);
            }
        }
        int code = avformat_find_stream_info(context, (AVDictionary) null);
        AVStream video = code < 0 ? null : firstVideo(context);
        // A still picture or a subtitle file opens too; a recording has a picture size and more than one moment.
        if (video == null || video.codecpar().width() <= 0 || isStillFormat(context)) {
            avformat_close_input(context);
            throw new MediaException(
                    Reason.NO_VIDEO, "there is no video in this file", file.toString(), "choose the recording itself");
        }
        long pixels = (long) video.codecpar().width() * video.codecpar().height();
        if (pixels > Ffmpeg.MOST_PIXELS) {
            String size = video.codecpar().width() + "×" + video.codecpar().height();
            avformat_close_input(context);
            throw new MediaException(
                    Reason.UNREADABLE,
                    "the file claims pictures of " + size + " pixels",
                    file.toString(),
                    "convert it to 4K or less if that is true; else the file is damaged");
        }
        for (int i = 0; i < context.nb_streams(); i++) {
            if (i != video.index()) {
                context.streams(i).discard(avcodec.AVDISCARD_ALL);
            }
        }
        return new MediaInput(file, context, video, dicom, ranges);
    }

    private static void requireContent(Path file) {
        if (!Files.exists(file)) {
            throw new MediaException(
                    Reason.NOT_FOUND, "no such file", file.toString(), "check the path, or connect the drive it is on");
        }
        if (!Files.isRegularFile(file)) {
            throw new MediaException(
                    Reason.UNREADABLE, "this is not a file", file.toString(), "name the video files themselves");
        }
        if (!Files.isReadable(file)) {
            throw new MediaException(
                    Reason.UNREADABLE, "the file may not be read", file.toString(), "ask for read permission");
        }
        try {
            if (Files.size(file) == 0) {
                throw new MediaException(
                        Reason.EMPTY, "the file is empty", file.toString(), "copy it again from the recorder");
            }
        } catch (IOException e) {
            throw new MediaException(Reason.UNREADABLE, "cannot be read: " + e, file.toString(), null);
        }
    }

    private static MediaException cannotOpen(Path file, @Nullable DicomVideo dicom, int code) {
        if (looksLikeMp4(file, dicom)) {
            return new MediaException(
                    Reason.UNFINISHED,
                    "the recorder never closed this file: its table of contents (moov) is missing",
                    file.toString(),
                    "copy it again from the recorder; if it is the same there, the recorder's own repair is needed");
        }
        return new MediaException(
                Reason.NO_VIDEO,
                "this is no video that can be read" + (code == EINVAL ? "" : " (" + Ffmpeg.errorText(code) + ")"),
                file.toString(),
                "choose the recording itself");
    }

    private static boolean looksLikeMp4(Path file, @Nullable DicomVideo dicom) {
        long start = dicom == null ? 0 : dicom.stream().ranges().get(0).start();
        try (InputStream in = Files.newInputStream(file)) {
            in.skipNBytes(start);
            byte[] head = in.readNBytes(MIN_HEAD);
            String box = head.length < MIN_HEAD ? "" : new String(head, 4, 4, StandardCharsets.ISO_8859_1);
            return box.equals("ftyp") || box.equals("mdat") || box.equals("wide") || box.equals("free");
        } catch (IOException e) {
            return false;
        }
    }

    private static @Nullable AVStream firstVideo(AVFormatContext context) {
        for (int i = 0; i < context.nb_streams(); i++) {
            AVStream stream = context.streams(i);
            boolean cover = (stream.disposition() & AV_DISPOSITION_ATTACHED_PIC) != 0;
            if (stream.codecpar().codec_type() == AVMEDIA_TYPE_VIDEO && !cover) {
                return stream;
            }
        }
        return null;
    }

    private static boolean isStillFormat(AVFormatContext context) {
        String format = context.iformat().name().getString();
        return format.endsWith("_pipe") || format.equals("image2") || format.equals("tty");
    }

    /**
     * Reads the next packet of any stream, past damage where the format can.
     *
     * @return 0, or one of FFmpeg's error numbers: at the end {@code AVERROR_EOF}
     */
    int read(AVPacket packet) {
        int code = av_read_frame(context, packet);
        for (int i = 0; i < RETRIES && code < 0 && code != AVERROR_EOF && avio_feof(context.pb()) == 0; i++) {
            code = av_read_frame(context, packet);
        }
        return code;
    }

    public Path file() {
        return file;
    }

    public AVFormatContext context() {
        return context;
    }

    public AVStream video() {
        return video;
    }

    public TimeBase timeBase() {
        AVRational base = video.time_base();
        return new TimeBase(base.num(), base.den());
    }

    public String formatName() {
        return context.iformat().name().getString();
    }

    /** Program and transport streams: what recorders and joins leave behind may restart their clock. */
    boolean clockMayJump() {
        String format = formatName();
        return format.equals("mpeg") || format.equals("mpegts");
    }

    /** Formats in which packets commonly have no presentation time, or hold a field instead of a frame. */
    boolean needsHeaders() {
        return clockMayJump() || formatName().equals("avi") || isBareStream();
    }

    /** Coded pictures without a container. */
    boolean isBareStream() {
        return BARE_STREAMS.contains(formatName());
    }

    /** True if only a seek by bytes lands where it should. */
    boolean seeksByBytes() {
        return clockMayJump() || isBareStream();
    }

    public boolean hasAudio() {
        for (int i = 0; i < context.nb_streams(); i++) {
            if (context.streams(i).codecpar().codec_type() == AVMEDIA_TYPE_AUDIO) {
                return true;
            }
        }
        return false;
    }

    /** Width of a pixel to its height; 1:1 where the file does not say. */
    public AVRational sampleAspect() {
        AVRational aspect = av_guess_sample_aspect_ratio(context, video, null);
        return aspect.num() <= 0 || aspect.den() <= 0 ? new AVRational().num(1).den(1) : aspect;
    }

    /** Clockwise degrees to turn the coded picture for display: 0, 90, 180 or 270. */
    public int rotation() {
        AVPacketSideData matrix = av_packet_side_data_get(
                video.codecpar().coded_side_data(), video.codecpar().nb_coded_side_data(), AV_PKT_DATA_DISPLAYMATRIX);
        if (matrix == null || matrix.isNull()) {
            return 0;
        }
        double counterClockwise = av_display_rotation_get(new IntPointer(matrix.data()));
        if (Double.isNaN(counterClockwise)) {
            return 0;
        }
        int quarters = (int) Math.round(-counterClockwise / 90);
        return Math.floorMod(quarters, 4) * 90;
    }

    /** The DICOM object around the stream; {@code null} for a plain file. */
    public @Nullable DicomVideo dicom() {
        return dicom;
    }

    @Override
    public void close() {
        avformat_close_input(context);
        if (ranges != null) {
            ranges.close();
        }
    }
}
