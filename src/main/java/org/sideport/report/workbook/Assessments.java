package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.report.workbook.Column.Kind;
import org.sideport.report.workbook.WorkbookData.CaseRating;
import org.sideport.rubric.RubricRef;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;

/** The sheets "Assessments" (a row for each rating) and "Ratings" (a row for each item of each rating). */
final class Assessments {

    /** A rating with its score. */
    record Scored(CaseRating of, Score score) {

        /** Whether it counts in the cohort: signed, not superseded, by an assessor, no practice, and complete. */
        boolean counts() {
            return of.state() == RatingState.SIGNED && !of.rating().self() && !of.practice() && score.complete();
        }

        RubricRef rubric() {
            return RubricRef.of(of.rubric());
        }
    }

    record ItemRow(
            Scored rating, Rubric.Item item, @Nullable ItemScore mark) {}

    private final Lookup lookup;
    private final List<Scored> scored;

    /** @throws org.sideport.model.InputException if a rating does not fit its rubric */
    Assessments(WorkbookData data, Lookup lookup) {
        this.lookup = lookup;
        scored = data.ratings().stream()
                .map(r -> new Scored(r, Scorer.score(r.rubric(), r.rating())))
                .sorted(Comparator.comparing((Scored s) -> s.of().caseCode())
                        .thenComparing(s -> s.of().rating().self())
                        .thenComparing(s -> s.of().rating().assessor())
                        .thenComparing(s -> s.rubric().toString())
                        .thenComparing(s -> s.of().state()))
                .toList();
    }

    List<Scored> scored() {
        return scored;
    }

    /** @param prefix of the names by which formulas know the columns */
    private <R> Tables<R> start(String prefix, java.util.function.Function<R, Scored> rating) {
        return new Tables<R>("store: ratings; rubric file")
                .add(
                        "Case",
                        Kind.TEXT,
                        "code of the case",
                        r -> rating.apply(r).of().caseCode())
                .add(
                        "Date",
                        Kind.DATE,
                        "day of the operation",
                        r -> lookup.date(rating.apply(r).of().caseCode()))
                .add(
                        "Trainee",
                        Kind.TEXT,
                        "code of the person whose operation it is",
                        r -> lookup.trainee(rating.apply(r).of().caseCode()))
                .add(
                        "Assessor",
                        Kind.TEXT,
                        "code of the person who marked",
                        r -> rating(rating.apply(r)).assessor())
                .named(prefix + "assessor")
                .add(
                        "Self",
                        Kind.TEXT,
                        "yes if trainees marked their own case",
                        r -> rating(rating.apply(r)).self())
                .add(
                        "Blind",
                        Kind.TEXT,
                        "yes if the assessor could not know whose case it was",
                        r -> rating(rating.apply(r)).blind())
                .add(
                        "State",
                        Kind.TEXT,
                        "draft, signed, or superseded by an amendment",
                        r -> rating.apply(r).of().state().id())
                .add(
                        "Rubric",
                        Kind.TEXT,
                        "id of the rubric",
                        r -> rating.apply(r).of().rubric().id())
                .named(prefix + "rubric")
                .add(
                        "Version",
                        Kind.TEXT,
                        "version of the rubric",
                        r -> rating.apply(r).of().rubric().version())
                .named(prefix + "version");
    }

    private static Rating rating(Scored scored) {
        return scored.of().rating();
    }

