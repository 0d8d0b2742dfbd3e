package org.sideport.media.track;

import java.util.List;
import org.sideport.media.FrameSweep;

/**
 * The eye over a stretch of a recording.
 *
 * @param scale of the recording's pictures
 * @param endUs end of the stretch, microseconds
 * @param samples in the order of time, at least one
 */
public record EyeTrack(FrameSweep.Scale scale, long endUs, List<EyeSample> samples) {

    public EyeTrack {
        samples = List.copyOf(samples);
        if (samples.isEmpty()) {
            throw new IllegalArgumentException("a track without a moment");
        }
    }
}
