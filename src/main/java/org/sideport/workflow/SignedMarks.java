package org.sideport.workflow;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;
import org.sideport.store.CohortStore;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;

/** The unit's signed marks with one version of a rubric. */
final class SignedMarks {

    private final List<SignedMark> all;
    private final Map<String, Integer> otherVersions;

    private SignedMarks(List<SignedMark> all, Map<String, Integer> otherVersions) {
        this.all = all;
        this.otherVersions = otherVersions;
    }

    /** Marks with this version, by date of the case, code and assessor. Those with no item marked have no share and are left out. */
    static SignedMarks of(Stores stores, Rubric rubric) {
        Map<String, SurgicalCase> cases = new HashMap<>();
        stores.cases().all().forEach(c -> cases.put(c.code(), c));
        CohortStore.Practice practice = stores.cohort().practice();
        List<SignedMark> marks = new ArrayList<>();
        Map<String, Integer> otherVersions = new HashMap<>();
        for (StoredRating stored : stores.ratings().all()) {
            SurgicalCase marked = cases.get(stored.caseCode());
            if (marked == null
                    || stored.state() != RatingState.SIGNED
                    || stored.rating().self()
                    || !stored.rating().rubric().equals(rubric.id())
                    || practice.isMark(stored.caseCode(), stored.rating().assessor())) {
                continue;
            }
            if (!stored.rating().rubricVersion().equals(rubric.version())) {
                otherVersions.merge(marked.trainee(), 1, Integer::sum);
                continue;
            }
            Score score = Scorer.score(rubric, stored.rating());
            Double share = score.share();
            if (share != null) {
                marks.add(new SignedMark(
                        stored.id(),
                        marked.code(),
                        marked.trainee(),
                        marked.date(),
                        Objects.requireNonNullElse(stored.signedAt(), Instant.EPOCH),
                        stored.rating(),
                        score,
                        share));
            }
        }
        marks.sort(Comparator.comparing(SignedMark::date)
                .thenComparing(SignedMark::caseCode)
                .thenComparing(SignedMark::assessor));
        return new SignedMarks(List.copyOf(marks), otherVersions);
    }

    List<SignedMark> all() {
        return all;
    }

    /** How many marks of a trainee were made with other versions of the rubric. */
    int withOtherVersions(String trainee) {
        return otherVersions.getOrDefault(trainee, 0);
    }

    List<SignedMark> ofTrainee(String trainee) {
        return all.stream().filter(m -> m.trainee().equals(trainee)).toList();
    }

    /**
     * The rubric in a version.
     *
     * @param version {@code null} for the one that is in use now
     * @throws InputException if there is no such rubric, or nothing was ever marked with that version
     */
    static Vocabularies.RubricText rubric(
            Stores stores, Vocabularies vocabularies, String id, @Nullable String version) {
        if (version == null) {
            return vocabularies.rubric(id);
        }
        String text = stores.ratings()
                .rubricText(id, version)
                .or(() -> {
                    Vocabularies.RubricText now = vocabularies.rubric(id);
                    return now.rubric().version().equals(version) ? Optional.of(now.json()) : Optional.empty();
                })
                .orElseThrow(() -> new InputException(
                        "nothing was ever marked with version " + version + " of rubric " + id,
                        null,
                        "leave the version out to take the one in use now"));
        return new Vocabularies.RubricText(RubricReader.read(text, "rubric " + id + " " + version), text);
    }
}
