package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MOV_TEXT;
import static org.bytedeco.ffmpeg.global.avcodec.AV_INPUT_BUFFER_PADDING_SIZE;
import static org.bytedeco.ffmpeg.global.avcodec.av_new_packet;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avformat.av_interleaved_write_frame;
import static org.bytedeco.ffmpeg.global.avformat.avformat_new_stream;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_SUBTITLE;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_mallocz;
import static org.bytedeco.ffmpeg.global.avutil.av_rescale_q;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.BytePointer;
import org.sideport.model.Caption;

/** Subtitles that can be switched on in an MP4: timed text of 3GPP TS 26.245 (section 5.16 and 5.17). */
final class SubtitleTrack {

    private static final int TICKS = 1000;
    private static final int LONGEST = 60_000;

    /** A text sample entry without position, white letters of size 18 in the player's own face. */
    private static final int[] ENTRY = {
        0, 0, 0, 0, 1, 0xFF, 0, 0, 0, 0xFF, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 0, 18, 0xFF, 0xFF, 0xFF, 0xFF, 0,
        0, 0, 18, 'f', 't', 'a', 'b', 0, 1, 0, 1, 5, 'S', 'e', 'r', 'i', 'f'
    };

    private final OutputFile out;
    private final AVStream stream;

    /** @param language three letters (ISO 639-2), {@code und} where it is not known */
    SubtitleTrack(OutputFile out, String language) {
        this.out = out;
        stream = avformat_new_stream(out.context(), null);
        stream.time_base(new AVRational().num(1).den(TICKS));
        stream.codecpar().codec_type(AVMEDIA_TYPE_SUBTITLE);
        stream.codecpar().codec_id(AV_CODEC_ID_MOV_TEXT);
        BytePointer entry = new BytePointer(av_mallocz(ENTRY.length + AV_INPUT_BUFFER_PADDING_SIZE));
        for (int i = 0; i < ENTRY.length; i++) {
            entry.put(i, (byte) ENTRY[i]);
        }
        stream.codecpar().extradata(entry).extradata_size(ENTRY.length);
        AVDictionary tags = new AVDictionary(null);
        av_dict_set(tags, "language", language, 0);
        stream.metadata(tags);
    }

    /** Writes all of them; several at a time become one, and between them stands an empty text. */
    void write(List<Caption> captions, long lengthUs) {
        long at = 0;
        for (Caption caption : oneAtATime(captions)) {
            long from = caption.fromUs() / 1000;
            long to = Math.min(caption.toUs(), lengthUs) / 1000;
            if (to <= Math.max(from, at)) {
                continue;
            }
            if (from > at) {
                sample("", at, from);
            }
            sample(caption.text(), Math.max(from, at), to);
            at = to;
        }
        if (at < lengthUs / 1000) {
            sample("", at, lengthUs / 1000);
        }
    }

    /** Cuts the time at each start and end, with all texts of a stretch under one another. */
    static List<Caption> oneAtATime(List<Caption> captions) {
        long[] cuts = captions.stream()
                .flatMapToLong(c -> java.util.stream.LongStream.of(c.fromUs(), c.toUs()))
                .sorted()
                .distinct()
                .toArray();
        List<Caption> flat = new ArrayList<>();
        for (int i = 0; i + 1 < cuts.length; i++) {
            long from = cuts[i];
            String text = String.join(
                    "\n",
                    captions.stream()
                            .filter(c -> c.isAt(from))
                            .map(Caption::text)
                            .toList());
            if (!text.isEmpty()) {
                flat.add(new Caption(from, cuts[i + 1], text));
            }
        }
        return flat;
    }

    private void sample(String text, long from, long to) {
        byte[] words = text.getBytes(StandardCharsets.UTF_8);
        int length = Math.min(words.length, LONGEST);
        AVPacket packet = av_packet_alloc();
        try {
            Faults.check(av_new_packet(packet, 2 + length), "write subtitles", out.target());
            packet.data().put(0, (byte) (length >> 8)).put(1, (byte) length);
            packet.data().position(2).put(words, 0, length).position(0);
            AVRational ticks = new AVRational().num(1).den(TICKS);
            long start = av_rescale_q(from, ticks, stream.time_base());
            packet.pts(start).dts(start).duration(av_rescale_q(to - from, ticks, stream.time_base()));
            packet.stream_index(stream.index());
            Faults.check(av_interleaved_write_frame(out.context(), packet), "write subtitles", out.target());
        } finally {
            av_packet_free(packet);
        }
    }
}
