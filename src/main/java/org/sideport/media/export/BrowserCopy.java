package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_AAC;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_H264;
import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_MP3;
import static org.bytedeco.ffmpeg.global.avutil.AVMEDIA_TYPE_AUDIO;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUV420P;
import static org.bytedeco.ffmpeg.global.avutil.AV_PIX_FMT_YUVJ420P;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
import org.bytedeco.ffmpeg.global.avcodec;
import org.sideport.media.FrameIndex;
import org.sideport.media.FrameIndexer;
import org.sideport.media.MediaInput;
import org.sideport.model.MaskArea;
import org.sideport.model.Progress;

/**
 * A copy of a recording that web browsers play: one MP4 file with H.264 on the recording's timeline, without a word about
 * whom, where and when. What plays already is copied without loss; the rest is encoded.
 */
public final class BrowserCopy {

    private static final Encoding FOR_BROWSERS = new Encoding("veryfast", 21, 1, 1080);

    private BrowserCopy() {}

    /**
     * @param encoded false if the pictures are those of the recording, bit by bit
     * @param frames times of the copy's frames, which are those of the recording
     */
    public record Result(Path file, boolean encoded, boolean sound, FrameIndex frames) {}

    /**
     * @param files of one recording, in order
     * @param masks areas to hide; may be empty
     * @param out an MP4 file that does not exist
     * @throws org.sideport.model.InputException if a file cannot be read, an area lies outside the picture, or the target
     *     exists
     * @throws java.util.concurrent.CancellationException if the progress is cancelled; nothing is left then
     */
    public static Result write(List<Path> files, List<MaskArea> masks, boolean withSound, Path out, Progress progress) {
        if (!masks.isEmpty()) {
            MaskedCopy.Result masked = MaskedCopy.write(
                    files, masks, MaskedCopy.Style.FILL, withSound, out, false, progress.part(0, 0.97));
            return result(out, true, masked.sound(), progress);
        }
        if (files.size() == 1 && plays(files.get(0), withSound)) {
            NeutralCopy.Result copy =
                    NeutralCopy.write(files.get(0), withSound, false, out, false, progress.part(0, 0.97));
            if (copy.stillInside().isEmpty()) {
                return result(out, false, copy.sound(), progress);
            }
            delete(out);
        }
        SourceFiles source = SourceFiles.open(files, progress.part(0, 0.1));
        try (OutputFile file = OutputFile.create(out, "mp4", false, files)) {
            Transcode.Written written = Transcode.run(
                    source.whole(),
                    file,
                    FOR_BROWSERS,
                    withSound,
                    FrameEdit.NONE,
                    "Encoding for browsers",
                    progress.part(0.1, 0.97));
            file.commit();
            return result(out, true, written.sound(), progress);
        }
    }

    private static Result result(Path out, boolean encoded, boolean sound, Progress progress) {
        Result result = new Result(out, encoded, sound, FrameIndexer.index(out, progress.part(0.97, 1)));
        progress.report(1, "Copied");
        return result;
    }

    private static void delete(Path copy) {
        try {
            Files.delete(copy);
        } catch (IOException e) {
            throw Faults.notWritten(copy, e);
        }
    }

    /** True for what every browser decodes: progressive 8-bit 4:2:0 H.264 in MP4, with AAC or MP3. */
    static boolean plays(Path file, boolean withSound) {
        try (MediaInput input = Inputs.open(file)) {
            AVCodecParameters picture = input.video().codecpar();
            boolean plain = picture.format() == AV_PIX_FMT_YUV420P || picture.format() == AV_PIX_FMT_YUVJ420P;
            boolean whole = picture.field_order() == avcodec.AV_FIELD_UNKNOWN
                    || picture.field_order() == avcodec.AV_FIELD_PROGRESSIVE;
            if (!Container.of(input).equals(Container.MP4)
                    || picture.codec_id() != AV_CODEC_ID_H264
                    || !plain
                    || !whole) {
                return false;
            }
            for (int i = 0; withSound && i < input.context().nb_streams(); i++) {
                AVCodecParameters stream = input.context().streams(i).codecpar();
                if (stream.codec_type() == AVMEDIA_TYPE_AUDIO
                        && stream.codec_id() != AV_CODEC_ID_AAC
                        && stream.codec_id() != AV_CODEC_ID_MP3) {
                    return false;
                }
            }
            return true;
        }
    }
}
