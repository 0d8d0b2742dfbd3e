package org.sideport.media.join;

import static org.bytedeco.ffmpeg.global.avutil.av_dict_iterate;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.time.DateTimeException;
import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.bytedeco.ffmpeg.avutil.AVDictionary;
import org.bytedeco.ffmpeg.avutil.AVDictionaryEntry;
import org.bytedeco.ffmpeg.avutil.AVRational;
import org.jspecify.annotations.Nullable;
import org.sideport.media.MediaInput;

/**
 * What a file says about when it was recorded.
 *
 * @param stream its container keeps a clock that may run on from file to file, counted modulo 2^33 ticks of 90 kHz
 * @param creationUs microseconds since 1970; {@code null} where the file does not say
 * @param timeCodeUs microseconds since midnight; {@code null} where the file does not say
 * @param modifiedUs microseconds since 1970; {@code null} where it cannot be read
 */
record FileClocks(
        boolean stream,
        @Nullable Long creationUs,
        @Nullable Long timeCodeUs,
        @Nullable Long modifiedUs) {

    /** Containers that count from 1904 write zero for unknown; no recording of this kind is older than this. */
    private static final Instant EARLIEST = Instant.parse("1990-01-01T00:00:00Z");

    private static final Pattern TIME_CODE = Pattern.compile("(\\d\\d):(\\d\\d):(\\d\\d)([:;.])(\\d\\d)");

    static FileClocks of(MediaInput input) {
        return new FileClocks(
                input.clockMayJump(), micros(find(input, "creation_time")), timeCode(input), modified(input));
    }

    private static @Nullable String find(MediaInput input, String key) {
        String found = find(input.context().metadata(), key);
        for (int i = 0; i < input.context().nb_streams() && found == null; i++) {
            found = find(input.context().streams(i).metadata(), key);
        }
        return found;
    }

    private static @Nullable String find(@Nullable AVDictionary tags, String key) {
        if (tags == null || tags.isNull()) {
            return null;
        }
        for (AVDictionaryEntry entry = av_dict_iterate(tags, null);
                entry != null;
                entry = av_dict_iterate(tags, entry)) {
            if (entry.key()
                    .getString(StandardCharsets.UTF_8)
                    .toLowerCase(Locale.ROOT)
                    .equals(key)) {
                return entry.value().getString(StandardCharsets.UTF_8);
            }
        }
        return null;
    }

    private static @Nullable Long micros(@Nullable String text) {
        if (text == null) {
            return null;
        }
        try {
            Instant instant = Instant.parse(text.strip());
            return instant.isBefore(EARLIEST) ? null : (Long) ChronoUnit.MICROS.between(Instant.EPOCH, instant);
        } catch (DateTimeException | ArithmeticException e) {
            return null;
        }
    }

    private static @Nullable Long timeCode(MediaInput input) {
        String text = find(input, "timecode");
        AVRational rate = input.video().avg_frame_rate();
        return text == null || rate.num() <= 0 ? null : timeCodeUs(text.strip(), rate.num(), rate.den());
    }

    /**
     * Time of day of a time code {@code hh:mm:ss:ff}; with a semicolon before the frames it drops two numbers (four at 60
     * frames a second) each minute but every tenth (SMPTE ST 12-1, 5.2.2).
     *
     * @return {@code null} if it is none
     */
    static @Nullable Long timeCodeUs(String text, int num, int den) {
        Matcher code = TIME_CODE.matcher(text);
        if (!code.matches()) {
            return null;
        }
        long nominal = Math.round((double) num / den);
        long minutes = Long.parseLong(code.group(1)) * 60 + Long.parseLong(code.group(2));
        long frames = (minutes * 60 + Long.parseLong(code.group(3))) * nominal + Long.parseLong(code.group(5));
        if (!code.group(4).equals(":")) {
            frames -= (nominal >= 50 ? 4 : 2) * (minutes - minutes / 10);
        }
        return Math.round(frames * 1e6 * den / num);
    }

    private static @Nullable Long modified(MediaInput input) {
        try {
            return Files.getLastModifiedTime(input.file()).toMillis() * 1_000;
        } catch (IOException e) {
            return null;
        }
    }
}
