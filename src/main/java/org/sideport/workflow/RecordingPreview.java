package org.sideport.workflow;

import java.util.ArrayList;
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

    /** What nothing here can settle and a person has to look at or listen to before a recording is passed on. */
    public List<String> reminders() {
        List<String> reminders = new ArrayList<>();
        reminders.add(
                "Look at the first minute yourself: a name or a date may be written in the picture, and a search for"
                        + " it (sideport mask --find) can miss it.");
        if (segments.stream().anyMatch(Segment::audio)) {
            reminders.add(
                    "The recording has sound: people may be named in it. Copies for others leave it out unless told"
                            + " otherwise.");
        }
        return List.copyOf(reminders);
    }

    public Recording recording() {
        return new Recording(segments);
    }
}
