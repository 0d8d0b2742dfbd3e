package org.sideport.model;

import java.time.LocalDate;
import java.util.Collections;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;

/**
 * One operation that is assessed.
 *
 * @param code the case's own code, never a patient's name or number
 * @param trainee code of the person whose operation it is
 * @param procedure id of the procedure file
 * @param descriptors case descriptors and machine readings by id, such as {@code nuclear_grade}
 * @param recording {@code null} if timings and marks come from elsewhere
 * @param reviewBy the day by which the recording must be looked at again for deletion, or {@code null}
 * @param hidden what is left out of this record because its reader may not know it yet; then {@code code} is a label, a
 *     hidden trainee is empty, and a hidden date means nothing
 */
public record SurgicalCase(
        String code,
        String trainee,
        LocalDate date,
        String procedure,
        Map<String, String> descriptors,
        @Nullable Recording recording,
        Consent consent,
        @Nullable LocalDate reviewBy,
        Set<Hidden> hidden) {

    public SurgicalCase {
        hidden = Set.copyOf(hidden);
        descriptors = Collections.unmodifiableMap(new TreeMap<>(descriptors));
    }

    /** With nothing hidden. */
    public SurgicalCase(
            String code,
            String trainee,
            LocalDate date,
            String procedure,
            Map<String, String> descriptors,
            @Nullable Recording recording,
            Consent consent,
            @Nullable LocalDate reviewBy) {
        this(code, trainee, date, procedure, descriptors, recording, consent, reviewBy, Set.of());
    }

    /** A case of which nothing is known about consent. */
    public SurgicalCase(
            String code,
            String trainee,
            LocalDate date,
            String procedure,
            Map<String, String> descriptors,
            @Nullable Recording recording) {
        this(code, trainee, date, procedure, descriptors, recording, Consent.UNKNOWN, null);
    }

    /** The trainee's code, or {@code null} where it is hidden. */
    public @Nullable String traineeOrNull() {
        return hides(Hidden.TRAINEE) ? null : trainee;
    }

    /** The day, or {@code null} where it is hidden. */
    public @Nullable LocalDate dateOrNull() {
        return hides(Hidden.DATE) ? null : date;
    }

    public boolean hides(Hidden what) {
        return hidden.contains(what);
    }
}
