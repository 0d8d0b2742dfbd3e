package org.sideport.workflow.exchange;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.model.SurgicalCase;
import org.sideport.report.bundle.BundleReader;
import org.sideport.report.bundle.CaseBundle;
import org.sideport.report.bundle.CaseContent;
import org.sideport.report.bundle.Parts;
import org.sideport.report.bundle.RatingDigest;
import org.sideport.rubric.RatingReader;
import org.sideport.rubric.RubricReader;
import org.sideport.rubric.Scorer;
import org.sideport.store.StoredRating;
import org.sideport.store.Stores;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.exchange.ImportPlan.State;
import org.sideport.workflow.exchange.ImportPlan.What;

/**
 * The ratings of a bundle against those of the store. What is signed here stays. Signed ratings of the bundle come in as
 * they are, with the moment of their signature; an amendment only onto the very rating that it amends.
 */
final class RatingMerge {

    /** Where the result is told. */
    interface Told {
        void line(What what, String name, State state, String detail);
    }

    private final Stores stores;
    private final BundleReader bundle;
    private final SurgicalCase rated;
    private final BundlePeople people;
    private final boolean theirs;
    private final @Nullable String sha256;
    private final Told told;
    private final List<Here> here = new ArrayList<>();
    private final Map<Integer, Here> byNumber = new HashMap<>();

    /** A rating that is, or by now would be, in the store; {@code id} is 0 while nothing is written. */
    private static final class Here {
        final long id;
        final Rating rating;
        final @Nullable Instant signedAt;
        final String rubricJson;
        RatingState state;

        Here(long id, Rating rating, @Nullable Instant signedAt, String rubricJson, RatingState state) {
            this.id = id;
            this.rating = rating;
            this.signedAt = signedAt;
            this.rubricJson = rubricJson;
            this.state = state;
        }

        boolean isWorkOf(Rating other, RatingState wanted) {
            return state == wanted
                    && rating.rubric().equals(other.rubric())
                    && rating.assessor().equals(other.assessor())
                    && rating.self() == other.self();
        }
    }

    private record Theirs(
            CaseContent.RatingPart part,
            Rating rating,
            String rubricJson,
            boolean signed,
            @Nullable Instant signedAt,
            String name) {}

    RatingMerge(
            Stores stores,
            BundleReader bundle,
            SurgicalCase rated,
            BundlePeople people,
            boolean theirs,
            boolean known,
            @Nullable String sha256,
            Told told) {
        this.stores = stores;
        this.bundle = bundle;
        this.rated = rated;
        this.people = people;
        this.theirs = theirs;
        this.sha256 = sha256;
        this.told = told;
        for (StoredRating stored : known ? stores.ratings().ofCase(rated.code()) : List.<StoredRating>of()) {
            here.add(new Here(stored.id(), stored.rating(), stored.signedAt(), stored.rubricJson(), stored.state()));
        }
    }

    void run() {
        for (CaseContent.RatingPart part : bundle.content().ratings()) {
            merge(read(part));
        }
    }

    private Theirs read(CaseContent.RatingPart part) {
        String id = part.marks().path("rubric").asString("");
        String version = part.marks().path("version").asString("");
        String json = bundle.rubrics().get(CaseBundle.rubricKey(id, version));
        String place = "rating " + part.number() + " of the bundle";
        if (json == null) {
            throw new InputException(
                    "the text of rubric " + id + " " + version + " is missing", place, "ask for the bundle again");
        }
        var rubric = RubricReader.read(json, "rubric " + id + " " + version + " of the bundle");
        if (!rubric.id().equals(id) || !rubric.version().equals(version)) {
            throw new InputException("its rubric calls itself otherwise", place, "ask for the bundle again");
        }
        Rating original = RatingReader.read(Parts.marks(part.marks()), place, rubric);
        if (!RatingDigest.of(original, json, part.signedAt(), part.reason()).equals(part.digest())) {
            throw new InputException(
                    "the marks are not what their digest says",
                    place,
                    "they were altered on the way; nothing was taken in: ask for the bundle again");
        }
        Rating rating = new Rating(
                original.rubric(),
                original.rubricVersion(),
                people.here(original.assessor()),
                original.self(),
                original.blind(),
                original.scores(),
                original.comment(),
                original.actions());
        MarkCase.requireFit(rated, rating.assessor(), rating.self(), rubric);
        boolean signed = !part.state().equals(RatingState.DRAFT.id());
        String at = part.signedAt();
        if (signed != (at != null) || (signed && !Scorer.score(rubric, rating).complete())) {
            throw new InputException(
                    "says that it is " + part.state() + " and is not", place, "ask for the bundle again");
        }
        String name = rating.assessor() + (rating.self() ? " (self)" : "") + ", " + id + " " + version + ", "
                + (signed ? "signed" : "draft");
        return new Theirs(part, rating, json, signed, at == null ? null : Instant.parse(at), name);
    }

