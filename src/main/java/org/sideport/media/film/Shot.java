package org.sideport.media.film;

import java.nio.file.Path;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;

/**
 * One stretch of a film.
 *
 * @param seen what is on the screen, by the time from the shot's start
 * @param lengthUs above 0
 * @param voice sound file of a spoken comment, heard from the shot's start; {@code null} for silence
 */
public record Shot(SeenTrack seen, long lengthUs, @Nullable Path voice) {

    public Shot {
        if (lengthUs <= 0) {
            throw new IllegalArgumentException("a shot has a length: " + lengthUs);
        }
    }

    /** The recording as it is, without sound. */
    public static Shot of(MediaTime from, MediaTime to) {
        return new Shot(
                new SeenTrack(List.of(new SeenEvent.Run(0, from, 1))),
                to.minus(from).micros(),
                null);
    }
}
