package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_H264;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_HEVC;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MPEG1VIDEO;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MPEG2VIDEO;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MPEG4;
import static org.bytedeco.ffmpeg.global.avformat.av_guess_format;
import static org.bytedeco.ffmpeg.global.avformat.avformat_query_codec;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_AUDIO;

import java.nio.file.Path;
import java.util.Set;
import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
import org.bytedeco.ffmpeg.avformat.AVOutputFormat;
import org.sideport.media.MediaInput;

/**
 * The container into which a file's packets are copied: its own kind wherever FFmpeg writes it well, since other kinds
 * would have to change the packets.
 *
 * @param muxer FFmpeg's name
 * @param extension with the dot
 */
record Container(String muxer, String extension) {

    static final Container MP4 = new Container("mp4", ".mp4");
    static final Container MOV = new Container("mov", ".mov");
    static final Container MATROSKA = new Container("matroska", ".mkv");
    static final Container TRANSPORT = new Container("mpegts", ".ts");
    static final Container AVI = new Container("avi", ".avi");

    static Container of(Path file) {
        try (MediaInput input = MediaInput.open(file)) {
            return of(input);
        }
    }

    static Container of(MediaInput input) {
        String format = input.formatName();
        if (format.contains("mp4")) {
            return fits(MP4, input) ? MP4 : MOV;
        }
        if (format.contains("matroska")) {
            return MATROSKA;
        }
        if (format.equals("mpegts")) {
            return TRANSPORT;
        }
        if (format.equals("avi")) {
            return AVI;
        }
        int codec = input.video().codecpar().codec_id();
        boolean plain = Set.of(AV_CODEC_ID_MPEG1VIDEO, AV_CODEC_ID_MPEG2VIDEO, AV_CODEC_ID_MPEG4)
                .contains(codec);
        return plain && fits(MP4, input) ? MP4 : MATROSKA;
    }

    private static boolean fits(Container container, MediaInput input) {
        AVOutputFormat muxer = av_guess_format(container.muxer, null, null);
        for (int i = 0; i < input.context().nb_streams(); i++) {
            AVCodecParameters stream = input.context().streams(i).codecpar();
            boolean kept = i == input.video().index() || stream.codec_type() == AVMEDIA_TYPE_AUDIO;
            if (kept && avformat_query_codec(muxer, stream.codec_id(), 0) != 1) {
                return false;
            }
        }
        return true;
    }

    /** True if pictures in this codec are made of NAL units. */
    static boolean hasNalUnits(int codec) {
        return codec == AV_CODEC_ID_H264 || codec == AV_CODEC_ID_HEVC;
    }
}
