package org.sideport.rubric;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score.DomainScore;
import org.sideport.rubric.Score.Verdict;

/**
 * Scores ratings as a share of the applicable maximum: items without points leave both the sum and its maximum, so that
 * a step done by the trainer never counts as zero. With equal weights and a scale up to 5 this is sum / (5 × applicable
 * items), the way of the published form with levels 2 to 5 (Golnik et al. 2013, Trans Am Ophthalmol Soc 111:24).
 */
public final class Scorer {

    /** Keeps a share that equals the standard on paper from missing it by rounding. */
    private static final double ROUNDING = 1e-9;

    private final Rubric rubric;
    private final Map<String, Integer> maxima = new HashMap<>();

    /** Bare marks that were found to fit: in a unit's ratings the same few come again and again. */
    private final Set<ItemScore> fitting = new HashSet<>();

    /** For many ratings with one rubric; one thread at a time. */
    public Scorer(Rubric rubric) {
        this.rubric = rubric;
        rubric.items().forEach(item -> maxima.put(item.id(), rubric.maximumOf(item)));
    }

    /** Running sums of some items. */
    private static final class Sums {
        int items;
        int marked;
        int points;
        int maximum;
        double weighted;
        double weightedMaximum;

        void add(double weight, int itemPoints, int itemMaximum) {
            marked++;
            points += itemPoints;
            maximum += itemMaximum;
            weighted += weight * itemPoints;
            weightedMaximum += weight * itemMaximum;
        }

        @Nullable
        Double share() {
            return marked == 0 ? null : (Double) (weighted / weightedMaximum);
        }
    }

    /**
     * @throws InputException if the rating was made with another rubric or version, or a score does not fit it
     */
    public static Score score(Rubric rubric, Rating rating) {
        return new Scorer(rubric).score(rating);
    }

    /**
     * @throws InputException if the rating was made with another rubric or version, or a score does not fit it
     */
    public Score score(Rating rating) {
        check(rating);
        Map<String, ItemScore> scores = new HashMap<>();
        rating.scores().forEach(score -> scores.putIfAbsent(score.item(), score));
        Sums all = new Sums();
        Map<NotApplicable, Integer> excused = new EnumMap<>(NotApplicable.class);
        List<String> missing = new ArrayList<>();
        List<String> critical = new ArrayList<>();
        List<DomainScore> domains = new ArrayList<>();
        for (Rubric.Item item : rubric.items()) {
            ItemScore score = scores.get(item.id());
            if (score instanceof ItemScore.Marked marked) {
                all.add(item.weight(), marked.points(), maximum(item));
                Integer least = item.criticalMinimum();
                if (least != null && marked.points() < least) {
                    critical.add(item.id());
                }
            } else if (score instanceof ItemScore.Excused reason) {
                excused.merge(reason.reason(), 1, Integer::sum);
            } else {
                missing.add(item.id());
            }
        }
        for (Rubric.Domain domain : rubric.domains()) {
            domains.add(domain(scores, domain.id()));
        }
        Double share = all.share();
        return new Score(
                rubric.id(),
                rubric.version(),
                rubric.items().size(),
                all.marked,
                excused,
                missing,
                all.points,
                all.maximum,
                share,
                domains,
                critical,
                missing.isEmpty() ? verdict(scores, share, critical) : null);
    }

    private DomainScore domain(Map<String, ItemScore> scores, String domain) {
        Sums sums = new Sums();
        for (Rubric.Item item : rubric.items()) {
            if (item.domain().equals(domain)) {
                sums.items++;
                if (scores.get(item.id()) instanceof ItemScore.Marked marked) {
                    sums.add(item.weight(), marked.points(), maximum(item));
                }
            }
        }
        return new DomainScore(domain, sums.items, sums.marked, sums.points, sums.maximum, sums.share());
    }

    /** A measured item, such as a time, can help to meet the standard; it alone never makes a rating miss it. */
    private @Nullable Verdict verdict(Map<String, ItemScore> scores, @Nullable Double share, List<String> critical) {
        Rubric.PassStandard standard = rubric.passStandard();
        if (standard == null || share == null) {
            return null;
        }
        if (!critical.isEmpty()) {
            return Verdict.NOT_MET;
        }
        Double judged = shareOfJudged(scores);
        double best = judged == null ? share : Math.max(share, judged);
        return best + ROUNDING >= standard.share() ? Verdict.MET : Verdict.NOT_MET;
    }

    /** The share without measured items; {@code null} if no other is marked. */
    private @Nullable Double shareOfJudged(Map<String, ItemScore> scores) {
        Sums sums = new Sums();
        for (Rubric.Item item : rubric.items()) {
            if (item.kind() != Rubric.Kind.MEASURED && scores.get(item.id()) instanceof ItemScore.Marked marked) {
                sums.add(item.weight(), marked.points(), maximum(item));
            }
        }
        return sums.share();
    }

    private void check(Rating rating) {
        RubricRef made = new RubricRef(rating.rubric(), rating.rubricVersion());
        if (!made.equals(RubricRef.of(rubric))) {
            throw new InputException(
                    "the rating was made with " + made + ", not with " + RubricRef.of(rubric),
                    null,
                    "choose the rubric that it was made with");
        }
        Set<String> seen = new HashSet<>();
        for (ItemScore score : rating.scores()) {
            if (!fitting.contains(score)) {
                ScoreFault fault = ScoreFault.of(rubric, score);
                if (fault != null) {
                    throw new InputException(fault.what(), "rating", fault.remedy());
                }
                if (score.comment().isEmpty() && score.evidence().isEmpty()) {
                    fitting.add(score);
                }
            }
            if (!seen.add(score.item())) {
                throw new InputException(
                        "\"" + score.item() + "\" is marked twice", "rating", "keep one of the two marks");
            }
        }
    }

    private int maximum(Rubric.Item item) {
        return maxima.getOrDefault(item.id(), 0);
    }
}
