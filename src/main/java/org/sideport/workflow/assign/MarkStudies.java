package org.sideport.workflow.assign;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.ItemScore;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.Scorer;
import org.sideport.stats.Outcome;
import org.sideport.stats.data.Factor;
import org.sideport.stats.data.LongData;
import org.sideport.stats.rasch.Estimation;
import org.sideport.stats.rasch.ManyFacetRasch;
import org.sideport.stats.rasch.Markings;
import org.sideport.stats.rasch.StepModel;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.StoredRubrics;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** What the signed marks of a unit say of its assessors and of how much a decision can rest on them. */
public final class MarkStudies {

    private final Workspace workspace;

    public MarkStudies(Workspace workspace) {
        this.workspace = workspace;
    }

    private record Signed(StoredRating rating, SurgicalCase of) {}

    private List<Signed> signed(String rubricId) {
        Access.require(workspace, Permission.SEE_COHORT);
        return workspace.read(stores -> {
            Map<String, SurgicalCase> cases = new HashMap<>();
            stores.cases().all().forEach(c -> cases.put(c.code(), c));
            List<Signed> signed = new ArrayList<>();
            Adjudication.bySameRubric(stores.ratings().all())
                    .values()
                    .forEach(list -> list.forEach(r -> {
                        SurgicalCase of = cases.get(r.caseCode());
                        if (of != null
                                && of.hidden().isEmpty()
                                && r.rating().rubric().equals(rubricId)) {
                            signed.add(new Signed(r, of));
                        }
                    }));
            return signed;
        });
    }

    /**
     * Severity of each assessor in logits, out of all signed marks of level items. Each case stands for itself, so that a
     * trainee's learning does not look like severity; only cases that two or more marked tell of the difference.
     *
     * @param level of the limits, such as 0.95
     */
    public Outcome<ManyFacetRasch> severity(String rubricId, double level) {
        List<String> cases = new ArrayList<>();
        List<String> assessors = new ArrayList<>();
        List<String> items = new ArrayList<>();
        List<Integer> levels = new ArrayList<>();
        Map<String, Rubric> rubrics = new HashMap<>();
        for (Signed one : signed(rubricId)) {
            Rubric rubric = rubrics.computeIfAbsent(
                    one.rating().rating().rubricVersion(), version -> StoredRubrics.of(one.rating()));
            for (ItemScore score : one.rating().rating().scores()) {
                Integer points = score.pointsOrNull();
                Rubric.Item item = rubric.item(score.item()).orElse(null);
                if (points != null && item != null && item.kind() == Rubric.Kind.LEVEL) {
                    cases.add(one.of().code());
                    assessors.add(one.rating().rating().assessor());
                    items.add(item.id());
                    levels.add(rubric.pointsOf(item).indexOf(points));
                }
            }
        }
        Markings marks = new Markings(
                Factor.of("case", cases),
                Factor.of("assessor", assessors),
                Factor.of("item", items),
                levels.stream().mapToInt(Integer::intValue).toArray());
        return ManyFacetRasch.fit(marks, StepModel.RATING_SCALE, Estimation.BIAS_REDUCED, level);
    }

    /** Shares of the applicable maximum by trainee, case and assessor, for a study of generalisability. */
    public LongData shares(String rubricId) {
        List<String> trainees = new ArrayList<>();
        List<String> cases = new ArrayList<>();
        List<String> assessors = new ArrayList<>();
        List<Double> shares = new ArrayList<>();
        for (Signed one : signed(rubricId)) {
            Double share = Scorer.score(
                            StoredRubrics.of(one.rating()), one.rating().rating())
                    .share();
            if (share != null) {
                trainees.add(one.of().trainee());
                cases.add(one.of().code());
                assessors.add(one.rating().rating().assessor());
                shares.add(share);
            }
        }
        return new LongData(
                List.of(Factor.of("trainee", trainees), Factor.of("case", cases), Factor.of("assessor", assessors)),
                shares.stream().mapToDouble(Double::doubleValue).toArray());
    }
}
