package org.sideport.media.export;

/**
 * A named stretch of one file.
 *
 * @param startUs from the file's first displayed frame, microseconds
 * @param endUs after {@code startUs}, not part of it
 */
public record Chapter(long startUs, long endUs, String title) {
    public Chapter {
        if (startUs < 0 || endUs <= startUs) {
            throw new IllegalArgumentException("no stretch: " + startUs + " to " + endUs);
        }
    }
}
