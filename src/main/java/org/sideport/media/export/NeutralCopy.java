package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;
import static org.bytedeco.ffmpeg.global.avutil.AVERROR_EOF;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.jspecify.annotations.Nullable;
import org.sideport.media.Ffmpeg;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexer;
import org.sideport.media.MediaInput;
import org.sideport.media.TimeBase;
import org.sideport.media.dicom.DicomVideo;
import org.sideport.media.export.Removed.Kind;
import org.sideport.model.InputException;
import org.sideport.model.Progress;

/**
 * A copy of one file without loss and without any word about whom, where, when and with what: no tags, chapters,
 * attachments, data or subtitle streams. Rotation and pixel shape stay, since the picture would be seen wrongly without.
 * What is burnt into the picture or spoken stays too; {@link MaskedCopy} and leaving out the sound are for those.
 *
 * <p>The copy is read back before it gets its name: the payload of the packets, the number and the times of the frames
 * must be the original's, and no tag may be left.
 */
public final class NeutralCopy {

    /** Shorter texts turn up by chance in the packets of a long video. */
    private static final int TELLING_BYTES = 6;

    /** MP4 keeps times of chapters in milliseconds. */
    private static final long CHAPTER_TICK_US = 1000;

    private final MediaInput input;
    private final OutputFile file;
    private final boolean withoutSei;
    private final List<Chapter> chapters;
    private final Map<Integer, PayloadDigest> digests = new TreeMap<>();

    private NeutralCopy(MediaInput input, OutputFile file, boolean withoutSei, List<Chapter> chapters) {
        this.input = input;
        this.file = file;
        this.withoutSei = withoutSei;
        this.chapters = chapters;
    }

    /**
     * @param removed what the original has and the copy has not
     * @param payloadSha256 digest of the packets of each kept stream, the same in the original and in the copy
     * @param stillInside texts of removed tags whose bytes are in the copy all the same, in the pictures' own data
     * @param chapterRoundingUs by how much the container moved a chapter's time at most, microseconds
     */
    public record Result(
            Path source,
            Path file,
            long frames,
            long durationUs,
            boolean sound,
            List<Removed> removed,
            List<String> payloadSha256,
            List<String> stillInside,
            long chapterRoundingUs) {

        public Result {
            removed = List.copyOf(removed);
            payloadSha256 = List.copyOf(payloadSha256);
            stillInside = List.copyOf(stillInside);
        }
    }

    /**
     * @param withoutSei true to remove the supplemental information inside H.264 and HEVC pictures as well, with which
     *     time codes, captions and recovery points go
     * @param out its ending should fit the container; {@link NeutralNames} proposes one
     * @throws InputException if the file cannot be read, the target exists, or the copy turns out not to be faithful;
     *     then it is deleted
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public static Result write(
            Path source, boolean withSound, boolean withoutSei, Path out, boolean replace, Progress progress) {
        return write(source, withSound, withoutSei, List.of(), out, replace, progress);
    }

    /**
     * As {@link #write}, with chapters in the copy, where MP4, QuickTime and Matroska have a place for them. Matroska keeps
     * their times to the nanosecond; the others round to milliseconds and know no time without a chapter, so that gaps get one
     * without a name.
     *
     * @param chapters by time, without overlap
     * @throws InputException also if the container has no place for chapters, or does not give them back as they were
     */
    public static Result withChapters(
            Path source, boolean withSound, List<Chapter> chapters, Path out, boolean replace, Progress progress) {
        Container container = Container.of(source);
        if (!container.hasChapters()) {
            throw new InputException(
                    "this kind of file has no place for chapters",
                    source.toString(),
                    "cut or copy it into an MP4 or Matroska file first (sideport clip), or write the chapters beside"
                            + " it");
        }
        return write(source, withSound, false, chapters, out, replace, progress);
    }

    private static Result write(
            Path source,
            boolean withSound,
            boolean withoutSei,
            List<Chapter> chapters,
            Path out,
            boolean replace,
            Progress progress) {
        OutputFile.guard(out, replace, List.of(source));
        FrameIndex original;
        try (MediaInput first = MediaInput.open(source)) {
            original = FrameIndexer.index(first, progress.part(0, 0.2));
            SourceFiles.requireOneClock(source, original);
        }
        try (MediaInput input = Inputs.open(source)) {
            Container container = Container.of(input);
            try (OutputFile file = OutputFile.create(out, container.muxer(), replace, List.of(source))) {
                List<Chapter> fitting = chapters.isEmpty() || container.equals(Container.MATROSKA)
                        ? chapters
                        : Chapters.withoutGaps(chapters, original.durationUs());
                NeutralCopy copy = new NeutralCopy(input, file, withoutSei, fitting);
                Result result = copy.run(container, withSound, original, progress.part(0.2, 1));
                progress.check();
                file.commit();
                progress.report(1, "Copied");
                return result;
            }
        }
    }

