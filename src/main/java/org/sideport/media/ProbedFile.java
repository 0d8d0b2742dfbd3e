package org.sideport.media;

import java.util.List;
import org.sideport.model.Segment;

/** What one file is, as measured, with the doubts about it. Positions in the warnings are within this file alone. */
public record ProbedFile(Segment segment, List<MediaWarning> warnings) {

    public ProbedFile {
        warnings = List.copyOf(warnings);
    }
}