    private void merge(Theirs one) {
        for (Here ours : here) {
            boolean sameMoment = Objects.equals(ours.signedAt, one.signedAt());
            if (ours.rating.equals(one.rating()) && sameMoment && ours.rubricJson.equals(one.rubricJson())) {
                byNumber.put(one.part().number(), ours);
                told.line(What.RATING, one.name(), State.SAME, "");
                return;
            }
        }
        if (isOtherText(one)) {
            keep(one, "here the same version of the rubric has another text");
            return;
        }
        Here amended = amended(one);
        if (one.part().amends() != null && amended == null) {
            keep(one, "what it amends is not signed here, or was amended here too");
            return;
        }
        Here signed = amended == null ? find(one, RatingState.SIGNED) : null;
        if (signed != null) {
            keep(one, "signed here with other marks, which never change");
            return;
        }
        Here draft = find(one, RatingState.DRAFT);
        if (draft != null && !theirs) {
            keep(one, "a draft here says something else");
            return;
        }
        told.line(
                What.RATING,
                one.name(),
                draft == null ? State.NEW : State.REPLACED,
                draft == null ? "" : "a draft here said something else");
        put(one, amended, draft);
    }

    private void keep(Theirs one, String why) {
        told.line(What.RATING, one.name(), State.KEPT, why);
    }

    private boolean isOtherText(Theirs one) {
        String kept = stores.ratings()
                .rubricText(one.rating().rubric(), one.rating().rubricVersion())
                .orElse(one.rubricJson());
        return !kept.equals(one.rubricJson());
    }

    private @Nullable Here amended(Theirs one) {
        Integer number = one.part().amends();
        Here found = number == null ? null : byNumber.get(number);
        return found != null && found.state == RatingState.SIGNED && found.isWorkOf(one.rating(), RatingState.SIGNED)
                ? found
                : null;
    }

    private @Nullable Here find(Theirs one, RatingState state) {
        return here.stream()
                .filter(h -> h.isWorkOf(one.rating(), state))
                .findFirst()
                .orElse(null);
    }

    private void put(Theirs one, @Nullable Here amended, @Nullable Here draft) {
        long id = 0;
        if (sha256 != null) {
            id = write(one, amended, draft, sha256);
        }
        if (draft != null) {
            here.remove(draft);
        }
        if (amended != null && one.signed()) {
            amended.state = RatingState.SUPERSEDED;
        }
        Here now = new Here(
                id,
                one.rating(),
                one.signedAt(),
                one.rubricJson(),
                one.signed() ? RatingState.SIGNED : RatingState.DRAFT);
        here.add(now);
        byNumber.put(one.part().number(), now);
    }

    private long write(Theirs one, @Nullable Here amended, @Nullable Here draft, String bundleDigest) {
        Rating rating = one.rating();
        stores.ratings().keepRubric(rating.rubric(), rating.rubricVersion(), one.rubricJson());
        if (draft != null) {
            stores.ratings().deleteDraft(draft.id);
        }
        long id = stores.ratings()
                .addDraft(
                        rated.code(),
                        rating,
                        amended == null ? null : (Long) amended.id,
                        one.part().reason());
        Instant at = one.signedAt();
        if (at != null) {
            stores.ratings().sign(id, at);
        }
        stores.origins().add(id, bundleDigest);
        return id;
    }
}
