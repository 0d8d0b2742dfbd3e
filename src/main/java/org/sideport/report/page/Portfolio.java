package org.sideport.report.page;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;

/**
 * What a trainee has to show: cases, signed marks with their digests, progress.
 *
 * @param procedure its title
 * @param cases by date
 * @param leftOut how many more there are without consent for assessment use
 * @param marks signed ones by case and signing; those with this procedure
 * @param charts of progress, with their sentences
 */
public record Portfolio(
        String trainee,
        String procedure,
        List<OneCase> cases,
        int leftOut,
        List<Dated> marks,
        List<Chart> charts,
        OffsetDateTime madeAt,
        String program) {

    public Portfolio {
        cases = List.copyOf(cases);
        marks = List.copyOf(marks);
        charts = List.copyOf(charts);
    }

    /**
     * @param share of the applicable marks, mean over the assessors; {@code null} without signed marks of the rubric that is
     *     charted
     */
    public record OneCase(
            int number,
            String code,
            LocalDate date,
            @Nullable Double share,
            int assessors) {}

    public record Dated(LocalDate date, Feedback.Signed signed) {}
}
