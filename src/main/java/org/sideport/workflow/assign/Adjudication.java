package org.sideport.workflow.assign;

import java.time.Clock;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.AgreedMark;
import org.sideport.model.Assignment;
import org.sideport.model.InputException;
import org.sideport.model.MarkingRules;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;
import org.sideport.store.CohortStore;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.store.Workspace;
import org.sideport.workflow.StoredRubrics;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * Finds cases whose marks differ beyond the unit's limits, and records how people settled them. The marks themselves stay
 * as they were signed.
 */
public final class Adjudication {

    /** Keeps a difference that equals the limit on paper from missing it by rounding. */
    private static final double ROUNDING = 1e-9;

    private final Workspace workspace;
    private final Clock clock;

    public Adjudication(Workspace workspace, Clock clock) {
        this.workspace = workspace;
        this.clock = clock;
    }

    /** How far a case with differing marks has come. */
    public enum Stage {
        /** Differs beyond the limits, and nobody was asked for a third opinion. */
        THIRD_WANTED,
        /** A third assessor has it. */
        THIRD_OPEN,
        /** Three or more have marked it. */
        TO_SETTLE,
        /** Settled since the last of its marks was signed. */
        SETTLED
    }

    /**
     * A case marked by two or more on one rubric, whose marks differ beyond the limits.
     *
     * @param assessors with their shares of the applicable maximum, in the order of signing
     * @param shareGap largest difference of two shares
     * @param far most items that two assessors marked {@link MarkingRules#FAR} levels apart or more
     * @param shared items that those two both marked
     * @param settled {@code null} if it was never settled
     */
    public record Disagreement(
            String caseCode,
            String rubric,
            Map<String, Double> assessors,
            double shareGap,
            int far,
            int shared,
            Stage stage,
            @Nullable AgreedMark settled) {}

    /**
     * What was settled, with what it amounts to.
     *
     * @param standing the assessor whose marks stand, or {@code null} if they were agreed anew
     */
    public record Settled(AgreedMark mark, @Nullable String standing, Score score) {}

    /** As the unit has set them. */
    public MarkingRules rules() {
        Access.require(workspace, Permission.ASSIGN);
        return workspace.read(stores -> stores.rules().rules());
    }

    public void setRules(MarkingRules rules) {
        Access.require(workspace, Permission.ASSIGN);
        workspace.change(stores -> {
            MarkingRules before = stores.rules().rules();
            stores.rules().save(rules);
            stores.audit().add("marking.rules", "unit", text(before), text(rules));
        });
    }

    private static String text(MarkingRules rules) {
        return "self_first " + rules.selfFirst() + ", share " + rules.shareLimit() + ", items " + rules.itemsLimit();
    }

    /**
     * Cases with marks that differ beyond the limits, those that wait for somebody first, then by code. Cases with reference
     * marks are for practice and not among them, nor are those that the caller has still to mark.
     */
    public List<Disagreement> disagreements() {
        Access.require(workspace, Permission.ADJUDICATE);
        return workspace.read(Adjudication::find);
    }

    private static List<Disagreement> find(Stores stores) {
        MarkingRules rules = stores.rules().rules();
        Map<String, AgreedMark> settled = new HashMap<>();
        stores.agreedMarks().all(AgreedMark.Purpose.ADJUDICATION).forEach(m -> settled.put(key(m), m));
        CohortStore.Practice practice = stores.cohort().practice();
        Map<String, List<Assignment>> thirds = stores.assignments().all().stream()
                .filter(a -> a.purpose() == Assignment.Purpose.THIRD && a.state() == Assignment.State.OPEN)
                .collect(Collectors.groupingBy(Assignment::caseCode));
        Map<String, Rubric> rubrics = new HashMap<>();
        List<Disagreement> found = new ArrayList<>();
        bySameRubric(stores.ratings().all(Access.marks(stores.caller()))).forEach((key, ratings) -> {
            StoredRating first = ratings.get(0);
            if (ratings.size() < 2
                    || practice.isReference(
                            first.caseCode(),
                            first.rating().rubric(),
                            first.rating().rubricVersion())) {
                return;
            }
            Rubric rubric = rubrics.computeIfAbsent(
                    first.rating().rubric() + " " + first.rating().rubricVersion(), k -> StoredRubrics.of(first));
            boolean third = thirds.containsKey(first.caseCode());
            Disagreement one = compare(rubric, ratings, rules, settled.get(key), third);
            if (one != null) {
                found.add(one);
            }
        });
        found.sort(Comparator.comparing(Disagreement::stage).thenComparing(Disagreement::caseCode));
        return found;
    }

    private static String key(AgreedMark mark) {
        return mark.caseCode() + " " + mark.rubric() + " " + mark.rubricVersion();
    }

    /** Signed marks of assessors by case and rubric version, in the order of signing. */
    static Map<String, List<StoredRating>> bySameRubric(List<StoredRating> all) {
        return all.stream()
                .filter(r -> r.state() == RatingState.SIGNED && !r.rating().self())
                .sorted(Comparator.comparing(StoredRating::caseCode)
                        .thenComparing(r -> String.valueOf(r.signedAt()))
                        .thenComparing(StoredRating::id))
                .collect(Collectors.groupingBy(
                        r -> r.caseCode() + " " + r.rating().rubric() + " "
                                + r.rating().rubricVersion(),
                        LinkedHashMap::new,
                        Collectors.toList()));
    }

