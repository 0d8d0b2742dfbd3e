package org.sideport.workflow;

import java.time.LocalDate;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Consent;

/**
 * What a person says of a case when adding it.
 *
 * @param reviewBy the day by which the recording must be looked at again for deletion, or {@code null}
 */
public record NewCase(
        String code,
        String trainee,
        LocalDate date,
        String procedure,
        Map<String, String> descriptors,
        Consent consent,
        @Nullable LocalDate reviewBy) {

    public NewCase {
        descriptors = Map.copyOf(descriptors);
    }

    /** Without a word about consent. */
    public NewCase(String code, String trainee, LocalDate date, String procedure, Map<String, String> descriptors) {
        this(code, trainee, date, procedure, descriptors, Consent.UNKNOWN, null);
    }
}
