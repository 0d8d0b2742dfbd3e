package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avformat.AVIO_FLAG_WRITE;
import static org.bytedeco.ffmpeg.global.avformat.av_write_trailer;
import static org.bytedeco.ffmpeg.global.avformat.avformat_alloc_output_context2;
import static org.bytedeco.ffmpeg.global.avformat.avformat_free_context;
import static org.bytedeco.ffmpeg.global.avformat.avformat_write_header;
import static org.bytedeco.ffmpeg.global.avformat.avio_closep;
import static org.bytedeco.ffmpeg.global.avformat.avio_open;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_free;
import static org.bytedeco.ffmpeg.global.avutil.av_dict_set;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.util.List;
import java.util.Map;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.bytedeco.ffmpeg.avformat.AVIOContext;
import org.bytedeco.ffmpeg.avformat.AVOutputFormat;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.javacpp.BytePointer;
import org.sideport.media.Ffmpeg;
import org.sideport.model.InputException;

/**
 * A media file in the making: written beside its target, moved over it by {@link #commit()}, gone if closed before. Bit
 * exact, so that the muxer adds neither its own name nor a date.
 */
final class OutputFile implements AutoCloseable {

    private final Path target;
    private final Path partial;
    private final AVFormatContext context;
    private boolean headed;
    private boolean done;

    private OutputFile(Path target, Path partial) {
        this.target = target;
        this.partial = partial;
        this.context = new AVFormatContext(null);
    }

    /**
     * @param muxer FFmpeg's name of the container
     * @param sources files that may not be written over, whatever is asked
     * @throws InputException if the target exists and is not to be replaced, is a source, or cannot be created
     */
    static OutputFile create(Path out, String muxer, boolean replace, List<Path> sources) {
        Path target = guard(out, replace, sources);
        Path partial =
                target.resolveSibling("." + target.getFileName() + "." + Long.toHexString(System.nanoTime()) + ".part");
        OutputFile file = new OutputFile(target, partial);
        try {
            file.start(muxer);
            return file;
        } catch (RuntimeException e) {
            file.close();
            throw e;
        }
    }

    /** The absolute path of a target that may be written. */
    static Path guard(Path out, boolean replace, List<Path> sources) {
        Path target = out.toAbsolutePath().normalize();
        for (Path source : sources) {
            if (isSame(source, target)) {
                throw new InputException(
                        "this is the recording itself, which is never changed",
                        out.toString(),
                        "choose another name with --out");
            }
        }
        if (Files.isDirectory(target)) {
            throw new InputException("this is a folder", out.toString(), "name the file to write");
        }
        if (Files.exists(target) && !replace) {
            throw new InputException(
                    "a file of this name exists", out.toString(), "choose another name, or add --replace");
        }
        Path folder = target.getParent();
        if (folder == null || !Files.isDirectory(folder)) {
            throw new InputException("there is no such folder", String.valueOf(folder), "make the folder first");
        }
        return target;
    }

    private static boolean isSame(Path source, Path target) {
        try {
            return source.toAbsolutePath().normalize().equals(target)
                    || (Files.exists(target) && Files.exists(source) && Files.isSameFile(source, target));
        } catch (IOException e) {
            return false;
        }
    }

    private void start(String muxer) {
        Ffmpeg.quiet();
        try (BytePointer name = Ffmpeg.url(partial);
                BytePointer kind = new BytePointer(muxer, StandardCharsets.UTF_8)) {
            Faults.check(
                    avformat_alloc_output_context2(context, (AVOutputFormat) null, kind, name),
                    "prepare the file",
                    target);
            context.flags(context.flags() | AVFormatContext.AVFMT_FLAG_BITEXACT);
            AVIOContext io = new AVIOContext(null);
            Faults.check(avio_open(io, name, AVIO_FLAG_WRITE), "create the file", target);
            context.pb(io);
        }
    }

    AVFormatContext context() {
        return context;
    }

    Path target() {
        return target;
    }

    /** Where the file is until it is committed: for checking it. */
    Path partial() {
        return partial;
    }

    /** Writes the header, after all streams have been added. */
    void header(Map<String, String> options) {
        AVDictionary dictionary = new AVDictionary(null);
        try {
            options.forEach((key, value) -> av_dict_set(dictionary, key, value, 0));
            Faults.check(avformat_write_header(context, dictionary), "write the header", target);
            headed = true;
        } finally {
            av_dict_free(dictionary);
        }
    }

    /** Ends and closes the file, which keeps its temporary name. */
    void end() {
        int code = av_write_trailer(context);
        headed = false;
        int closing = avio_closep(context.pb());
        context.pb(null);
        Faults.check(code, "complete the file", target);
        Faults.check(closing, "complete the file", target);
    }

    /** Gives the file its name. */
    void commit() {
        try {
            Files.move(partial, target, StandardCopyOption.REPLACE_EXISTING);
            done = true;
        } catch (IOException e) {
            throw Faults.notWritten(target, e);
        }
    }

    @Override
    public void close() {
        if (!context.isNull()) {
            if (context.pb() != null && !context.pb().isNull()) {
                if (headed) {
                    // frees what the muxer keeps; the file itself is thrown away
                    av_write_trailer(context);
                }
                avio_closep(context.pb());
                context.pb(null);
            }
            avformat_free_context(context);
            context.setNull();
        }
        if (!done) {
            try {
                Files.deleteIfExists(partial);
            } catch (IOException e) {
                throw Faults.notWritten(partial, e);
            }
        }
    }
}
