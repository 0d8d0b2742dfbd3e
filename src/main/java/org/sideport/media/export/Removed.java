package org.sideport.media.export;

import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * One thing that a neutral copy does not have.
 *
 * @param stream number of the stream in the original; {@code null} for the file as a whole
 * @param name tag name, kind of stream or title
 * @param value what a tag said; {@code null} where there is no text
 */
public record Removed(
        Kind kind,
        @Nullable Integer stream,
        String name,
        @Nullable String value) {

    public enum Kind {
        TAG,
        CHAPTER,
        /** a sound track */
        SOUND,
        /** a further picture, subtitles, data, an attachment */
        STREAM,
        /** supplemental information inside the pictures */
        SEI,
        /** the DICOM header around the video, whose words are never shown */
        HEADER;

        /** As written in JSON: lower case. */
        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }
    }
}