    private static @Nullable Disagreement compare(
            Rubric rubric,
            List<StoredRating> ratings,
            MarkingRules rules,
            @Nullable AgreedMark settled,
            boolean thirdOpen) {
        Map<String, Double> shares = new LinkedHashMap<>();
        double widest = 0;
        int far = 0;
        int shared = 0;
        for (StoredRating one : ratings) {
            Double share = Scorer.score(rubric, one.rating()).share();
            if (share == null) {
                continue;
            }
            for (StoredRating other : ratings) {
                Double its = shares.get(other.rating().assessor());
                if (its != null) {
                    widest = Math.max(widest, Math.abs(share - its));
                    MarkGap gap = MarkGap.of(rubric, one.rating(), other.rating());
                    if (gap.far() > far || shared == 0) {
                        far = gap.far();
                        shared = gap.shared();
                    }
                }
            }
            shares.put(one.rating().assessor(), share);
        }
        if (widest + ROUNDING < rules.shareLimit() && far < rules.itemsLimit()) {
            return null;
        }
        boolean current = settled != null
                && ratings.stream()
                        .allMatch(r -> r.signedAt() == null || !r.signedAt().isAfter(settled.agreedAt()));
        Stage stage = current
                ? Stage.SETTLED
                : thirdOpen ? Stage.THIRD_OPEN : ratings.size() > 2 ? Stage.TO_SETTLE : Stage.THIRD_WANTED;
        return new Disagreement(
                ratings.get(0).caseCode(),
                ratings.get(0).rating().rubric(),
                shares,
                widest,
                far,
                shared,
                stage,
                settled);
    }

    /**
     * The marks that people have before them when they agree anew.
     *
     * @param rubric in the version that was marked with
     * @param by what each assessor signed, in the order of signing
     */
    public record Differing(Rubric rubric, List<Rating> by) {}

    /**
     * @throws InputException if fewer than two have signed marks
     */
    public Differing differing(String caseCode, String rubric) {
        Access.require(workspace, Permission.ADJUDICATE, caseCode);
        return workspace.read(stores -> {
            List<StoredRating> signed = signed(stores, caseCode, rubric);
            return new Differing(
                    StoredRubrics.of(signed.get(0)),
                    signed.stream().map(StoredRating::rating).toList());
        });
    }

    /**
     * Records that the marks of one assessor stand.
     *
     * @param by codes of those who decided; empty for who signed in
     * @throws InputException if fewer than two have signed marks, that assessor has not, or no reason or person is given
     */
    public Settled letStand(String caseCode, String rubric, String assessor, String by, String why) {
        Access.require(workspace, Permission.ADJUDICATE, caseCode);
        return workspace.write(stores -> {
            List<StoredRating> signed = signed(stores, caseCode, rubric);
            StoredRating standing = signed.stream()
                    .filter(r -> r.rating().assessor().equals(assessor.strip()))
                    .findFirst()
                    .orElseThrow(() -> new InputException(
                            assessor + " has signed no marks of " + caseCode,
                            null,
                            "name one of "
                                    + signed.stream()
                                            .map(r -> r.rating().assessor())
                                            .collect(Collectors.joining(", "))));
            return settle(stores, standing, standing.rating(), standing.id(), by, why, signed);
        });
    }

    /**
     * Records marks that were agreed upon anew.
     *
     * @param agreed marks of every item, or a reason; made with the version that the assessors used
     * @throws InputException as {@link #letStand}, or if an item is missing
     */
    public Settled agree(String caseCode, Rating agreed, String by, String why) {
        Access.require(workspace, Permission.ADJUDICATE, caseCode);
        return workspace.write(stores -> {
            List<StoredRating> signed = signed(stores, caseCode, agreed.rubric());
            return settle(stores, signed.get(0), agreed, null, by, why, signed);
        });
    }

    private static List<StoredRating> signed(Stores stores, String caseCode, String rubric) {
        if (!stores.cases().get(caseCode).hidden().isEmpty()) {
            throw Assignments.blindYourself(caseCode);
        }
        List<StoredRating> signed =
                bySameRubric(stores.ratings().ofCase(caseCode, Access.marks(stores.caller()))).values().stream()
                        .filter(list -> list.get(0).rating().rubric().equals(rubric))
                        .max(Comparator.comparingInt(List::size))
                        .orElse(List.of());
        if (signed.size() < 2) {
            throw new InputException(
                    caseCode + " has no two signed marks on " + rubric + " to decide between that you may see",
                    null,
                    "have it marked by a second assessor first; whoever has still to mark it signs the own marks"
                            + " before");
        }
        return signed;
    }

    private Settled settle(
            Stores stores,
            StoredRating sample,
            Rating marks,
            @Nullable Long stands,
            String by,
            String why,
            List<StoredRating> signed) {
        AgreedMark mark = AgreedMarks.made(
                stores, sample.caseCode(), marks, AgreedMark.Purpose.ADJUDICATION, stands, by, why, clock.instant());
        Score score = AgreedMarks.complete(StoredRubrics.of(sample), mark);
        stores.agreedMarks().add(mark);
        String before =
                signed.stream().map(r -> r.rating().assessor() + " #" + r.id()).collect(Collectors.joining(", "));
        stores.audit()
                .add(
                        "marks.adjudicate",
                        sample.caseCode(),
                        before,
                        stands == null
                                ? "agreed " + mark.id()
                                : marks.assessor() + " #" + stands + " stands, " + mark.id());
        return new Settled(mark, stands == null ? null : marks.assessor(), score);
    }
}
