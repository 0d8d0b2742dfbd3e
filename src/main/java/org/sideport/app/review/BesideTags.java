package org.sideport.app.review;

import java.util.ArrayList;
import java.util.List;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Formats;
import org.sideport.app.Notices;
import org.sideport.app.PhaseColours;
import org.sideport.app.Texts;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.Tint;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Term;
import org.sideport.model.Tagging;
import org.sideport.workflow.TwoTaggings;
import org.sideport.workflow.TwoTaggings.Agreement;
import org.sideport.workflow.TwoTaggings.Difference;

/**
 * Somebody else's tags of the case beside those that are shown, to look at only: their phases as a lane, a lane of what
 * the two call otherwise, and how far they agree. Screen's thread only.
 */
public final class BesideTags {

    static final String LANE = "beside";
    static final String DIFFERENCES = "differences";

    /** The key of what is on these lanes, so that it is never taken for a tag of one's own. */
    record Key(Object of) {}

    private final ReviewViewModel review;
    private final TwoTaggings taggings;
    private final Background work;
    private final Notices notices;
    private final Texts texts;
    private final ReadOnlyStringWrapper who = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<List<Lane>> lanes = new ReadOnlyObjectWrapper<>(List.of());
    private final ReadOnlyStringWrapper agreement = new ReadOnlyStringWrapper("");
    private @Nullable Tagging tagging;
    private int turn;

    public BesideTags(ReviewViewModel review, TwoTaggings taggings, Background work, Notices notices, Texts texts) {
        this.review = review;
        this.taggings = taggings;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        review.current().openedProperty().addListener((property, old, now) -> show(""));
        review.annotatorProperty().addListener((property, old, now) -> notBesideOneself());
        review.lookingAtProperty().addListener((property, old, now) -> notBesideOneself());
        review.laneProperty().addListener((property, old, now) -> relay());
    }

    /** Whose tags stand beside; empty for nobody's. */
    ReadOnlyStringProperty whoProperty() {
        return who.getReadOnlyProperty();
    }

    ReadOnlyObjectProperty<List<Lane>> lanesProperty() {
        return lanes.getReadOnlyProperty();
    }

    /** In words; empty where there is nothing to compare. */
    ReadOnlyStringProperty agreementProperty() {
        return agreement.getReadOnlyProperty();
    }

    private String shown() {
        String looking = review.lookingAtProperty().get();
        return looking.isEmpty() ? review.annotatorProperty().get() : looking;
    }

    private void notBesideOneself() {
        if (who.get().equals(shown())) {
            show("");
        }
    }

    /** Puts this annotator's tags beside; empty text takes them away. */
    void show(String annotator) {
        int now = ++turn;
        CurrentCase.Opened open = review.current().opened();
        who.set(open == null ? "" : annotator);
        tagging = null;
        relay();
        if (open == null || annotator.isEmpty()) {
            return;
        }
        work.run(
                progress -> taggings.taggingOf(open.code(), annotator),
                found -> {
                    if (now == turn) {
                        tagging = found;
                        relay();
                    }
                },
                notices::failed);
    }

    private void relay() {
        TaggedLanes mine = review.laneProperty().get();
        Procedure procedure = mine.procedure();
        Tagging other = tagging;
        if (procedure == null || other == null) {
            agreement.set("");
            if (!lanes.get().isEmpty()) {
                lanes.set(List.of());
            }
            return;
        }
        TaggedLanes theirs = new TaggedLanes(procedure, other, mine.duration(), mine.borders());
        List<Lane> all = new ArrayList<>();
        for (Lane lane : theirs.lanes(TimelineEditing.words(texts), false)) {
            if (lane instanceof Lane.Spans spans && lane.id().equals(TaggedLanes.PHASES)) {
                all.add(new Lane.Spans(
                        LANE,
                        who.get(),
                        false,
                        true,
                        spans.spans().stream().map(BesideTags::asTheirs).toList()));
            }
        }
        Agreement found = TwoTaggings.agreement(procedure, mine.tagging(), other, mine.duration())
                .orElse(null);
        if (found != null) {
            all.add(new Lane.Spans(
                    DIFFERENCES,
                    texts.get("lane.differences"),
                    false,
                    false,
                    found.differences().stream()
                            .map(each -> block(procedure, each))
                            .toList()));
        }
        agreement.set(found == null ? texts.get("beside.nothing", who.get()) : words(found));
        if (!all.equals(lanes.get())) {
            lanes.set(all); // the timeline is built anew for each change
        }
    }

    private static Lane.Span asTheirs(Lane.Span span) {
        return new Lane.Span(
                new Key(span.key()),
                span.startUs(),
                span.endUs(),
                span.open(),
                span.doubtful(),
                span.shortName(),
                span.name(),
                span.tint(),
                span.note());
    }

    private Lane.Span block(Procedure procedure, Difference each) {
        String text = texts.get(
                "beside.difference", shown(), name(procedure, each.one()), who.get(), name(procedure, each.other()));
        return new Lane.Span(
                new Key(each),
                each.startUs(),
                each.endUs(),
                false,
                false,
                "≠",
                text,
                Tint.of(PhaseColours.unknown()),
                "");
    }

    private String name(Procedure procedure, @Nullable String id) {
        return id == null
                ? texts.get("beside.untagged")
                : procedure.find(id).map(Term::shortName).orElse(id);
    }

    private String words(Agreement found) {
        Double kappa = found.kappa();
        Long boundary = found.boundaryUs();
        return texts.get("beside.share", who.get(), Formats.percent(found.share()))
                + (kappa == null ? "" : texts.get("beside.kappa", String.format(java.util.Locale.ROOT, "%.2f", kappa)))
                + (boundary == null
                        ? ""
                        : texts.get("beside.boundary", String.format(java.util.Locale.ROOT, "%.2f", boundary / 1e6)));
    }
}
