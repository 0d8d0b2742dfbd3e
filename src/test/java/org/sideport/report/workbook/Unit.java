package org.sideport.report.workbook;

import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.Severity;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.report.workbook.WorkbookData.CaseRating;
import org.sideport.report.workbook.WorkbookData.CaseTagging;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.timing.CaseTimer;
import org.sideport.timing.CaseTiming;
import org.sideport.timing.TimingSummary;

/** A made-up unit: cases, marks and taggings out of a fixed seed. Codes only. */
public final class Unit {

    public static final OffsetDateTime CREATED = OffsetDateTime.parse("2026-03-31T16:05:00Z");

    private static final Procedure PROCEDURE = ShippedRubrics.phacoProcedure();
    private static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();

    private Unit() {}

    public static WorkbookData of(int trainees, int casesEach) {
        Random random = new Random(7);
        List<SurgicalCase> cases = new ArrayList<>();
        List<CaseRating> ratings = new ArrayList<>();
        List<CaseTagging> taggings = new ArrayList<>();
        for (int t = 1; t <= trainees; t++) {
            for (int c = 1; c <= casesEach; c++) {
                String code = String.format("C%02d-%03d", t, c);
                LocalDate date = LocalDate.of(2025, 9, 1).plusDays(c * 9L + t);
                cases.add(new SurgicalCase(
                        code,
                        "T" + t,
                        date,
                        "phaco",
                        Map.of(
                                "eye",
                                random.nextBoolean() ? "right" : "left",
                                "nuclear_grade",
                                String.valueOf(1 + random.nextInt(5)),
                                "anaesthesia",
                                "topical"),
                        null));
                ratings.add(rating(random, code, "A" + (1 + random.nextInt(3)), false, c, date));
                if (c % 3 == 0) {
                    ratings.add(rating(random, code, "T" + t, true, c, date));
                }
                taggings.add(new CaseTagging(code, "A1", tagging(random, c), MediaTime.ofSeconds(2400)));
            }
        }
        return data(cases, ratings, taggings);
    }

    public static WorkbookData data(List<SurgicalCase> cases, List<CaseRating> ratings, List<CaseTagging> taggings) {
        CaseTimer timer = new CaseTimer(
                id -> PROCEDURE.find(id).map(term -> term.phase().id()).orElse(id), id -> id.equals("idle"));
        List<CaseTiming> timings = taggings.stream()
                .map(t -> timer.time(t.caseCode(), t.annotator(), t.tagging(), t.recordingEnd()))
                .toList();
        return new WorkbookData(
                cases,
                ratings,
                taggings,
                timings,
                "Trainee",
                TimingSummary.of(
                        timings,
                        timing -> cases.stream()
                                .filter(c -> c.code().equals(timing.caseCode()))
                                .map(SurgicalCase::trainee)
                                .findFirst()
                                .orElse("")),
                List.of(PROCEDURE),
                6,
                CREATED,
                "0.1.0");
    }

    private static CaseRating rating(Random random, String code, String by, boolean self, int number, LocalDate date) {
        List<ItemScore> scores = new ArrayList<>();
        for (Rubric.Item item : RUBRIC.items()) {
            double roll = random.nextDouble();
            if (roll < 0.08 && item.notApplicable().contains(NotApplicable.DONE_BY_TRAINER)) {
                scores.add(new ItemScore.Excused(item.id(), NotApplicable.DONE_BY_TRAINER, ""));
            } else if (item.id().equals("difficulty") && roll < 0.7) {
                scores.add(new ItemScore.Excused(item.id(), NotApplicable.NOT_PERFORMED, ""));
            } else if (number % 11 != 0 || roll < 0.9) {
                int points =
                        (int) Math.max(1, Math.min(4, Math.round(2 + number / 12.0 + random.nextGaussian() * 0.7)));
                String comment =
                        points == 1 ? "Second instrument out of view for most of it; see the marked moment." : "";
                scores.add(new ItemScore.Marked(item.id(), points, comment));
            }
        }
        RatingState state = number % 10 == 0 ? RatingState.DRAFT : RatingState.SIGNED;
        return new CaseRating(
                code,
                new Rating(
                        RUBRIC.id(),
                        RUBRIC.version(),
                        by,
                        self,
                        !self && random.nextBoolean(),
                        scores,
                        "Calm throughout. Next time: lower the tip before the last piece, and ask for the view"
                                + " earlier."),
                RUBRIC,
                state,
                state == RatingState.SIGNED ? date.plusDays(5).atTime(14, 30).atOffset(CREATED.getOffset()) : null,
                "");
    }

    private static Tagging tagging(Random random, int number) {
        List<PhaseSpan> spans = new ArrayList<>();
        List<PointEvent> events = new ArrayList<>();
        double at = 4 + random.nextDouble() * 10;
        String[] order = {
            "side_port",
            "main_incision",
            "ovd_chamber",
            "rhexis",
            "hydrodissection",
            "sculpting",
            "division",
            "fragment_removal",
            "cortex_aspiration",
            "ovd_bag",
            "lens_insertion",
            "lens_positioning",
            "ovd_removal",
            "hydration"
        };
        for (String step : order) {
            double length = Math.exp(3.9 + random.nextGaussian() * 0.5) * (1 + 8.0 / (number + 6));
            spans.add(new PhaseSpan(
                    step,
                    MediaTime.ofSeconds(at),
                    MediaTime.ofSeconds(at + length),
                    random.nextInt(12) == 0 ? Operator.TRAINER : Operator.TRAINEE));
            if (step.equals("fragment_removal") && random.nextInt(8) == 0) {
                events.add(new PointEvent(
                        "capsule_tear_posterior", MediaTime.ofSeconds(at + length / 2), Severity.MAJOR, "last piece"));
            }
            at += length + random.nextDouble() * 20;
        }
        if (random.nextInt(3) == 0) {
            events.add(new PointEvent("teaching_moment", MediaTime.ofSeconds(at / 2), null, "flap folded over well"));
        }
        return new Tagging(TaggingStyle.START_AND_END, spans, events);
    }
}
