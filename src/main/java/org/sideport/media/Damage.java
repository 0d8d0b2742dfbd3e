package org.sideport.media;

/**
 * A stretch of a recording whose pictures are damaged or missing in the file. Times are microseconds on the recording's
 * timeline, or from the start of the file where only one file is looked at.
 *
 * @param segment position of the file in the recording, from 0
 * @param fromUs start of the first picture concerned
 * @param toUs end of the last picture concerned; equal to {@code fromUs} where nothing that can be timed is lost
 * @param spoiledToUs until when pictures may show it: up to the next that stands by itself
 * @param packets damaged packets; 0 where pictures are missing altogether
 * @param text for people
 */
public record Damage(int segment, Kind kind, long fromUs, long toUs, long spoiledToUs, int packets, String text) {

    /** What is wrong. */
    public enum Kind {
        /** packets are there, and damaged */
        PACKETS,
        /** no picture comes for far longer than usual, in a file that is damaged or else even */
        MISSING,
        /** the end of the file is zeros: space that a recorder reserved and never filled, or that was lost */
        ZERO_TAIL
    }

    public Damage {
        if (segment < 0 || fromUs < 0 || toUs < fromUs || spoiledToUs < toUs || packets < 0) {
            throw new IllegalArgumentException("no stretch of damage: " + fromUs + " to " + toUs + " us");
        }
    }

    /** The same in a recording in which its file starts at {@code startUs}. */
    public Damage in(int newSegment, long startUs) {
        return new Damage(newSegment, kind, fromUs + startUs, toUs + startUs, spoiledToUs + startUs, packets, text);
    }
}
