package org.sideport.app.review;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import javafx.beans.Observable;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Formats;
import org.sideport.app.PhaseColours;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.Tint;
import org.sideport.model.Cut;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Term;
import org.sideport.stats.Interval;
import org.sideport.timing.PhaseTiming;
import org.sideport.timing.PublishedDurations.Place;
import org.sideport.workflow.ReferenceTimes;
import org.sideport.workflow.ReferenceTimes.Kind;
import org.sideport.workflow.ReferenceTimes.Own;
import org.sideport.workflow.ReferenceTimes.Published;
import org.sideport.workflow.ReferenceTimes.Reference;
import org.sideport.workflow.ReferenceTimes.Standing;
import org.sideport.workflow.ReferenceTimes.Usual;

/**
 * What the tagged times are held against: which references there are, which one was chosen, and what it says of each
 * phase. For orientation only; every word of it tells with how many it compares. Screen's thread only.
 */
public final class ReferenceModel {

    static final String LANE = "usual";

    private static final String SETTING = "reference";
    private static final String NONE = "none";
    /** From here on a share is given in percent too (a choice of ours: one case is then a twentieth or less). */
    private static final int MANY = 20;

    private final ReviewViewModel review;
    private final ReferenceTimes references;
    private final ObservableList<Cut> cuts;
    private final Background work;
    private final Texts texts;
    private final Settings settings;
    private final ObservableList<Optional<Reference>> choices = FXCollections.observableArrayList();
    private final ObjectProperty<@Nullable Reference> chosen = new SimpleObjectProperty<>(null);
    private final ReadOnlyObjectWrapper<List<Lane>> lanes = new ReadOnlyObjectWrapper<>(List.of());
    private Map<String, PhaseTiming> times = Map.of();
    private boolean filling;
    private int turn;

    public ReferenceModel(
            ReviewViewModel review,
            ReferenceTimes references,
            ObservableList<Cut> cuts,
            Background work,
            Texts texts,
            Settings settings) {
        this.review = review;
        this.references = references;
        this.cuts = cuts;
        this.work = work;
        this.texts = texts;
        this.settings = settings;
        review.current().openedProperty().addListener((property, old, now) -> load());
        review.annotatorProperty().addListener((property, old, now) -> load());
        review.laneProperty().addListener((property, old, now) -> relay());
        cuts.addListener((Observable changed) -> relay());
        chosen.addListener((property, old, now) -> {
            if (!filling) {
                settings.put(SETTING, now == null ? NONE : now.id());
            }
            relay();
        });
        load();
    }

    /** What there is to choose from; the first is to compare with nothing. */
    ObservableList<Optional<Reference>> choices() {
        return choices;
    }

    /** {@code null} to compare with nothing. */
    ObjectProperty<@Nullable Reference> chosenProperty() {
        return chosen;
    }

    /** The band under the phases; none where there is nothing to show. */
    ReadOnlyObjectProperty<List<Lane>> lanesProperty() {
        return lanes.getReadOnlyProperty();
    }

    private void load() {
        int now = ++turn;
        CurrentCase.Opened open = review.current().opened();
        if (open == null) {
            fill(List.of());
            return;
        }
        String who = review.annotatorProperty().get();
        work.run(
                progress -> references.of(open.code(), who.isEmpty() ? null : who),
                found -> {
                    if (now == turn) {
                        fill(found);
                    }
                },
                // without a reference the screen works all the same
                failure -> fill(List.of()));
    }

    private void fill(List<Reference> found) {
        filling = true;
        List<Optional<Reference>> all = new ArrayList<>(List.of(Optional.empty()));
        found.forEach(one -> all.add(Optional.of(one)));
        // nothing first, since a box that shows them forgets what it showed
        chosen.set(null);
        choices.setAll(all);
        String wanted = settings.get(SETTING, "");
        chosen.set(found.stream()
                .filter(one -> one.id().equals(wanted))
                .findFirst()
                .orElse(wanted.equals(NONE) || found.isEmpty() ? null : found.get(0)));
        filling = false;
        relay();
    }

    private void relay() {
        TaggedLanes tagged = review.laneProperty().get();
        Procedure procedure = tagged.procedure();
        Reference reference = chosen.get();
        times = procedure == null
                ? Map.of()
                : ReferenceTimes.times(procedure, tagged.tagging(), tagged.duration(), List.copyOf(cuts));
        if (procedure == null || reference == null || times.isEmpty()) {
            lanes.set(List.of());
            return;
        }
        Map<String, MediaTime> starts = new HashMap<>();
        for (PhaseSpan span : tagged.tagging().spans()) {
            starts.putIfAbsent(span.phase(), span.start());
            procedure
                    .find(span.phase())
                    .ifPresent(term -> starts.putIfAbsent(term.phase().id(), span.start()));
        }
        List<Lane.BandPart> parts = new ArrayList<>();
        times.keySet().forEach(id -> {
            Term term = procedure.find(id).orElse(null);
            MediaTime start = starts.get(id);
            Usual usual = isAddedUp(procedure, reference, id) ? null : reference.usual(id);
            if (term != null && start != null && usual != null) {
                long from = start.micros();
                parts.add(new Lane.BandPart(
                        from,
                        from + usual.lowUs(),
                        from + usual.middleUs(),
                        from + usual.highUs(),
                        term.shortName(),
                        term.name(),
                        Tint.of(PhaseColours.of(procedure, term)),
                        said(id)));
            }
        });
        parts.sort(Comparator.comparingLong(Lane.BandPart::lowUs));
        List<Lane> made = parts.isEmpty() ? List.of() : List.of(new Lane.Band(LANE, texts.get("lane.usual"), parts));
        if (!made.equals(lanes.get())) {
            lanes.set(made); // the timeline is built anew for each change
        }
    }

