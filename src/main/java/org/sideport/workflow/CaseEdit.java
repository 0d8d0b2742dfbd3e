package org.sideport.workflow;

import java.time.LocalDate;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Consent;

/**
 * What is to be changed of a case sheet; what is {@code null} or absent stays.
 *
 * @param by code of the person who changes it
 * @param descriptors new values by id; an empty one takes the value away
 * @param reviewBy a new day by which the recording must be looked at again
 * @param dropsReview true takes that day away
 */
public record CaseEdit(
        String by,
        @Nullable String trainee,
        @Nullable LocalDate date,
        Map<String, String> descriptors,
        @Nullable Consent consent,
        @Nullable LocalDate reviewBy,
        boolean dropsReview) {

    public CaseEdit {
        descriptors = Map.copyOf(descriptors);
    }
}
