package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AV_FIELD_PROGRESSIVE;
import static org.bytedeco.ffmpeg.global.avcodec.AV_FIELD_UNKNOWN;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_get_name;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_iterate;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVDictionaryEntry;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaException.Reason;
import org.sideport.media.MediaWarning.Code;
import org.sideport.media.dicom.DicomVideo;
import org.sideport.model.Progress;
import org.sideport.model.Segment;

/** Says what a file is, measured from its packets rather than believed from its header. */
public final class MediaProbe {

    private MediaProbe() {}

    /**
     * @throws MediaException if the file is no video that can be read
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static ProbedFile probe(Path file, Progress progress) {
        return probe(file, null, progress);
    }

    /**
     * As {@link #probe(Path, Progress)}, keeping the frame times for when the recording is opened.
     *
     * @param cache {@code null} to keep nothing
     */
    public static ProbedFile probe(Path file, @Nullable FrameIndexCache cache, Progress progress) {
        Path absolute = file.toAbsolutePath().normalize();
        try (MediaInput input = MediaInput.open(absolute)) {
            Stamp before = Stamp.of(absolute);
            Progress reading = progress.part(0, 0.5);
            FrameIndex index = cache == null ? FrameIndexer.index(input, reading) : cache.index(absolute, reading);
            String sha256 = FileDigest.sha256(absolute, progress.part(0.5, 1));
            if (!Stamp.of(absolute).equals(before)) {
                throw new MediaException(
                        Reason.UNREADABLE,
                        "the file changed while it was read: it is still being recorded or copied",
                        absolute.toString(),
                        "wait until the recorder or the copying is done, and try again");
            }
            List<String> tags = identityTags(input);
            return new ProbedFile(segment(input, index, sha256, tags), warnings(input, index, tags));
        }
    }

    /** Digest and frame times must be of one and the same content. */
    private record Stamp(long size, FileTime changed) {
        static Stamp of(Path file) {
            try {
                return new Stamp(Files.size(file), Files.getLastModifiedTime(file));
            } catch (IOException e) {
                throw new MediaException(Reason.UNREADABLE, "cannot be read: " + e.getMessage(), file.toString(), null);
            }
        }
    }

    private static Segment segment(MediaInput input, FrameIndex index, String sha256, List<String> tags) {
        // of a bare stream the library makes one up
        AVRational rate = input.isBareStream()
                ? input.video().codecpar().framerate()
                : input.video().avg_frame_rate();
        AVRational aspect = input.sampleAspect();
        int field = input.video().codecpar().field_order();
        return new Segment(
                input.file(),
                sha256,
                size(input.file()),
                index.durationUs(),
                index.size(),
                index.firstUs(),
                rate.num(),
                Math.max(1, rate.den()),
                index.isVariableRate(),
                avcodec_get_name(input.video().codecpar().codec_id()).getString(),
                input.video().codecpar().width(),
                input.video().codecpar().height(),
                aspect.num() + ":" + aspect.den(),
                input.rotation(),
                field != AV_FIELD_UNKNOWN && field != AV_FIELD_PROGRESSIVE,
                input.hasAudio(),
                tags);
    }

    private static long size(Path file) {
        try {
            return Files.size(file);
        } catch (IOException e) {
            throw new MediaException(Reason.UNREADABLE, "cannot be read: " + e.getMessage(), file.toString(), null);
        }
    }

    private static List<MediaWarning> warnings(MediaInput input, FrameIndex index, List<String> tags) {
        List<MediaWarning> warnings = new ArrayList<>();
        for (String hint : IdentityHints.inName(input.file())) {
            warnings.add(new MediaWarning(
                    Code.IDENTITY_IN_NAME, "There is " + hint + ". Rename it if it tells whose eye this is.", 0, null));
        }
        if (!tags.isEmpty()) {
            warnings.add(new MediaWarning(
                    Code.IDENTITY_IN_TAGS,
                    "Tags inside the file may identify a person, place or device: " + String.join(", ", tags) + ".",
                    0,
                    null));
        }
        DicomVideo dicom = input.dicom();
        if (dicom != null) {
            warnings.addAll(DicomWarnings.of(dicom, index));
        }
        warnings.addAll(IndexWarnings.of(index, promisedUs(input)));
        return warnings;
    }

    /** The stream's own promise where the container keeps one in a table; estimates of other containers are not used. */
    private static @Nullable Long promisedUs(MediaInput input) {
        String format = input.formatName();
        boolean table = format.contains("mp4") || format.contains("matroska");
        long ticks = input.video().duration();
        if (!table) {
            return null;
        }
        if (ticks != AV_NOPTS_VALUE && ticks > 0) {
            return input.timeBase().toMicros(ticks);
        }
        // Matroska keeps one length for the whole file, in microseconds, and sound may outlast the picture.
        long whole = input.context().duration();
        return whole != AV_NOPTS_VALUE && whole > 0 && !input.hasAudio() ? whole : null;
    }

    private static List<String> identityTags(MediaInput input) {
        Set<String> found = new LinkedHashSet<>();
        collect(input.context().metadata(), found);
        for (int i = 0; i < input.context().nb_streams(); i++) {
            collect(input.context().streams(i).metadata(), found);
        }
        return List.copyOf(found);
    }

    private static void collect(@Nullable AVDictionary tags, Set<String> found) {
        if (tags == null) {
            return;
        }
        for (AVDictionaryEntry entry = av_dict_iterate(tags, null);
                entry != null;
                entry = av_dict_iterate(tags, entry)) {
            String key = entry.key().getString(StandardCharsets.UTF_8);
            String value = entry.value().getString(StandardCharsets.UTF_8);
            if (IdentityHints.mayIdentify(key, value)) {
                found.add(key + "=" + value);
            }
        }
    }
}