    /**
     * Copies the files of one recording; all or none. What {@link #write} says holds for each.
     *
     * @param targets one for each source
     */
    public static List<Result> all(
            List<Path> sources,
            List<Path> targets,
            boolean withSound,
            boolean withoutSei,
            boolean replace,
            Progress progress) {
        for (Path target : targets) {
            OutputFile.guard(target, replace, sources);
        }
        List<Result> results = new ArrayList<>();
        List<Path> fresh = new ArrayList<>();
        int n = sources.size();
        try {
            for (int i = 0; i < n; i++) {
                boolean existed = Files.exists(targets.get(i));
                Progress part = progress.part((double) i / n, (i + 1.0) / n);
                results.add(write(sources.get(i), withSound, withoutSei, targets.get(i), replace, part));
                if (!existed) {
                    fresh.add(targets.get(i));
                }
            }
            return results;
        } catch (RuntimeException e) {
            for (Path copy : fresh) {
                try {
                    Files.deleteIfExists(copy);
                } catch (IOException left) {
                    e.addSuppressed(left);
                }
            }
            throw e;
        }
    }

    private Result run(Container container, boolean withSound, FrameIndex original, Progress progress) {
        try (SeiFilter sei = withoutSei ? new SeiFilter(input.video(), input.file()) : null) {
            PacketTracks tracks =
                    new PacketTracks(file, container, input, withSound, sei == null ? null : sei.parameters());
            List<Removed> removed = new ArrayList<>(FileTags.beyond(input, tracks::takes));
            DicomVideo dicom = input.dicom();
            if (dicom != null) {
                dicom.patientData().forEach(kind -> removed.add(new Removed(Kind.HEADER, null, kind.words(), null)));
            }
            Chapters.add(file.context(), chapters, firstUs(original));
            tracks.header();
            for (int stream : tracks.inputs()) {
                boolean picture = stream == input.video().index();
                digests.put(
                        stream,
                        new PayloadDigest(input.context().streams(stream).codecpar(), picture && withoutSei));
            }
            DecodingTimes times = new DecodingTimes(
                    input.video().index(),
                    original.pts(0),
                    input.video().codecpar().video_delay());
            copy(tracks, sei, times, original, progress.part(0, 0.5));
            file.end();
            PayloadDigest pictures = digests.get(input.video().index());
            if (withoutSei && pictures != null && pictures.seiUnits() > 0) {
                removed.add(new Removed(
                        Kind.SEI, input.video().index(), "supplemental information", pictures.seiUnits() + " units"));
            }
            List<String> values =
                    digests.values().stream().map(PayloadDigest::value).toList();
            long rounding = verify(tracks, original, values, progress.part(0.5, 0.8));
            return new Result(
                    input.file(),
                    file.target(),
                    original.size(),
                    original.durationUs(),
                    tracks.inputs().size() > 1,
                    removed,
                    values,
                    stillInside(removed, progress.part(0.8, 1)),
                    rounding);
        }
    }

    private void copy(
            PacketTracks tracks, @Nullable SeiFilter sei, DecodingTimes times, FrameIndex original, Progress progress) {
        boolean repaired = input.formatName().equals("mpeg") && !original.hasOwnTimes();
        int ordinal = 0;
        long size = Math.max(1, size(input.file()));
        AVPacket packet = av_packet_alloc();
        try {
            int code;
            while ((code = av_read_frame(input.context(), packet)) >= 0) {
                progress.check();
                int stream = packet.stream_index();
                PayloadDigest digest = digests.get(stream);
                if (digest != null) {
                    progress.report(Math.min(0.999, packet.pos() / (double) size), "Copying");
                    digest.add(packet);
                    if (repaired && stream == input.video().index()) {
                        showAsIndexed(packet, original, ordinal++);
                    }
                    times.fill(packet);
                    AVRational base = input.context().streams(stream).time_base();
                    SeiFilter filter = stream == input.video().index() ? sei : null;
                    if (filter == null || filter.apply(packet, input.file())) {
                        tracks.write(packet, stream, base, 0);
                    }
                }
                av_packet_unref(packet);
            }
            if (code != AVERROR_EOF) {
                throw Faults.unreadable(
                        input.file(),
                        "it cannot be read to its end (" + Ffmpeg.errorText(code) + "); repair makes a copy of"
                                + " what can be read");
            }
        } finally {
            av_packet_free(packet);
        }
    }

