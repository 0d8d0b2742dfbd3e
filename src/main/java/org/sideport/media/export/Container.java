package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_AAC;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_AC3;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_ALAC;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_AV1;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_EAC3;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_H264;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_HEVC;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MP2;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MP3;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MPEG1VIDEO;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MPEG2VIDEO;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MPEG4;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_AUDIO;

import java.nio.file.Path;
import java.util.Set;
import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
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

    private static final Set<Integer> IN_MP4 = Set.of(
            AV_CODEC_ID_H264,
            AV_CODEC_ID_HEVC,
            AV_CODEC_ID_AV1,
            AV_CODEC_ID_MPEG1VIDEO,
            AV_CODEC_ID_MPEG2VIDEO,
            AV_CODEC_ID_MPEG4,
            AV_CODEC_ID_AAC,
            AV_CODEC_ID_MP2,
            AV_CODEC_ID_MP3,
            AV_CODEC_ID_AC3,
            AV_CODEC_ID_EAC3,
            AV_CODEC_ID_ALAC);

    /** True if chapters have a place in it, and FFmpeg writes them there. */
    boolean hasChapters() {
        return equals(MP4) || equals(MOV) || equals(MATROSKA);
    }

    static Container of(Path file) {
        try (MediaInput input = Inputs.open(file)) {
            return of(input);
        }
    }

    static Container of(MediaInput input) {
        String format = input.formatName();
        if (format.contains("mp4")) {
            return fits(input) ? MP4 : MOV;
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
        return plain && fits(input) ? MP4 : MATROSKA;
    }

    /** True if MP4 is at home with all streams that a copy keeps, and players expect them there. */
    private static boolean fits(MediaInput input) {
        for (int i = 0; i < input.context().nb_streams(); i++) {
            AVCodecParameters stream = input.context().streams(i).codecpar();
            boolean kept = i == input.video().index() || stream.codec_type() == AVMEDIA_TYPE_AUDIO;
            if (kept && !IN_MP4.contains(stream.codec_id())) {
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
