package org.sideport.workflow;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.Optional;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;
import org.sideport.store.CohortStore;
import org.sideport.store.SignedRating;
import org.sideport.store.Stores;
import org.sideport.workflow.consent.CountedCases;

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
        return of(stores, rubric, stores.cases().bare(), stores.ratings().signed(rubric.id()));
    }

    /** Of one trainee only. */
    static SignedMarks of(Stores stores, Rubric rubric, String trainee) {
        return of(stores, rubric, stores.cases().bare(), stores.ratings().signed(rubric.id(), trainee));
    }

    /** @param all cases that the caller may know of; those that do not count for assessment are left out here */
    static SignedMarks of(Stores stores, Rubric rubric, List<SurgicalCase> all, List<SignedRating> ratings) {
        Map<String, SurgicalCase> cases = new HashMap<>();
        CountedCases.forAssessment(stores, all).cases().forEach(c -> cases.put(c.code(), c));
        CohortStore.Practice practice = stores.cohort().practice();
        Scorer scorer = new Scorer(rubric);
        List<SignedMark> marks = new ArrayList<>();
        Map<String, Integer> otherVersions = new HashMap<>();
        for (SignedRating signed : ratings) {
            SurgicalCase marked = cases.get(signed.caseCode());
            if (marked == null
                    || practice.isMark(signed.caseCode(), signed.rating().assessor())) {
                continue;
            }
            if (!signed.rating().rubricVersion().equals(rubric.version())) {
                otherVersions.merge(marked.trainee(), 1, Integer::sum);
                continue;
            }
            Score score = scorer.score(signed.rating());
            Double share = score.share();
            if (share != null) {
                marks.add(new SignedMark(
                        signed.id(),
                        marked.code(),
                        marked.trainee(),
                        marked.date(),
                        Objects.requireNonNullElse(signed.signedAt(), Instant.EPOCH),
                        signed.rating(),
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
     * @param id empty for the one with most signed marks of assessors
     * @param version {@code null} for the one that is in use now
     * @throws InputException if there is no such rubric, or nothing was ever marked with that version
     */
    static Vocabularies.RubricText rubric(
            Stores stores, Vocabularies vocabularies, String id, @Nullable String version) {
        if (id.isEmpty()) {
            return rubric(stores, vocabularies, mostUsed(stores), version);
        }
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

    private static String mostUsed(Stores stores) {
        return stores.ratings().all().stream()
                .filter(r -> r.state() == RatingState.SIGNED && !r.rating().self())
                .collect(Collectors.groupingBy(r -> r.rating().rubric(), Collectors.counting()))
                .entrySet()
                .stream()
                .max(Map.Entry.<String, Long>comparingByValue().thenComparing(Map.Entry.comparingByKey()))
                .map(Map.Entry::getKey)
                .orElseThrow(() -> new InputException(
                        "there are no signed marks yet", null, "have cases marked and signed first"));
    }
}