    /** Where a program stream leaves display times out, those that all else goes by are written. */
    private static void showAsIndexed(AVPacket packet, FrameIndex original, int ordinal) {
        int frame = original.frameOf(ordinal);
        if (frame >= 0) {
            packet.pts(original.pts(frame));
            if (packet.dts() > packet.pts()) {
                packet.dts(AV_NOPTS_VALUE);
            }
        }
    }

    private static long firstUs(FrameIndex index) {
        return index.timeBase().toMicros(index.pts(0));
    }

    /** By how much a chapter's time was moved at most, microseconds. */
    private long verify(PacketTracks tracks, FrameIndex original, List<String> expected, Progress progress) {
        FrameIndex written;
        try (MediaInput copy = MediaInput.open(file.partial())) {
            written = FrameIndexer.index(copy, progress.part(0, 0.5));
        }
        if (written.size() != original.size()) {
            throw Faults.notFaithful(
                    file.target(), "it holds " + written.size() + " frames, the original " + original.size());
        }
        long tick = Math.max(tickUs(written.timeBase()), tickUs(original.timeBase()));
        for (int i = 0; i < written.size(); i++) {
            if (Math.abs(written.startUs(i) - original.startUs(i)) > tick) {
                throw Faults.notFaithful(file.target(), "frame " + i + " has another time than in the original");
            }
        }
        try (MediaInput copy = Inputs.open(file.partial())) {
            // chapters of our own may come with a stream of their names
            List<Removed> left =
                    FileTags.beyond(copy, stream -> stream < tracks.inputs().size() || !chapters.isEmpty()).stream()
                            .filter(r -> chapters.isEmpty()
                                    || !isOfChapters(r, tracks.inputs().size()))
                            .toList();
            if (!left.isEmpty()) {
                throw Faults.notFaithful(
                        file.target(),
                        "it still says " + left.get(0).name() + "="
                                + left.get(0).value());
            }
            if (copy.rotation() != input.rotation() || !sameShape(copy.sampleAspect(), input.sampleAspect())) {
                throw Faults.notFaithful(file.target(), "the picture would be turned or stretched differently");
            }
            List<String> payload = payload(copy, progress.part(0.5, 1));
            if (payload.size() < expected.size()
                    || !payload.subList(0, expected.size()).equals(expected)
                    || (chapters.isEmpty() && payload.size() != expected.size())) {
                throw Faults.notFaithful(file.target(), "its packets are not those of the original");
            }
            long moved = Chapters.difference(chapters, Chapters.of(copy.context(), firstUs(written)));
            if (moved < 0 || moved > CHAPTER_TICK_US) {
                throw Faults.notFaithful(file.target(), "its chapters are not those that were to go in");
            }
            return moved;
        }
    }

    /** A chapter, or the muxer's own word on the stream that holds their names in MP4. */
    private static boolean isOfChapters(Removed found, int kept) {
        Integer stream = found.stream();
        return found.kind() == Kind.CHAPTER
                || (stream != null && stream >= kept && found.name().equals("language"));
    }

    private List<String> payload(MediaInput copy, Progress progress) {
        List<PayloadDigest> found = new ArrayList<>();
        for (int i = 0; i < copy.context().nb_streams(); i++) {
            copy.context().streams(i).discard(org.bytedeco.ffmpeg.global.avcodec.AVDISCARD_DEFAULT);
            // where SEI was to go, it must be gone: it is counted here, not passed over
            found.add(new PayloadDigest(copy.context().streams(i).codecpar(), false));
        }
        AVPacket packet = av_packet_alloc();
        try {
            while (av_read_frame(copy.context(), packet) >= 0) {
                progress.check();
                if (packet.stream_index() < found.size()) {
                    found.get(packet.stream_index()).add(packet);
                }
                av_packet_unref(packet);
            }
        } finally {
            av_packet_free(packet);
        }
        return found.stream().map(PayloadDigest::value).toList();
    }

    private static long tickUs(TimeBase base) {
        return base.toMicros(1) + 1;
    }

    private static boolean sameShape(AVRational a, AVRational b) {
        return (long) a.num() * b.den() == (long) b.num() * a.den();
    }

    private List<String> stillInside(List<Removed> removed, Progress progress) {
        List<String> texts = removed.stream()
                .filter(r -> r.kind() == Kind.TAG || r.kind() == Kind.CHAPTER)
                .map(Removed::value)
                .filter(v -> v != null && v.getBytes(java.nio.charset.StandardCharsets.UTF_8).length >= TELLING_BYTES)
                .distinct()
                .toList();
        try {
            return ByteSearch.present(file.partial(), texts, progress);
        } catch (IOException e) {
            throw Faults.notWritten(file.target(), e);
        }
    }

    private static long size(Path path) {
        try {
            return Files.size(path);
        } catch (IOException e) {
            return 1;
        }
    }
}
