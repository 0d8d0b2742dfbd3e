package org.sideport.workflow;

import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Sha256;
import org.sideport.model.Standard;
import org.sideport.stats.Outcome;
import org.sideport.stats.Refusal;
import tools.jackson.databind.json.JsonMapper;

/** The figures of a decision view by their names, the same for every face, and their digest. */
public final class DecisionFigures {

    private static final JsonMapper MAPPER = JsonMapper.builder().build();

    private DecisionFigures() {}

    /** Snake-case keys; shares 0 to 1; unknown is {@code null}; single marks only those that may be shown. */
    public static Map<String, @Nullable Object> of(DecisionView view) {
        return of(view, view.shown());
    }

    private static Map<String, @Nullable Object> of(DecisionView view, List<SignedMark> marks) {
        Map<String, @Nullable Object> figures = new LinkedHashMap<>();
        figures.put("trainee", view.trainee());
        figures.put("rubric", view.rubric().id());
        figures.put("rubric_version", view.rubric().version());
        figures.put("last_cases", view.last() == 0 ? null : view.last());
        figures.put("marks", marks.stream().map(DecisionFigures::mark).toList());
        figures.put("marks_with_other_versions", view.withOtherVersions());
        figures.put("cases", view.cases());
        figures.put("assessors", view.assessors());
        figures.put("blind_marks", view.blindMarks());
        figures.put("mean_share", view.mean());
        precision(figures, view.precision());
        Standard standard = view.standard();
        figures.put("standard", standard == null ? null : standard(standard));
        figures.put("mean_less_standard", view.distance());
        figures.put("mean_less_standard_error", view.distanceError());
        figures.put("notes", view.notes());
        figures.put("caution", DecisionView.CAUTION);
        return figures;
    }

    /** The figures as one line of JSON, with every mark: the same whoever looks. */
    static String text(DecisionView view) {
        return MAPPER.writeValueAsString(of(view, view.marks()));
    }

    /** SHA-256 of the figures as one line of JSON, hexadecimal. */
    public static String digest(DecisionView view) {
        return Sha256.of(text(view));
    }

    private static Map<String, @Nullable Object> mark(SignedMark mark) {
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("case", mark.caseCode());
        json.put("date", mark.date().toString());
        json.put("assessor", mark.assessor());
        json.put("blind", mark.blind());
        json.put("share", mark.share());
        json.put("items_marked", mark.score().marked());
        json.put("items", mark.score().items());
        json.put("critical_failures", mark.score().criticalFailures());
        json.put("signed_at", mark.signedAt().toString());
        return json;
    }

    private static void precision(Map<String, @Nullable Object> figures, Outcome<Precision> outcome) {
        if (outcome instanceof Outcome.Found<Precision> found) {
            Precision p = found.value();
            figures.put("phi", p.coefficients().phi());
            figures.put("g", p.coefficients().g());
            figures.put("sem", p.coefficients().semAbsolute());
            figures.put("mean_lower", p.lower());
            figures.put("mean_upper", p.upper());
            figures.put("wish", p.wish());
            figures.put("enough", p.enough());
            figures.put("more", more(p.more()));
            figures.put("study", study(p.study()));
            figures.put("refused", null);
        } else {
            for (String key : List.of("phi", "g", "sem", "mean_lower", "mean_upper", "wish")) {
                figures.put(key, null);
            }
            figures.put("enough", false);
            figures.put("more", List.of());
            figures.put("study", null);
            Refusal refusal = ((Outcome.Refused<Precision>) outcome).refusal();
            figures.put("refused", refusal(refusal));
        }
    }

    /** Why there is no figure. */
    public static Map<String, @Nullable Object> refusal(Refusal refusal) {
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("reason", refusal.reason().name().toLowerCase(java.util.Locale.ROOT));
        json.put("why", refusal.why());
        json.put("remedy", refusal.remedy());
        return json;
    }

    /** Further work that would reach the wish. */
    public static List<Map<String, @Nullable Object>> more(List<Precision.More> plans) {
        return plans.stream()
                .map(plan -> {
                    Map<String, @Nullable Object> json = new LinkedHashMap<>();
                    json.put("cases", plan.cases());
                    json.put("assessors_each", plan.assessorsEach());
                    json.put("phi", plan.phi());
                    json.put("minutes", plan.minutes());
                    return json;
                })
                .toList();
    }

    /** The unit's G-study. */
    public static Map<String, @Nullable Object> study(Precision.Study study) {
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("design", study.design());
        json.put("method", study.method());
        json.put("trainees", study.trainees());
        json.put("cases", study.cases());
        json.put("assessors", study.assessors());
        json.put("marks", study.marks());
        json.put(
                "components",
                study.components().stream()
                        .map(c -> {
                            Map<String, @Nullable Object> one = new LinkedHashMap<>();
                            one.put("effect", c.label());
                            one.put("variance", c.variance());
                            one.put("se", c.standardError());
                            one.put("share", c.share());
                            return one;
                        })
                        .toList());
        json.put("warnings", study.warnings());
        return json;
    }

    /** A standard, with its limits. */
    public static Map<String, @Nullable Object> standard(Standard standard) {
        Map<String, @Nullable Object> json = new LinkedHashMap<>();
        json.put("id", standard.id());
        json.put("rubric", standard.rubric());
        json.put("rubric_version", standard.rubricVersion());
        json.put("number", standard.number());
        json.put("method", standard.method().id());
        json.put("share", standard.share());
        json.put("se", standard.standardError());
        json.put("lower", standard.lower());
        json.put("upper", standard.upper());
        json.put("level", standard.level());
        json.put("n", standard.n());
        json.put("agreed_on", standard.agreedOn().toString());
        json.put("agreed_by", standard.agreedBy());
        json.put("basis", standard.basis());
        json.put("warnings", standard.warnings());
        json.put("data_digest", standard.dataDigest().isEmpty() ? null : standard.dataDigest());
        json.put("note", standard.note());
        json.put("set_by", standard.setBy());
        json.put("set_at", standard.setAt().toString());
        json.put("superseded_by", standard.supersededBy());
        return json;
    }
}
