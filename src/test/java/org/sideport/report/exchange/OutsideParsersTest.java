package org.sideport.report.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avformat.avformat_close_input;
import static org.bytedeco.ffmpeg.global.avformat.avformat_find_stream_info;
import static org.bytedeco.ffmpeg.global.avformat.avformat_open_input;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_get;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVChapter;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVInputFormat;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Comment;
import org.sideport.model.CommentThread;
import org.sideport.model.PhaseSpan;

/** FFmpeg's own readers of WebVTT, SubRip and its metadata text see what was written. */
class OutsideParsersTest {

    @TempDir
    Path folder;

    record Seen(long start, long length, String text) {}

    private static List<Seen> cues(Path file) {
        List<Seen> seen = new ArrayList<>();
        AVFormatContext context = open(file);
        AVPacket packet = av_packet_alloc();
        while (av_read_frame(context, packet) >= 0) {
            byte[] bytes = new byte[packet.size()];
            packet.data().get(bytes);
            // both demuxers tick in milliseconds
            assertThat(context.streams(0).time_base().den()).isEqualTo(1000);
            seen.add(new Seen(packet.pts(), packet.duration(), new String(bytes, StandardCharsets.UTF_8)));
            av_packet_unref(packet);
        }
        av_packet_free(packet);
        avformat_close_input(context);
        return seen;
    }

    private static AVFormatContext open(Path file) {
        AVFormatContext context = new AVFormatContext(null);
        assertThat(avformat_open_input(context, file.toString(), (AVInputFormat) null, (AVDictionary) null))
                .isZero();
        avformat_find_stream_info(context, (AVDictionary) null);
        return context;
    }

    @Test
    void chaptersCaptionsAndMetadataCuesAreWebVtt() throws IOException {
        for (int seed = 0; seed < 25; seed++) {
            Annotated put = Written.of(seed, Written.recording());
            List<PhaseSpan> spans = put.tagging().spans().stream()
                    .filter(s -> put.endOf(s).micros() / 1000 > s.start().micros() / 1000)
                    .toList();
            if (!spans.isEmpty()) {
                List<Seen> chapters = cues(Files.writeString(folder.resolve("c.vtt"), WebVtt.chapters(put)));
                assertThat(chapters).hasSameSizeAs(spans);
                for (int i = 0; i < spans.size(); i++) {
                    long start = spans.get(i).start().micros() / 1000;
                    assertThat(chapters.get(i).start()).isEqualTo(start);
                    assertThat(chapters.get(i).length())
                            .isEqualTo(put.endOf(spans.get(i)).micros() / 1000 - start);
                }
            }
            List<CommentThread> said = put.threads().stream()
                    .filter(t -> !Threads.lines(t).isEmpty())
                    .toList();
            if (!said.isEmpty()) {
                List<Seen> captions = cues(Files.writeString(folder.resolve("t.vtt"), WebVtt.captions(put)));
                assertThat(captions.stream().map(Seen::start).sorted())
                        .containsExactlyElementsOf(said.stream()
                                .map(t -> t.comment().from().micros() / 1000)
                                .sorted()
                                .toList());
                for (CommentThread thread : said) {
                    Comment c = thread.comment();
                    assertThat(captions.stream().map(Seen::text)).anyMatch(t -> t.startsWith("<v " + c.author() + ">"));
                }
                List<Seen> srt = cues(Files.writeString(folder.resolve("t.srt"), SubRip.write(put)));
                assertThat(srt).hasSize(said.size() + put.tagging().events().size());
            }
            int all = put.tagging().spans().size()
                    + put.tagging().events().size()
                    + put.threads().size();
            if (all > 0) {
                List<Seen> cues = cues(Files.writeString(folder.resolve("m.vtt"), WebVtt.metadata(put)));
                assertThat(cues).hasSize(all);
                cues.forEach(c -> assertThat(StandardJson.parse(c.text(), "cue").isObject())
                        .isTrue());
            }
        }
    }

    @Test
    void chaptersAsFfmpegsMetadataText() throws IOException {
        Annotated put = Written.of(3, Written.recording());
        assertThat(put.tagging().spans()).isNotEmpty();
        AVFormatContext context = open(Files.writeString(folder.resolve("m.txt"), FfMetadata.write(put)));
        assertThat(context.nb_chapters()).isEqualTo(put.tagging().spans().size());
        for (int i = 0; i < context.nb_chapters(); i++) {
            AVChapter chapter = context.chapters(i);
            PhaseSpan span = put.tagging().spans().get(i);
            assertThat(chapter.time_base().den()).isEqualTo(1_000_000);
            assertThat(chapter.start()).isEqualTo(span.start().micros());
            assertThat(chapter.end()).isEqualTo(put.endOf(span).micros());
            assertThat(av_dict_get(chapter.metadata(), "title", null, 0).value().getString())
                    .isEqualTo(put.nameOf(span));
        }
        avformat_close_input(context);
    }
}
