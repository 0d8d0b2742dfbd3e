package org.sideport.workflow;

import java.util.List;
import org.sideport.media.MediaWarning;
import org.sideport.model.Recording;
import org.sideport.model.Segment;

/** Files as one recording, looked at but not yet taken in. */
public record RecordingPreview(List<Segment> segments, List<MediaWarning> warnings) {

    public RecordingPreview {
        segments = List.copyOf(segments);
        warnings = List.copyOf(warnings);
    }

    public Recording recording() {
        return new Recording(segments);
    }
}
