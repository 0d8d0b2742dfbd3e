package org.sideport.media;

import java.util.List;
import org.sideport.model.Segment;

/**
 * What one file is, as measured, with the doubts about it. Positions are within this file alone.
 *
 * @param damage in order of time
 * @param index when each frame is shown
 */
public record ProbedFile(Segment segment, List<MediaWarning> warnings, List<Damage> damage, FrameIndex index) {

    public ProbedFile {
        warnings = List.copyOf(warnings);
        damage = List.copyOf(damage);
    }
}
