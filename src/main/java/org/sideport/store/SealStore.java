package org.sideport.store;

import java.time.Instant;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.RatingSeal;
import org.sideport.model.Sha256;
import org.sideport.model.Tagging;

/** The seals of signed ratings: made with the signature, compared with what the store holds now. */
public final class SealStore {

    private final Handle handle;
    private final Veil lifted;
    private final TaggingStore taggings;

    SealStore(Handle handle, Veil veil) {
        this.handle = handle;
        this.lifted = veil.lifted();
        this.taggings = new TaggingStore(handle, lifted);
    }

    public Optional<RatingSeal> find(long rating) {
        return handle.createQuery("select * from rating_seal where rating_id = :id")
                .bind("id", rating)
                .map((row, context) -> new RatingSeal(
                        row.getString("form"),
                        row.getString("digest"),
                        row.getString("rubric_sha256"),
                        row.getString("tagging_of"),
                        row.getString("tagging_sha256"),
                        words(row.getString("recordings")),
                        row.getString("amends_digest"),
                        row.getBoolean("late")))
                .findOne();
    }

    /** What differs from what was signed; each is about the store alone, no recording file is read. */
    public enum Difference {
        /** Signed, but without a seal. */
        UNSEALED,
        /** The seal is in a form that this program does not know: nothing can be said. */
        UNKNOWN_FORM,
        /** Marks, comments, evidence, actions, reason, or whose they are: or the seal itself. */
        RATING,
        /** The text of the rubric. */
        RUBRIC,
        /** The case has other recordings. */
        RECORDINGS,
        /** The tags that the rating rests on were changed since: allowed, but said. */
        TAGGING
    }

    /**
     * Compares a signed or superseded rating with its seal.
     *
     * @return empty if all is as it was signed
     */
    public List<Difference> compare(StoredRating rating) {
        Optional<RatingSeal> found = find(rating.id());
        if (found.isEmpty()) {
            return List.of(Difference.UNSEALED);
        }
        RatingSeal seal = found.get();
        if (!seal.form().equals(RatingForm.RATING)) {
            return List.of(Difference.UNKNOWN_FORM);
        }
        List<Difference> differences = new java.util.ArrayList<>();
        if (!seal.digest().equals(digest(rating, rating.signedAt(), seal))
                || !seal.amendsDigest().equals(amended(rating))) {
            differences.add(Difference.RATING);
        }
        if (!seal.rubricSha256().equals(Sha256.of(rating.rubricJson()))) {
            differences.add(Difference.RUBRIC);
        }
        if (!seal.recordings().equals(recordings(rating.caseCode()))) {
            differences.add(Difference.RECORDINGS);
        }
        if (!seal.taggingSha256().equals(taggingDigest(rating.caseCode(), seal.taggingOf()))) {
            differences.add(Difference.TAGGING);
        }
        return differences;
    }

    /** Seals a rating as it is, before its state changes. */
    RatingSeal seal(StoredRating rating, @Nullable Instant signedAt, boolean late) {
        String code = rating.caseCode();
        String annotator = restsOn(code, rating.rating().assessor());
        RatingSeal bare = new RatingSeal(
                RatingForm.RATING,
                "",
                Sha256.of(rating.rubricJson()),
                annotator,
                taggingDigest(code, annotator),
                recordings(code),
                amended(rating),
                late);
        RatingSeal seal = new RatingSeal(
                bare.form(),
                digest(rating, signedAt, bare),
                bare.rubricSha256(),
                bare.taggingOf(),
                bare.taggingSha256(),
                bare.recordings(),
                bare.amendsDigest(),
                late);
        handle.execute(
                "insert into rating_seal (rating_id, form, digest, rubric_sha256, tagging_of, tagging_sha256,"
                        + " recordings, amends_digest, late) values (?, ?, ?, ?, ?, ?, ?, ?, ?)",
                rating.id(),
                seal.form(),
                seal.digest(),
                seal.rubricSha256(),
                seal.taggingOf(),
                seal.taggingSha256(),
                String.join(" ", seal.recordings()),
                seal.amendsDigest(),
                late);
        return seal;
    }

    /** Ids of ratings that were signed before there were seals, oldest first. */
    List<Long> unsealed() {
        return handle.createQuery("select r.id from rating r where r.state <> 'draft'"
                        + " and not exists (select 1 from rating_seal s where s.rating_id = r.id) order by r.id")
                .mapTo(Long.class)
                .list();
    }

    /** Digests of all seals by the id of their rating. */
    public Map<Long, String> digests() {
        Map<Long, String> digests = new HashMap<>();
        handle.createQuery("select rating_id, digest from rating_seal")
                .map((row, context) -> Map.entry(row.getLong("rating_id"), row.getString("digest")))
                .forEach(one -> digests.put(one.getKey(), one.getValue()));
        return digests;
    }

    private String digest(StoredRating rating, @Nullable Instant signedAt, RatingSeal seal) {
        RatingForm.Subject subject = handle.createQuery(
                        "select code, trainee, procedure_id from surgical_case where id = :id")
                .bind("id", lifted.caseId(rating.caseCode()))
                .map((row, context) -> new RatingForm.Subject(
                        row.getString("code"), row.getString("trainee"), row.getString("procedure_id")))
                .one();
        return Sha256.of(RatingForm.rating(subject, rating.rating(), rating.reason(), signedAt, seal));
    }

    private String amended(StoredRating rating) {
        Long amends = rating.amends();
        return amends == null ? "" : find(amends).map(RatingSeal::digest).orElse("");
    }

    /** The assessor's own tags if there are any, else those of whoever tagged most, by code where several did; else "". */
    private String restsOn(String caseCode, String assessor) {
        List<String> annotators = taggings.annotators(caseCode);
        if (annotators.contains(assessor)
                && taggings.find(caseCode, assessor).filter(t -> !t.isEmpty()).isPresent()) {
            return assessor;
        }
        record Tagged(String by, int spans) {}
        return annotators.stream()
                .map(a -> new Tagged(
                        a, taggings.find(caseCode, a).map(t -> t.spans().size()).orElse(0)))
                .filter(t -> t.spans() > 0)
                .min(Comparator.comparingInt(Tagged::spans).reversed().thenComparing(Tagged::by))
                .map(Tagged::by)
                .orElse("");
    }

    private String taggingDigest(String caseCode, String annotator) {
        if (annotator.isEmpty()) {
            return "";
        }
        try {
            return Sha256.of(
                    RatingForm.tagging(taggings.find(caseCode, annotator).orElse(Tagging.EMPTY)));
        } catch (InputException e) {
            // tags that contradict themselves cannot be written by this program
            return "unreadable";
        }
    }

    private List<String> recordings(String caseCode) {
        return handle.createQuery("select sha256 from segment where case_id = :id order by ordinal")
                .bind("id", lifted.caseId(caseCode))
                .mapTo(String.class)
                .list();
    }

    private static List<String> words(String text) {
        return text.isEmpty() ? List.of() : List.of(text.split(" "));
    }
}
