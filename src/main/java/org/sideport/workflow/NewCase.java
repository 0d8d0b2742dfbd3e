package org.sideport.workflow;

import java.time.LocalDate;
import java.util.Map;

/** What a person says of a case when adding it. */
public record NewCase(String code, String trainee, LocalDate date, String procedure, Map<String, String> descriptors) {

    public NewCase {
        descriptors = Map.copyOf(descriptors);
    }
}
