package org.sideport.model;

import java.nio.file.Path;
import java.util.List;

/**
 * One file of a recording, as measured from its frames.
 *
 * @param file absolute path where it was last seen
 * @param sha256 lower-case hex digest of the whole file
 * @param size bytes
 * @param durationUs first frame's start to the last frame's end, microseconds
 * @param frames number of displayed frames
 * @param firstUs presentation time of the first displayed frame in the file's own clock, microseconds
 * @param fpsNum average frame rate, numerator
 * @param fpsDen average frame rate, denominator
 * @param variableRate true if frame durations differ by more than the clock's rounding
 * @param sampleAspect width to height of one pixel, such as {@code 1:1}
 * @param rotation clockwise degrees to turn the coded picture for display: 0, 90, 180 or 270
 * @param identityTags container tags that may name a person, place or device, as {@code key=value}
 */
public record Segment(
        Path file,
        String sha256,
        long size,
        long durationUs,
        long frames,
        long firstUs,
        long fpsNum,
        long fpsDen,
        boolean variableRate,
        String codec,
        int width,
        int height,
        String sampleAspect,
        int rotation,
        boolean interlaced,
        boolean audio,
        List<String> identityTags) {

    public Segment {
        identityTags = List.copyOf(identityTags);
    }

    /** Of the picture as it is seen, pixels. */
    public int uprightHeight() {
        return rotation % 180 == 0 ? height : width;
    }

    public Segment withFile(Path newFile) {
        return new Segment(
                newFile,
                sha256,
                size,
                durationUs,
                frames,
                firstUs,
                fpsNum,
                fpsDen,
                variableRate,
                codec,
                width,
                height,
                sampleAspect,
                rotation,
                interlaced,
                audio,
                identityTags);
    }
}
