package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avutil.AVCOL_PRI_BT709;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_PRI_SMPTE170M;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_RANGE_MPEG;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_SPC_BT709;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_SPC_SMPTE170M;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_TRC_BT709;
import static org.bytedeco.ffmpeg.global.avutil.AVCOL_TRC_SMPTE170M;
import static org.bytedeco.ffmpeg.global.avutil.AV_PICTURE_TYPE_I;
import static org.bytedeco.ffmpeg.global.avutil.AV_PICTURE_TYPE_NONE;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;

import java.io.IOException;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexer;
import org.sideport.media.MediaInput;
import org.sideport.media.VideoPicture;
import org.sideport.media.VideoTrack;
import org.sideport.model.Caption;
import org.sideport.model.Progress;

/**
 * An MP4 made of pictures at times of one's own: H.264 without B-frames on a clock of microseconds, one channel of AAC,
 * chapters, subtitles, and no tag but their languages. It gets its name only after it was read back. Thread-confined; must be
 * closed.
 */
public final class FilmFile implements AutoCloseable {

    private static final int MICROSECONDS = 1_000_000;
    private static final int USUAL_FRAME_US = 40_000;
    private static final int KEY_EVERY = 50;

    /**
     * @param width pixels, even
     * @param height pixels, even
     * @param aspectNum width of a pixel, as a ratio to its height
     * @param aspectDen height of a pixel
     */
    public record Shape(int width, int height, int aspectNum, int aspectDen) {}

    /** @param language three letters (ISO 639-2), {@code und} where it is not known */
    public record Subtitles(String language, List<Caption> captions) {
        public Subtitles {
            captions = List.copyOf(captions);
        }
    }

    /**
     * What goes in beside pictures and sound.
     *
     * @param soundRate samples a second; 0 for a silent film
     */
    public record Extras(long lengthUs, int soundRate, List<Chapter> chapters, List<Subtitles> subtitles) {
        public Extras {
            chapters = List.copyOf(chapters);
            subtitles = List.copyOf(subtitles);
        }
    }

    private final OutputFile out;
    private final Extras extras;
    private final VideoPicture picture;
    private final VideoTrack video;
    private final @Nullable SoundTrack sound;
    private final List<Long> times = new ArrayList<>();

    private FilmFile(OutputFile out, Shape shape, Extras extras) throws IOException {
        this.out = out;
        this.extras = extras;
        this.picture = new VideoPicture(shape.width(), shape.height());
        this.video = new VideoTrack(out.context(), "libx264", USUAL_FRAME_US);
        AVDictionary options = new AVDictionary(null);
        try {
            av_dict_set(options, "preset", Encoding.FAITHFUL.preset(), 0);
            av_dict_set(options, "crf", Integer.toString(Encoding.FAITHFUL.quality()), 0);
            av_dict_set(options, "profile", "high", 0);
            video.open(encoder -> describe(encoder, shape), options);
            sound = extras.soundRate() > 0 ? SoundTrack.mono(out, extras.soundRate()) : null;
        } finally {
            av_dict_free(options);
        }
        List<SubtitleTrack> tracks = extras.subtitles().stream()
                .map(s -> new SubtitleTrack(out, s.language()))
                .toList();
        Chapters.add(out.context(), Chapters.withoutGaps(extras.chapters(), extras.lengthUs()), 0);
        Map<String, String> header = new HashMap<>();
        header.put("movflags", "+faststart");
        header.put("video_track_timescale", Integer.toString(MICROSECONDS));
        header.put("empty_hdlr_name", "1");
        out.header(header);
        for (int i = 0; i < tracks.size(); i++) {
            tracks.get(i).write(extras.subtitles().get(i).captions(), extras.lengthUs());
        }
    }

    /**
     * @param sources files that may not be written over
     * @throws org.sideport.model.InputException if the target exists and is not to be replaced, or cannot be created
     */
    public static FilmFile create(Path target, boolean replace, List<Path> sources, Shape shape, Extras extras) {
        OutputFile out = OutputFile.create(target, "mp4", replace, sources);
        try {
            return new FilmFile(out, shape, extras);
        } catch (IOException e) {
            out.close();
            throw Faults.notWritten(target, e);
        } catch (RuntimeException e) {
            out.close();
            throw e;
        }
    }

