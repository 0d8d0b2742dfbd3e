package org.sideport.workflow;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.Rubric;
import org.sideport.store.Stores;
import org.sideport.workflow.ProgressView.CasePoints;
import org.sideport.workflow.ProgressView.CaseShare;
import org.sideport.workflow.ProgressView.ItemMarks;
import org.sideport.workflow.ProgressView.Marks;
import org.sideport.workflow.ProgressView.OneCase;

/** Signed marks over cases. Whose marks there are is the store's to say. */
final class ProgressMarks {

    private ProgressMarks() {}

    /**
     * @param asked id of a rubric; {@code null} for the one with most marks
     * @param trainee whose marks
     * @param cases by code; marks of others do not count
     */
    static @Nullable Marks of(
            Stores stores,
            Vocabularies vocabularies,
            String procedure,
            @Nullable String asked,
            String trainee,
            Map<String, OneCase> cases) {
        List<Rubric> rubrics = asked == null
                ? vocabularies.rubrics(procedure)
                : List.of(vocabularies.rubric(asked).rubric());
        Marks most = null;
        for (Rubric rubric : rubrics) {
            Marks found = marks(stores, rubric, trainee, cases);
            if (!found.shares().isEmpty()
                    && (most == null || found.shares().size() > most.shares().size())) {
                most = found;
            }
        }
        return most;
    }

    private static Marks marks(Stores stores, Rubric rubric, String trainee, Map<String, OneCase> cases) {
        SignedMarks signed = SignedMarks.of(stores, rubric, trainee);
        Map<String, List<SignedMark>> byCase = new LinkedHashMap<>();
        signed.all().stream()
                .filter(m -> cases.containsKey(m.caseCode()))
                .forEach(m -> byCase.computeIfAbsent(m.caseCode(), c -> new ArrayList<>())
                        .add(m));
        List<CaseShare> shares = new ArrayList<>();
        Map<String, List<CasePoints>> points = new LinkedHashMap<>();
        rubric.items().forEach(item -> points.put(item.id(), new ArrayList<>()));
        byCase.forEach((code, marks) -> {
            OneCase of = Optional.ofNullable(cases.get(code)).orElseThrow();
            shares.add(new CaseShare(
                    of, marks.stream().mapToDouble(SignedMark::share).average().orElseThrow(), marks.size()));
            points.forEach((item, list) -> {
                double[] given = marks.stream()
                        .flatMap(m -> m.rating().scores().stream())
                        .filter(s -> s.item().equals(item) && s instanceof ItemScore.Marked)
                        .mapToDouble(s -> ((ItemScore.Marked) s).points())
                        .toArray();
                if (given.length > 0) {
                    list.add(new CasePoints(
                            of, java.util.Arrays.stream(given).average().orElseThrow(), given.length));
                }
            });
        });
        return new Marks(
                rubric,
                signed.withOtherVersions(trainee),
                shares,
                rubric.items().stream()
                        .map(item -> new ItemMarks(
                                item.id(),
                                item.title(),
                                rubric.maximumOf(item),
                                points.getOrDefault(item.id(), List.of())))
                        .filter(item -> !item.points().isEmpty())
                        .toList());
    }
}
