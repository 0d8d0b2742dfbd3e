package org.sideport.workflow;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Rubric;
import org.sideport.workflow.CohortView.By;
import org.sideport.workflow.CohortView.Competency;

/**
 * The marks behind a cell of the cohort's matrix.
 *
 * @param competency {@code null} for all items
 * @param marks the latest case first
 */
public record CellMarks(
        Rubric rubric, String trainee, @Nullable Competency competency, List<OneMark> marks) {

    public CellMarks {
        marks = List.copyOf(marks);
    }

    /**
     * @param share of the applicable maximum over the items
     * @param items those of the competency that the assessor marked or left unmarked for a reason
     */
    public record OneMark(
            String caseCode, LocalDate date, String assessor, boolean blind, double share, List<OneItem> items) {
        public OneMark {
            items = List.copyOf(items);
        }
    }

    /**
     * @param points {@code null} if it was not applicable
     * @param moments of the recording that the mark rests on
     */
    public record OneItem(
            String item, String title, @Nullable Integer points, int most, String comment, List<MediaTime> moments) {
        public OneItem {
            moments = List.copyOf(moments);
        }
    }

    static CellMarks of(Rubric rubric, String trainee, @Nullable String competency, List<SignedMark> marks) {
        Competency of = competency == null ? null : competency(rubric, competency);
        List<Rubric.Item> items = rubric.items().stream()
                .filter(i -> competency == null || i.domain().equals(competency) || i.id().equals(competency))
                .toList();
        List<OneMark> all = new ArrayList<>();
        for (SignedMark mark : marks) {
            Double share = of == null ? (Double) mark.share() : FollowCohort.share(mark, of);
            if (mark.trainee().equals(trainee) && share != null) {
                all.add(new OneMark(
                        mark.caseCode(),
                        mark.date(),
                        mark.assessor(),
                        mark.blind(),
                        share,
                        items(rubric, items, mark)));
            }
        }
        Collections.reverse(all);
        return new CellMarks(rubric, trainee, of, all);
    }

    private static Competency competency(Rubric rubric, String id) {
        for (By by : By.values()) {
            for (Competency one : FollowCohort.competencies(rubric, by)) {
                if (one.id().equals(id)) {
                    return one;
                }
            }
        }
        throw new InputException(
                "rubric " + rubric.id() + " has neither a domain nor an item \"" + id + "\"",
                null,
                "see them with: sideport rubric list");
    }

    private static List<OneItem> items(Rubric rubric, List<Rubric.Item> items, SignedMark mark) {
        List<OneItem> all = new ArrayList<>();
        for (Rubric.Item item : items) {
            mark.rating()
                    .score(item.id())
                    .ifPresent(score -> all.add(new OneItem(
                            item.id(),
                            item.title(),
                            score.pointsOrNull(),
                            rubric.maximumOf(item),
                            score.comment(),
                            score.evidence())));
        }
        return all;
    }
}