    private static void describe(AVCodecContext encoder, Shape shape) {
        boolean high = VideoPicture.isHighDefinition(shape.height());
        encoder.width(shape.width()).height(shape.height()).pix_fmt(AV_PIX_FMT_YUV420P);
        encoder.time_base(new AVRational().num(1).den(MICROSECONDS));
        encoder.framerate(new AVRational().num(MICROSECONDS).den(USUAL_FRAME_US));
        encoder.sample_aspect_ratio(new AVRational().num(shape.aspectNum()).den(shape.aspectDen()));
        encoder.gop_size(KEY_EVERY).max_b_frames(0);
        encoder.color_range(AVCOL_RANGE_MPEG)
                .colorspace(high ? AVCOL_SPC_BT709 : AVCOL_SPC_SMPTE170M)
                .color_primaries(high ? AVCOL_PRI_BT709 : AVCOL_PRI_SMPTE170M)
                .color_trc(high ? AVCOL_TRC_BT709 : AVCOL_TRC_SMPTE170M);
        encoder.thread_count(Math.min(4, Runtime.getRuntime().availableProcessors()));
    }

    /**
     * @param argb rows of {@code 0xAARRGGBB}, top first
     * @param atUs when it is shown, after the picture before
     * @param forUs how long
     * @param key true where players shall be able to start
     */
    public void picture(int[] argb, long atUs, long forUs, boolean key) {
        try {
            AVFrame frame = picture.convert(argb, atUs);
            frame.duration(forUs);
            frame.pict_type(key ? AV_PICTURE_TYPE_I : AV_PICTURE_TYPE_NONE);
            video.send(frame);
            times.add(atUs);
        } catch (IOException e) {
            throw Faults.notWritten(out.target(), e);
        }
    }

    /**
     * Puts sound where it belongs; what was not put is silence.
     *
     * @param place of the first sample, samples from the film's start; not before what was put last
     */
    public void sound(long place, short[] samples) {
        SoundTrack track = sound;
        if (track == null) {
            throw new IllegalStateException("the film has no sound");
        }
        float[] put = new float[samples.length];
        for (int i = 0; i < samples.length; i++) {
            put[i] = samples[i] / 32768f;
        }
        try {
            track.put(place, new float[][] {put}, samples(extras.lengthUs()));
        } catch (IOException e) {
            throw Faults.notWritten(out.target(), e);
        }
    }

    private long samples(long us) {
        return us * extras.soundRate() / MICROSECONDS;
    }

    /**
     * Ends the film, reads it back and gives it its name.
     *
     * @throws org.sideport.model.InputException if a picture or a chapter has not the time that it should have; nothing is left
     */
    public void finish(Progress progress) {
        try {
            video.send(null);
            SoundTrack track = sound;
            if (track != null) {
                track.padTo(samples(extras.lengthUs()));
                track.finish();
            }
        } catch (IOException e) {
            throw Faults.notWritten(out.target(), e);
        }
        out.end();
        verify(progress);
        progress.check();
        out.commit();
    }

    private void verify(Progress progress) {
        try (MediaInput film = Inputs.open(out.partial())) {
            FrameIndex index = FrameIndexer.index(film, progress);
            if (index.size() != times.size()) {
                throw Faults.notFaithful(
                        out.target(), "it holds " + index.size() + " pictures, and " + times.size() + " were written");
            }
            for (int i = 0; i < times.size(); i++) {
                if (index.startUs(i) != times.get(i) - times.get(0)) {
                    throw Faults.notFaithful(
                            out.target(), "picture " + i + " does not have the time that it should have");
                }
            }
            List<Chapter> wanted = Chapters.withoutGaps(extras.chapters(), extras.lengthUs());
            long moved = extras.chapters().isEmpty() ? 0 : Chapters.difference(wanted, Chapters.of(film.context(), 0));
            if (moved < 0 || moved > 1000) {
                throw Faults.notFaithful(out.target(), "its chapters are not those that were to go in");
            }
        }
    }

    @Override
    public void close() {
        video.close();
        if (sound != null) {
            sound.close();
        }
        picture.close();
        out.close();
    }
}
