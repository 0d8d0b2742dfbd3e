package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.AV_ERROR_MAX_STRING_SIZE;
import static org.bytedeco.ffmpeg.global.avutil.AV_LOG_FATAL;
import static org.bytedeco.ffmpeg.global.avutil.av_log_set_level;
import static org.bytedeco.ffmpeg.global.avutil.av_max_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_strerror;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import org.bytedeco.javacpp.BytePointer;

/** What every use of FFmpeg's libraries shares. */
public final class Ffmpeg {

    /** Pictures beyond twice the area of 8K are taken for a lie of the header: they would fill the memory. */
    static final long MOST_PIXELS = 8192L * 8192;

    /** No single piece of memory may be larger, bytes: a picture of {@link #MOST_PIXELS} with 16 bits fits. */
    private static final long LARGEST_PIECE = 1L << 29;

    private Ffmpeg() {}

    /** Keeps the libraries from writing to standard error: faults are reported as exceptions and warnings. */
    public static void quiet() {
        av_log_set_level(AV_LOG_FATAL);
        av_max_alloc(LARGEST_PIECE);
    }

    /** The path as the libraries take it: UTF-8, and "file:" so that a colon in a name is no protocol. */
    public static BytePointer url(Path file) {
        return new BytePointer("file:" + file.toAbsolutePath(), StandardCharsets.UTF_8);
    }

    /** What one of the libraries' negative return codes means. */
    public static String errorText(int code) {
        byte[] text = new byte[AV_ERROR_MAX_STRING_SIZE];
        av_strerror(code, text, text.length);
        int end = 0;
        while (end < text.length && text[end] != 0) {
            end++;
        }
        return new String(text, 0, end, StandardCharsets.UTF_8);
    }
}