    /** Whether steps of this phase were tagged that the reference knows, so that they stand for it on the band. */
    private boolean isAddedUp(Procedure procedure, Reference reference, String id) {
        return times.keySet().stream()
                .filter(other -> !other.equals(id) && reference.usual(other) != null)
                .anyMatch(other -> procedure
                        .find(other)
                        .filter(step -> step.phase().id().equals(id))
                        .isPresent());
    }

    /** What is said of a block of the timeline; empty where there is nothing to compare with. */
    String noteOf(Lane.Span span) {
        Procedure procedure = review.laneProperty().get().procedure();
        List<PhaseSpan> spans = TaggedLanes.spansOf(List.of(span.key()));
        if (procedure == null || spans.isEmpty()) {
            return "";
        }
        String id = spans.get(0).phase();
        return said(
                span.key() instanceof TaggedLanes.Group
                        ? procedure.find(id).map(term -> term.phase().id()).orElse(id)
                        : id);
    }

    /** In full: what is usual, where this case stands, what it is compared with, and the caution. */
    private String said(String id) {
        Reference reference = chosen.get();
        Usual usual = reference == null ? null : reference.usual(id);
        if (reference == null || usual == null) {
            return "";
        }
        String own = lineOf(id);
        return titleOf(reference) + ": " + usual(usual) + (own.isEmpty() ? "" : "\n" + here(id) + own) + "\n"
                + texts.get("reference.caution");
    }

    private String here(String id) {
        PhaseTiming timing = times.get(id);
        return timing == null
                ? ""
                : texts.get("reference.here", Formats.length(timing.activeUs()), timing.episodes()) + ": ";
    }

    private String usual(Usual usual) {
        return texts.get(
                usual.quartiles() ? "reference.quartiles" : "reference.range",
                usual.n(),
                Formats.length(usual.lowUs()),
                Formats.length(usual.highUs()),
                Formats.length(usual.middleUs()));
    }

    /** In short, for a table: from when to when is usual; empty where the reference has nothing. */
    String usualOf(String id) {
        Reference reference = chosen.get();
        Usual usual = reference == null ? null : reference.usual(id);
        return usual == null ? "" : usual(usual);
    }

    /** Where the case's own time stands; empty where that is not known. */
    String lineOf(String id) {
        Reference reference = chosen.get();
        PhaseTiming timing = times.get(id);
        Long us = timing == null ? null : timing.sureActiveUs();
        Standing standing = reference == null || us == null ? null : reference.standing(id, us);
        if (standing == null) {
            return "";
        }
        Place place = standing.place();
        if (place != null) {
            Integer above = place.above();
            Integer notAbove = place.notAbove();
            if (above == null) {
                return texts.get("reference.upTo", String.valueOf(notAbove));
            }
            return notAbove == null
                    ? texts.get("reference.beyond", above.toString())
                    : texts.get("reference.between", above.toString(), notAbove.toString());
        }
        String longer = texts.get("reference.longer", standing.n(), standing.shorter());
        var share = standing.share();
        Interval limits = share == null ? null : share.limits();
        return share == null || limits == null || standing.n() < MANY
                ? longer
                : texts.get(
                        "reference.share",
                        longer,
                        Formats.percent(share.value()),
                        Formats.percent(limits.lower()),
                        Formats.percent(limits.upper()));
    }

    String titleOf(@Nullable Reference reference) {
        if (reference instanceof Own own) {
            return texts.get("reference.own", own.n(), kindOf(own));
        }
        return reference instanceof Published published
                ? texts.get("reference.n", published.group().title(), published.n())
                : texts.get("reference.none");
    }

    /** Where the figures come from and what is to be kept in mind; empty where nothing is compared. */
    String source() {
        Reference reference = chosen.get();
        if (reference instanceof Published published) {
            return published.group().source() + ". " + published.group().caveat() + " " + published.note();
        }
        return !(reference instanceof Own own)
                ? ""
                : texts.get(own.kind() == Kind.EXEMPLARS ? "reference.exemplars.source" : "reference.earlier.source");
    }

    private String kindOf(Own own) {
        return texts.get(own.kind() == Kind.EXEMPLARS ? "reference.exemplars" : "reference.earlier");
    }
}
