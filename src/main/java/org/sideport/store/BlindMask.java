package org.sideport.store;

import java.io.IOException;
import java.nio.file.Files;
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
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;

/** What is left of a case for an assessor who marks it blind. */
final class BlindMask {

    /** Where files have neutral names, within the workspace. */
    static final String FOLDER = "blind";

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

    static SurgicalCase of(SurgicalCase one, Assignment through, Path dir) {
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
                recording(one.recording(), through, dir),
                // who recorded it and when is part of it, and the director has seen to it
                Consent.UNKNOWN,
                noDate ? null : one.reviewBy(),
                through.hidden());
    }

    private static @Nullable Recording recording(@Nullable Recording whole, Assignment through, Path dir) {
        if (whole == null) {
            return null;
        }
        List<Segment> segments = new ArrayList<>();
        for (Segment one : whole.segments()) {
            Path file = through.hides(Hidden.FILE_NAMES)
                    ? neutral(one.file(), dir, through.label(), segments.size() + 1)
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
        return new Recording(segments);
    }

    /** True for a file under a neutral name: such a place is never written down. */
    static boolean isNeutral(Path file, Path dir) {
        return file.startsWith(dir.resolve(FOLDER));
    }

    /**
     * A link of a neutral name to the file, made if it is not there: symbolic, or hard where the system allows no other.
     * Where neither can be made the name leads nowhere, which is said when the recording is opened.
     */
    private static Path neutral(Path file, Path dir, String label, int number) {
        String name = file.getFileName().toString();
        int dot = name.lastIndexOf('.');
        boolean ends = dot > 0 && name.length() - dot <= 6;
        Path link =
                dir.resolve(FOLDER).resolve(label).resolve(label + "-" + number + (ends ? name.substring(dot) : ""));
        try {
            if (Files.isSymbolicLink(link) && Files.readSymbolicLink(link).equals(file)) {
                return link;
            }
            if (Files.exists(link) && Files.exists(file) && Files.isSameFile(link, file)) {
                return link;
            }
            Files.createDirectories(link.getParent());
            Files.deleteIfExists(link);
            try {
                Files.createSymbolicLink(link, file);
            } catch (IOException | UnsupportedOperationException noSymbolicLinks) {
                Files.createLink(link, file);
            }
        } catch (IOException | UnsupportedOperationException e) {
            org.slf4j.LoggerFactory.getLogger(BlindMask.class).warn("no neutral name for a file of {}", label);
        }
        return link;
    }
}
