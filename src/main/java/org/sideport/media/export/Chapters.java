package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avutil.av_dict_get;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;
import static org.bytedeco.ffmpeg.global.avutil.av_make_q;
import static org.bytedeco.ffmpeg.global.avutil.av_malloc;
import static org.bytedeco.ffmpeg.global.avutil.av_mallocz;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import org.bytedeco.ffmpeg.avformat.AVChapter;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVDictionaryEntry;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.Pointer;
import org.bytedeco.javacpp.PointerPointer;

/** Chapters in containers, through FFmpeg's libraries. */
final class Chapters {

    /** MP4 knows no time without a chapter. */
    static final String NONE = "–";

    private static final int MICROSECONDS = 1_000_000;

    private Chapters() {}

    /**
     * Chapters without gaps, as MP4 and QuickTime have them: what lies between gets one without a name.
     *
     * @param chapters by time, without overlap
     */
    static List<Chapter> withoutGaps(List<Chapter> chapters, long lengthUs) {
        List<Chapter> filled = new ArrayList<>();
        long at = 0;
        for (Chapter chapter : chapters) {
            if (chapter.startUs() > at) {
                filled.add(new Chapter(at, chapter.startUs(), NONE));
            }
            filled.add(chapter);
            at = chapter.endUs();
        }
        if (at < lengthUs) {
            filled.add(new Chapter(at, lengthUs, NONE));
        }
        return filled;
    }

    /**
     * Gives chapters to a file that is about to be written, before its header. The file's context frees them.
     *
     * @param originUs time of the first frame on the file's clock
     */
    static void add(AVFormatContext context, List<Chapter> chapters, long originUs) {
        if (chapters.isEmpty()) {
            return;
        }
        PointerPointer<AVChapter> all = new PointerPointer<>(
                new Memory(av_malloc((long) chapters.size() * org.bytedeco.javacpp.Loader.sizeof(Pointer.class))));
        for (int i = 0; i < chapters.size(); i++) {
            Chapter one = chapters.get(i);
            AVChapter chapter = new AVChapter(av_mallocz(org.bytedeco.javacpp.Loader.sizeof(AVChapter.class)));
            chapter.id(i + 1L);
            chapter.time_base(av_make_q(1, MICROSECONDS));
            chapter.start(originUs + one.startUs());
            chapter.end(originUs + one.endUs());
            AVDictionary tags = new AVDictionary(null);
            try (BytePointer key = new BytePointer("title", StandardCharsets.UTF_8);
                    BytePointer title = new BytePointer(one.title(), StandardCharsets.UTF_8)) {
                av_dict_set(tags, key, title, 0);
            }
            chapter.metadata(tags);
            all.put(i, chapter);
        }
        context.chapters(all);
        context.nb_chapters(chapters.size());
    }

    /** Memory of the library, which nothing here frees. */
    private static final class Memory extends Pointer {
        Memory(Pointer of) {
            super(of);
        }
    }

    /**
     * The chapters that a file holds.
     *
     * @param originUs time of the first frame on the file's clock
     */
    static List<Chapter> of(AVFormatContext context, long originUs) {
        List<Chapter> found = new ArrayList<>();
        for (int i = 0; i < context.nb_chapters(); i++) {
            AVChapter chapter = context.chapters(i);
            long start = Math.max(0, micros(chapter.start(), chapter.time_base()) - originUs);
            long end = micros(chapter.end(), chapter.time_base()) - originUs;
            AVDictionaryEntry title = av_dict_get(chapter.metadata(), "title", null, 0);
            found.add(new Chapter(
                    start,
                    Math.max(start + 1, end),
                    title == null ? "" : title.value().getString(StandardCharsets.UTF_8)));
        }
        return found;
    }

    private static long micros(long ticks, AVRational base) {
        return Math.round((double) ticks * base.num() / base.den() * MICROSECONDS);
    }

    /**
     * By how much the times differ at most, microseconds.
     *
     * @return -1 if the chapters are not the same ones
     */
    static long difference(List<Chapter> wanted, List<Chapter> found) {
        if (wanted.size() != found.size()) {
            return -1;
        }
        long most = 0;
        for (int i = 0; i < wanted.size(); i++) {
            if (!wanted.get(i).title().equals(found.get(i).title())) {
                return -1;
            }
            most = Math.max(
                    most, Math.abs(wanted.get(i).startUs() - found.get(i).startUs()));
            most = Math.max(most, Math.abs(wanted.get(i).endUs() - found.get(i).endUs()));
        }
        return most;
    }
}
