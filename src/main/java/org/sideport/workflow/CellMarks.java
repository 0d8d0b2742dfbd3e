package org.sideport.workflow;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rubric;
import org.sideport.workflow.CohortView.By;
import org.sideport.workflow.CohortView.Competency;

/**
 * The marks behind a cell of the cohort's matrix.
 *
 * @param competency {@code null} for all items
 * @param marks the latest case first
 * @param withheld further marks that are not shown to who asks: of cases that he has still to mark himself
 */
public record CellMarks(
        Rubric rubric, String trainee, @Nullable Competency competency, List<OneMark> marks, int withheld) {

    public CellMarks {
        marks = List.copyOf(marks);
    }

    /**
     * @param recorded true if the case has a recording to look at
     * @param share of the applicable maximum over the items
     * @param items those of the competency that the assessor marked or left unmarked for a reason
     * @param others the rest of the same rating
     * @param closing the assessor's closing words, or empty
     * @param agreed what was agreed to work on next
     */
    public record OneMark(
            String caseCode,
            LocalDate date,
            String assessor,
            boolean blind,
            boolean recorded,
            double share,
            List<OneItem> items,
            List<OneItem> others,
            String closing,
            List<String> agreed) {
        public OneMark {
            items = List.copyOf(items);
            others = List.copyOf(others);
            agreed = List.copyOf(agreed);
        }
    }

    /**
     * @param points {@code null} if it was not applicable
     * @param reason why there are no points; {@code null} where there are
     * @param moments of the recording that the mark rests on
     */
    public record OneItem(
            String item,
            String title,
            @Nullable Integer points,
            @Nullable NotApplicable reason,
            int most,
            String comment,
            List<MediaTime> moments) {
        public OneItem {
            moments = List.copyOf(moments);
        }
    }

    /**
     * @param shown ids of the ratings that may be shown one by one
     * @param recorded which cases have a recording
     */
    static CellMarks of(
            Rubric rubric,
            String trainee,
            @Nullable String competency,
            List<SignedMark> marks,
            Set<Long> shown,
            Predicate<String> recorded) {
        Competency of = competency == null ? null : competency(rubric, competency);
        Map<Boolean, List<Rubric.Item>> items = rubric.items().stream()
                .collect(Collectors.partitioningBy(
                        i -> competency == null || i.domain().equals(competency) || i.id().equals(competency)));
        List<OneMark> all = new ArrayList<>();
        int withheld = 0;
        for (SignedMark mark : marks) {
            Double share = of == null ? (Double) mark.share() : FollowCohort.share(mark, of);
            if (!mark.trainee().equals(trainee) || share == null) {
                continue;
            }
            if (shown.contains(mark.ratingId())) {
                all.add(new OneMark(
                        mark.caseCode(),
                        mark.date(),
                        mark.assessor(),
                        mark.blind(),
                        recorded.test(mark.caseCode()),
                        share,
                        items(rubric, items.getOrDefault(true, List.of()), mark),
                        items(rubric, items.getOrDefault(false, List.of()), mark),
                        mark.rating().comment(),
                        mark.rating().actions()));
            } else {
                withheld++;
            }
        }
        Collections.reverse(all);
        return new CellMarks(rubric, trainee, of, all, withheld);
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
                            score instanceof ItemScore.Excused excused ? excused.reason() : null,
                            rubric.maximumOf(item),
                            score.comment(),
                            score.evidence())));
        }
        return all;
    }
}
