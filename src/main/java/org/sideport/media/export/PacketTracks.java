package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AVDISCARD_ALL;
import static org.bytedeco.ffmpeg.global.avcodec.AVDISCARD_DEFAULT;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_rescale_ts;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_copy;
import static org.bytedeco.ffmpeg.global.avformat.AV_DISPOSITION_DEFAULT;
import static org.bytedeco.ffmpeg.global.avformat.av_interleaved_write_frame;
import static org.bytedeco.ffmpeg.global.avformat.avformat_new_stream;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_AUDIO;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaInput;

/**
 * The streams of a copy made packet by packet: the picture and, if wanted, the sound tracks. Nothing but codec parameters
 * is carried over: no tag, no chapter, no other stream.
 */
final class PacketTracks {

    private final OutputFile out;
    private final Map<Integer, AVStream> byInput = new HashMap<>();
    private final List<Integer> inputs = new ArrayList<>();
    private final Container container;

    /**
     * Adds the streams to the file and tells the input to deliver just these.
     *
     * @param pictureParameters what describes the picture stream, where a filter has changed it; else {@code null}
     */
    PacketTracks(
            OutputFile out,
            Container container,
            MediaInput input,
            boolean withSound,
            @Nullable AVCodecParameters pictureParameters) {
        this.out = out;
        this.container = container;
        for (int i = 0; i < input.context().nb_streams(); i++) {
            AVStream stream = input.context().streams(i);
            boolean picture = i == input.video().index();
            boolean kept = picture || withSound && isSound(stream);
            stream.discard(kept ? AVDISCARD_DEFAULT : AVDISCARD_ALL);
            if (kept) {
                AVStream added = avformat_new_stream(out.context(), null);
                AVCodecParameters from = picture && pictureParameters != null ? pictureParameters : stream.codecpar();
                Faults.check(avcodec_parameters_copy(added.codecpar(), from), "describe the stream", out.target());
                added.codecpar().codec_tag(tag(input, stream));
                added.time_base(stream.time_base());
                added.avg_frame_rate(stream.avg_frame_rate());
                added.sample_aspect_ratio(picture ? shape(input, stream) : stream.sample_aspect_ratio());
                if (picture) {
                    added.codecpar().sample_aspect_ratio(shape(input, stream));
                }
                added.disposition(AV_DISPOSITION_DEFAULT);
                byInput.put(i, added);
                inputs.add(i);
            }
        }
    }

    /** A sound track that a muxer can take: with a codec and a rate. */
    static boolean isSound(AVStream stream) {
        return stream.codecpar().codec_type() == AVMEDIA_TYPE_AUDIO
                && stream.codecpar().codec_id() != 0
                && stream.codecpar().sample_rate() > 0;
    }

    /** Keeps the shape that the container gives to pixels, which the codec parameters alone may not tell. */
    private static AVRational shape(MediaInput input, AVStream stream) {
        AVRational own = stream.codecpar().sample_aspect_ratio();
        AVRational guessed = input.sampleAspect();
        return own.num() <= 0 && guessed.num() == guessed.den() ? own : guessed;
    }

    /**
     * hvc1 and hev1, avc1 and avc3 differ in meaning, and QuickTime has names that MP4 has not: so a file of the same
     * kind keeps its names; elsewhere the muxer knows best.
     */
    private int tag(MediaInput input, AVStream stream) {
        boolean same = input.formatName().contains("mp4")
                && (container.equals(Container.MOV)
                        || container.equals(Container.MP4)
                                && Container.hasNalUnits(stream.codecpar().codec_id()));
        return same ? stream.codecpar().codec_tag() : 0;
    }

    void header() {
        Map<String, String> options = new HashMap<>();
        if (container.equals(Container.MP4) || container.equals(Container.MOV)) {
            options.put("movflags", "+faststart");
            options.put("empty_hdlr_name", "1");
        }
        out.header(options);
    }

    /** Input numbers of the streams, in the order of the output's. */
    List<Integer> inputs() {
        return List.copyOf(inputs);
    }

    boolean takes(int inputStream) {
        return byInput.containsKey(inputStream);
    }

    /**
     * Writes a packet, which is empty afterwards.
     *
     * @param base the packet's clock
     * @param shift ticks of that clock to add to its times
     */
    void write(AVPacket packet, int inputStream, AVRational base, long shift) {
        AVStream to = byInput.get(inputStream);
        if (to == null) {
            throw new IllegalArgumentException("stream " + inputStream + " is not copied");
        }
        if (packet.pts() == AV_NOPTS_VALUE && !container.equals(Container.AVI)) {
            packet.pts(packet.dts());
        }
        if (packet.dts() == AV_NOPTS_VALUE) {
            packet.dts(packet.pts());
        }
        if (packet.pts() != AV_NOPTS_VALUE) {
            packet.pts(packet.pts() + shift);
        }
        if (packet.dts() != AV_NOPTS_VALUE) {
            packet.dts(packet.dts() + shift);
        }
        packet.stream_index(to.index());
        packet.pos(-1);
        av_packet_rescale_ts(packet, base, to.time_base());
        Faults.check(av_interleaved_write_frame(out.context(), packet), "write", out.target());
    }
}
