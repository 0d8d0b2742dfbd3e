package org.sideport.model;

import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * One line of the list of cases: enough to show, search and filter it, and no more.
 *
 * @param durationUs length of the recording in microseconds; {@code null} without a recording
 * @param files number of its files
 * @param annotators codes of those who tagged it
 * @param assessors codes of those whose marks are in force, the trainee's own left out
 * @param selfMarked true if the trainee marks or has marked it
 * @param marked true if an assessor marks or has marked it
 * @param signed true if an assessor has signed marks
 * @param searchText all that a search looks through, lower case
 * @param hidden as of {@link SurgicalCase#hidden()}
 */
public record CaseSummary(
        String code,
        String trainee,
        LocalDate date,
        String procedure,
        @Nullable Long durationUs,
        int files,
        List<String> annotators,
        List<String> assessors,
        boolean selfMarked,
        boolean marked,
        boolean signed,
        ConsentState consent,
        @Nullable LocalDate reviewBy,
        String searchText,
        Set<Hidden> hidden) {

    /** With nothing hidden. */
    public CaseSummary(
            String code,
            String trainee,
            LocalDate date,
            String procedure,
            @Nullable Long durationUs,
            int files,
            List<String> annotators,
            List<String> assessors,
            boolean selfMarked,
            boolean marked,
            boolean signed,
            ConsentState consent,
            @Nullable LocalDate reviewBy,
            String searchText) {
        this(
                code,
                trainee,
                date,
                procedure,
                durationUs,
                files,
                annotators,
                assessors,
                selfMarked,
                marked,
                signed,
                consent,
                reviewBy,
                searchText,
                Set.of());
    }

    public boolean tagged() {
        return !annotators.isEmpty();
    }

    public boolean hasRecording() {
        return files > 0;
    }

    /** True if the day by which the recording must be looked at again is {@code today} or before. */
    public boolean reviewDue(LocalDate today) {
        LocalDate by = reviewBy;
        return by != null && !by.isAfter(today);
    }

    /**
     * What is left of the line for an assessor who may not know the case yet: what he may see, and that he may see it.
     *
     * @param label what the case is called for him
     */
    public CaseSummary veiled(String label, Set<Hidden> kept) {
        return new CaseSummary(
                label,
                kept.contains(Hidden.TRAINEE) ? "" : trainee,
                kept.contains(Hidden.DATE) ? LocalDate.EPOCH : date,
                procedure,
                durationUs,
                files,
                List.of(),
                List.of(),
                false,
                false,
                false,
                consent,
                kept.contains(Hidden.DATE) ? null : reviewBy,
                label.toLowerCase(Locale.ROOT),
                kept);
    }

    /** What a search looks through: the codes, the date and the values of the descriptors. */
    public static String searchText(
            String code,
            String trainee,
            String date,
            String descriptors,
            List<String> annotators,
            List<String> assessors) {
        return String.join(
                        "\n",
                        code,
                        trainee,
                        date,
                        descriptors,
                        String.join("\n", annotators),
                        String.join("\n", assessors))
                .toLowerCase(Locale.ROOT);
    }
}
