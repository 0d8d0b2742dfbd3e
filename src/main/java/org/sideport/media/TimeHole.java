package org.sideport.media;

/**
 * A place inside one file where no frame comes for far longer than usual.
 *
 * @param segment position of the file in the recording, from 0
 * @param startUs when the next frame would have been due, microseconds on the recording's timeline
 * @param endUs when the next frame comes, microseconds on the recording's timeline
 */
public record TimeHole(int segment, long startUs, long endUs) {

    public TimeHole {
        if (segment < 0 || startUs < 0 || endUs <= startUs) {
            throw new IllegalArgumentException(
                    "no hole in the times: segment " + segment + ", " + startUs + " to " + endUs + " us");
        }
    }
}
