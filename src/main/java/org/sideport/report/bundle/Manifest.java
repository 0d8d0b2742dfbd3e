package org.sideport.report.bundle;

import java.util.List;
import org.jspecify.annotations.Nullable;

/**
 * The table of contents of a bundle: {@code manifest.json}, described by {@code rubrics/case-bundle.schema.json}.
 *
 * @param version of the form
 * @param madeAt ISO 8601
 * @param caseCode code of the case; {@code case} in JSON
 */
record Manifest(
        String format,
        int version,
        @Nullable String program,
        String madeAt,

        @com.fasterxml.jackson.annotation.JsonProperty("case")
        String caseCode,

        String procedure,
        List<Entry> entries) {

    static final String NAME = "manifest.json";
    static final String FORMAT = "sideport-case-bundle";
    static final int VERSION = 2;

    /**
     * @param size bytes
     * @param sha256 64 lower-case hex digits
     */
    record Entry(String name, long size, String sha256) {}
}
