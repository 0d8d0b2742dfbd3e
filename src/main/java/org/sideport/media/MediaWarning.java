package org.sideport.media;

import org.jspecify.annotations.Nullable;

/**
 * A doubt about a recording that does not stop its use, or stops it until a person accepts it.
 *
 * @param code stable name for programs
 * @param text for people
 * @param segment position of the file in the recording, from 0; {@code null} for the whole
 * @param atUs where on the recording's timeline, microseconds; {@code null} if nowhere in particular
 */
public record MediaWarning(
        Code code,
        String text,
        @Nullable Integer segment,
        @Nullable Long atUs) {

    public enum Code {
        /** the file or its folder bears what may be a name, a number or a date of a person */
        IDENTITY_IN_NAME,
        /** the container's tags may name a person, place or device */
        IDENTITY_IN_TAGS,
        /** the header around the video holds data of a patient or of the people and places of the operation */
        IDENTITY_IN_HEADER,
        /** the header around the video says another length or rate than the stream has */
        HEADER_DIFFERS,
        /** the container promises more than can be read */
        CUT_SHORT,
        /** packets without presentation times: times are worked out from decoding order */
        TIMES_GUESSED,
        /** frames that share a presentation time were dropped */
        DUPLICATE_TIMES,
        /** the clock of a program or transport stream starts anew or leaps: parts are put end to end */
        CLOCK_JUMPS,
        /** the file starts with pictures that nothing can be decoded from */
        STARTS_MIDWAY,
        /** the demuxer met damage */
        DAMAGED,
        /** files of one recording differ in picture size */
        SIZES_DIFFER,
        /** the same file twice in one recording */
        SAME_FILE_TWICE;

        /** As written in JSON: lower case. */
        public String id() {
            return name().toLowerCase(java.util.Locale.ROOT);
        }
    }
}
