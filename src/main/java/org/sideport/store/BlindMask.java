package org.sideport.store;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.Consent;
import org.sideport.model.Hidden;
import org.sideport.model.MaskArea;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;

/** What is left of a case for an assessor who marks it blind. */
final class BlindMask {

    /**
     * Descriptors that tell of the eye only. What is not named here is left out: nobody can list what a unit's own
     * procedure file may tell of the trainee's stage or of complications.
     */
    private static final Set<String> OF_THE_EYE = Set.of(
            "eye",
            "anaesthesia",
            "nuclear_grade",
            "locs_opalescence",
            "locs_colour",
            "locs_cortical",
            "locs_subcapsular",
            "pupil",
            "axial_length",
            "white_to_white_mm");

    private BlindMask() {}

    /** @param areas of the picture that nobody may see who may not see all of the case */
    static SurgicalCase of(SurgicalCase one, Assignment through, Path dir, List<MaskArea> areas) {
        Map<String, String> kept = new HashMap<>(one.descriptors());
        if (through.hides(Hidden.STAGE) || through.hides(Hidden.COMPLICATIONS)) {
            kept.keySet().retainAll(OF_THE_EYE);
        }
        boolean noDate = through.hides(Hidden.DATE);
        return new SurgicalCase(
                through.label(),
                through.hides(Hidden.TRAINEE) ? "" : one.trainee(),
                noDate ? LocalDate.EPOCH : one.date(),
                one.procedure(),
                kept,
                recording(one.recording(), through, dir, areas),
                // who recorded it and when is part of it, and the director has seen to it
                Consent.UNKNOWN,
                noDate ? null : one.reviewBy(),
                through.hidden());
    }

    private static @Nullable Recording recording(
            @Nullable Recording whole, Assignment through, Path dir, List<MaskArea> areas) {
        if (whole == null) {
            return null;
        }
        List<Segment> segments = new ArrayList<>();
        for (Segment one : whole.segments()) {
            Path file = through.hides(Hidden.FILE_NAMES)
                    ? NeutralNames.of(one.file(), dir, through.label(), segments.size())
                    : one.file();
            segments.add(new Segment(
                    file,
                    one.sha256(),
                    one.size(),
                    one.durationUs(),
                    one.frames(),
                    one.firstUs(),
                    one.fpsNum(),
                    one.fpsDen(),
                    one.variableRate(),
                    one.codec(),
                    one.width(),
                    one.height(),
                    one.sampleAspect(),
                    one.rotation(),
                    one.interlaced(),
                    one.audio() && !through.hides(Hidden.SOUND),
                    List.of()));
        }
        return new Recording(segments, areas);
    }
}
