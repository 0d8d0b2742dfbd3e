package org.sideport.workflow;

import java.nio.file.Files;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.sideport.model.CaseSummary;
import org.sideport.model.Recording;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.Scorer;
import org.sideport.store.CaseReach;
import org.sideport.store.StoredRating;
import org.sideport.store.TaggingStore;
import org.sideport.store.Workspace;
import org.sideport.workflow.CaseOverview.RatingOverview;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/** Shows which cases there are and how far each has come. */
public final class CaseList {

    private final Workspace workspace;

    public CaseList(Workspace workspace) {
        this.workspace = workspace;
    }

    /**
     * The newest cases as lines of a list, newest first, then by code: quick also where there are very many.
     *
     * @param most how many, or a negative number for all
     */
    public List<CaseSummary> newest(int most) {
        Access.require(workspace, Permission.SEE_CASE);
        return workspace.read(stores -> stores.summaries()
                .newest(most, Access.cases(stores.caller(), Permission.SEE_CASE), Access.marks(stores.caller())));
    }

    /** All cases by date, then code, with all marks. */
    public List<CaseOverview> all() {
        record Raw(
                List<SurgicalCase> cases,
                List<TaggingStore.Key> taggings,
                List<StoredRating> ratings,
                Map<Long, String> digests) {}
        Access.require(workspace, Permission.SEE_CASE);
        Raw raw = workspace.read(stores -> {
            CaseReach reach = Access.cases(stores.caller(), Permission.SEE_CASE);
            return new Raw(
                    stores.cases().all(reach),
                    stores.taggings().all(reach),
                    stores.ratings().all(Access.marks(stores.caller())),
                    stores.seals().digests());
        });
        Map<String, List<String>> annotators = raw.taggings().stream()
                .collect(Collectors.groupingBy(
                        TaggingStore.Key::caseCode,
                        Collectors.mapping(TaggingStore.Key::annotator, Collectors.toList())));
        Map<String, List<StoredRating>> ratings =
                raw.ratings().stream().collect(Collectors.groupingBy(StoredRating::caseCode));
        Map<String, Rubric> rubrics = new HashMap<>();
        List<CaseOverview> all = new ArrayList<>();
        for (SurgicalCase one : raw.cases()) {
            all.add(overview(
                    one,
                    annotators.getOrDefault(one.code(), List.of()),
                    ratings.getOrDefault(one.code(), List.of()),
                    raw.digests(),
                    rubrics));
        }
        return all;
    }

    /**
     * @throws org.sideport.model.InputException if there is no such case
     */
    public CaseOverview one(String code) {
        return workspace.read(stores -> {
            Access.require(stores, Permission.SEE_CASE, code);
            List<StoredRating> ratings = stores.ratings().ofCase(code, Access.marks(stores.caller()));
            Map<Long, String> digests = new HashMap<>();
            for (StoredRating rating : ratings) {
                stores.seals().find(rating.id()).ifPresent(seal -> digests.put(rating.id(), seal.digest()));
            }
            return overview(
                    stores.cases().get(code), stores.taggings().annotators(code), ratings, digests, new HashMap<>());
        });
    }

    private static CaseOverview overview(
            SurgicalCase one,
            List<String> annotators,
            List<StoredRating> ratings,
            Map<Long, String> digests,
            Map<String, Rubric> rubrics) {
        Recording recording = one.recording();
        boolean found = recording == null || recording.segments().stream().allMatch(s -> Files.isRegularFile(s.file()));
        return new CaseOverview(
                one,
                found,
                annotators,
                ratings.stream().map(r -> rating(r, digests, rubrics)).toList());
    }

    private static RatingOverview rating(StoredRating stored, Map<Long, String> digests, Map<String, Rubric> rubrics) {
        Rubric rubric = rubrics.computeIfAbsent(
                stored.rating().rubric() + " " + stored.rating().rubricVersion(),
                key -> RubricReader.read(stored.rubricJson(), "rubric " + key));
        Instant signedAt = stored.signedAt();
        return new RatingOverview(
                stored.id(),
                stored.rating().rubric(),
                stored.rating().rubricVersion(),
                stored.rating().assessor(),
                stored.rating().self(),
                stored.rating().blind(),
                stored.state(),
                signedAt == null ? null : signedAt.toString(),
                stored.amends(),
                stored.reason(),
                digests.get(stored.id()),
                Scorer.score(rubric, stored.rating()));
    }
}