    Table<Scored> assessments() {
        Tables<Scored> tables = start("asm_", s -> s);
        tables.add(
                        "Counts",
                        Kind.TEXT,
                        "yes if it enters the figures of a trainee: signed, in force, by an assessor, no practice,"
                                + " complete, with at least one item marked",
                        s -> s.counts() && s.score().share() != null)
                .named("asm_counts")
                .add("Signed (UTC)", Kind.DATE_TIME, "when it was signed, in universal time", s -> s.of().signedAt())
                .add(
                        "Items",
                        Kind.WHOLE,
                        "number of items of the rubric",
                        s -> s.score().items())
                .add(
                        "Items marked",
                        Kind.WHOLE,
                        "items with points: the applicable items. Shares over different numbers of items compare badly",
                        s -> s.score().marked());
        for (NotApplicable reason : NotApplicable.values()) {
            String words = reason.id().replace('_', ' ');
            tables.add(
                    "Items " + words,
                    Kind.WHOLE,
                    "items left unmarked as " + reason.id() + "; they leave the share",
                    s -> s.score().excused().getOrDefault(reason, 0));
        }
        tables.add(
                        "Items missing",
                        Kind.WHOLE,
                        "items with neither points nor a reason; above 0 the rating is incomplete",
                        s -> s.score().missing().size())
                .add(
                        "Points",
                        Kind.WHOLE,
                        "plain sum of the points given",
                        s -> s.score().points())
                .add(
                        "Maximum",
                        Kind.WHOLE,
                        "plain sum of the most points of the marked items",
                        s -> s.score().maximum())
                .add(
                        "Share",
                        Kind.SHARE,
                        "sum of weight × points over sum of weight × most points, over the marked items; blank if"
                                + " nothing is marked. A scale that starts above 0 cannot give 0 %",
                        s -> s.score().share())
                .add(
                        "Critical failures",
                        Kind.WHOLE,
                        "marks below the item's critical minimum",
                        s -> s.score().criticalFailures().size())
                .add(
                        "Items failed critically",
                        Kind.TEXT,
                        "ids of those items",
                        s -> String.join(", ", s.score().criticalFailures()))
                .add(
                        "Pass standard",
                        Kind.SHARE,
                        "least share that the unit agreed on for this rubric; blank if there is none",
                        s -> {
                            Rubric.PassStandard standard = s.of().rubric().passStandard();
                            return standard == null ? null : standard.share();
                        })
                .add(
                        "Verdict",
                        Kind.TEXT,
                        "met or not_met against the pass standard; not_met with any critical failure; blank without a"
                                + " standard, while an item is missing, or if nothing is marked",
                        s -> {
                            Score.Verdict verdict = s.score().verdict();
                            return verdict == null ? null : verdict.name().toLowerCase(java.util.Locale.ROOT);
                        })
                .add(
                        "Comment",
                        Kind.PROSE,
                        "the assessor's comment on the whole",
                        s -> rating(s).comment())
                .add(
                        "Reason of amendment",
                        Kind.PROSE,
                        "why it took the place of an earlier rating",
                        s -> s.of().amendmentReason());
        return tables.table(
                "Assessments",
                "One row for each rating of a case, drafts and superseded ones included: filter by State.",
                scored);
    }

    Table<ItemRow> items() {
        List<ItemRow> rows = new ArrayList<>();
        for (Scored rating : scored) {
            for (Rubric.Item item : rating.of().rubric().items()) {
                rows.add(new ItemRow(
                        rating, item, rating(rating).score(item.id()).orElse(null)));
            }
        }
        Tables<ItemRow> tables = start("rt_", ItemRow::rating);
        tables.add("Domain", Kind.TEXT, "id of the item's domain", r -> r.item().domain())
                .add("Item", Kind.TEXT, "id of the item", r -> r.item().id())
                .add("Item title", Kind.TEXT, "its title", r -> r.item().title())
                .add("Mark", Kind.TEXT, "marked; not_applicable, with the reason beside it; or missing: neither", r -> {
                    ItemScore mark = r.mark();
                    return mark == null ? "missing" : mark instanceof ItemScore.Excused ? "not_applicable" : "marked";
                })
                .add(
                        "Points",
                        Kind.WHOLE,
                        "points given; blank if not marked, which is not 0",
                        r -> r.mark() == null ? null : r.mark().pointsOrNull())
                .add(
                        "Counted or measured",
                        Kind.NUMBER,
                        "the number that gave the points, in the item's unit; blank for an item that is marked"
                                + " directly",
                        r -> r.mark() instanceof ItemScore.Marked marked ? marked.value() : null)
                .add(
                        "Maximum",
                        Kind.WHOLE,
                        "most points that the item can get",
                        r -> r.rating().of().rubric().maximumOf(r.item()))
                .add(
                        "Weight",
                        Kind.NUMBER,
                        "its relative weight in the share",
                        r -> r.item().weight())
                .add(
                        "Critical minimum",
                        Kind.WHOLE,
                        "points below which it is a critical failure; blank if it cannot be one",
                        r -> r.item().criticalMinimum())
                .add(
                        "Not applicable",
                        Kind.TEXT,
                        "reason why there are no points: done_by_trainer, not_visible or not_performed",
                        r -> r.mark() instanceof ItemScore.Excused excused
                                ? excused.reason().id()
                                : null)
                .add(
                        "Comment",
                        Kind.PROSE,
                        "the assessor's comment on the item",
                        r -> r.mark() == null ? null : r.mark().comment());
        return tables.table("Ratings", "One row for each item of each rating, items without a mark included.", rows);
    }

    /** The rubrics in use, each version once. */
    Set<Rubric> rubrics() {
        Set<RubricRef> seen = new LinkedHashSet<>();
        Set<Rubric> rubrics = new LinkedHashSet<>();
        for (Scored rating : scored) {
            if (seen.add(rating.rubric())) {
                rubrics.add(rating.of().rubric());
            }
        }
        return rubrics;
    }
}
