package org.sideport.report.exchange;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.DrawnMark;
import org.sideport.model.MediaTime;

/**
 * One thing that a file says of a recording, before it is held against the case's vocabulary.
 *
 * @param place where it stands in the file, for messages
 * @param from on the recording's timeline
 * @param to after {@code from}; {@code null} for a moment
 * @param text may be empty
 * @param drawing shapes on the picture, where the standard has them; those of {@code detail} come first
 * @param detail what this program itself wrote; {@code null} in a file of another program
 */
public record Note(
        String place,
        MediaTime from,
        @Nullable MediaTime to,
        String text,
        List<DrawnMark> drawing,
        @Nullable Detail detail) {

    public Note {
        drawing = List.copyOf(drawing);
    }
}
