package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avformat.AV_DISPOSITION_ATTACHED_PIC;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_iterate;
import static org.bytedeco.ffmpeg.global.avutil.av_get_media_type_string;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.function.IntPredicate;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVDictionaryEntry;
import org.bytedeco.javacpp.BytePointer;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaInput;
import org.sideport.media.export.Removed.Kind;

/** All that a container says of itself beyond its streams' codec parameters. */
final class FileTags {

    /** What the file format itself carries, the same for everybody. */
    private static final Set<String> OF_THE_FORMAT = Set.of(
            "major_brand",
            "minor_version",
            "compatible_brands",
            "duration",
            "language=und",
            "vendor_id=[0][0][0][0]",
            "vendor_id=FFMP");

    private FileTags() {}

    /**
     * Tags, chapters and streams other than those kept.
     *
     * @param kept numbers of the streams that a copy keeps
     */
    static List<Removed> beyond(MediaInput input, IntPredicate kept) {
        AVFormatContext context = input.context();
        List<Removed> found = new ArrayList<>(tags(context.metadata(), null));
        for (int i = 0; i < context.nb_streams(); i++) {
            AVStream stream = context.streams(i);
            if (!kept.test(i)) {
                boolean sound = PacketTracks.isSound(stream);
                found.add(new Removed(sound ? Kind.SOUND : Kind.STREAM, i, kind(stream), null));
            }
            found.addAll(tags(stream.metadata(), i));
        }
        for (int i = 0; i < context.nb_chapters(); i++) {
            List<Removed> titles = tags(context.chapters(i).metadata(), null);
            found.add(new Removed(
                    Kind.CHAPTER,
                    null,
                    "chapter " + (i + 1),
                    titles.isEmpty() ? null : titles.get(0).value()));
        }
        return found;
    }

    private static String kind(AVStream stream) {
        if ((stream.disposition() & AV_DISPOSITION_ATTACHED_PIC) != 0) {
            return "cover picture";
        }
        BytePointer name = av_get_media_type_string(stream.codecpar().codec_type());
        return name == null ? "unknown" : name.getString();
    }

    private static List<Removed> tags(@Nullable AVDictionary dictionary, @Nullable Integer stream) {
        List<Removed> found = new ArrayList<>();
        if (dictionary == null) {
            return found;
        }
        for (AVDictionaryEntry entry = av_dict_iterate(dictionary, null);
                entry != null;
                entry = av_dict_iterate(dictionary, entry)) {
            String key = entry.key().getString(StandardCharsets.UTF_8);
            String value = entry.value().getString(StandardCharsets.UTF_8);
            if (!isOfTheFormat(key, value)) {
                found.add(new Removed(Kind.TAG, stream, key, value));
            }
        }
        return found;
    }

    private static boolean isOfTheFormat(String key, String value) {
        String name = key.toLowerCase(Locale.ROOT);
        boolean muxer = name.equals("encoder") && value.equals("Lavf");
        // transport streams must name a programme; the muxer's own words are put there
        boolean service = name.startsWith("service_") && (value.equals("Service01") || value.equals("FFmpeg"));
        return value.isBlank()
                || muxer
                || service
                || OF_THE_FORMAT.contains(name)
                || OF_THE_FORMAT.contains(name + "=" + value);
    }
}
