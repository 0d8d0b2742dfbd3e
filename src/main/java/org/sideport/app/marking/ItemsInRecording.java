package org.sideport.app.marking;

import java.util.ArrayList;
import java.util.List;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.review.TaggedLanes;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.model.Tagging;
import org.sideport.workflow.TagRecording;

/** Where the items of a rubric are to be seen in the recording of the open case, by the tags of one annotator. */
final class ItemsInRecording {

    private final CurrentCase current;
    private final PictureDesk desk;
    private final TagRecording tagging;
    private final Notices notices;
    private final Texts texts;
    private final ReadOnlyObjectWrapper<TaggedLanes> lane = new ReadOnlyObjectWrapper<>(TaggedLanes.EMPTY);
    private Tags tags = Tags.NONE;

    /** @param annotator whose they are; empty where there are none */
    record Tags(String annotator, Tagging tagging) {
        static final Tags NONE = new Tags("", Tagging.EMPTY);
    }

    ItemsInRecording(CurrentCase current, PictureDesk desk, TagRecording tagging, Notices notices, Texts texts) {
        this.current = current;
        this.desk = desk;
        this.tagging = tagging;
        this.notices = notices;
        this.texts = texts;
        desk.durationProperty().addListener((property, old, now) -> relay());
    }

    /** The tags of the first of {@code own} who has any, or else of the annotator whose code comes first. May be slow. */
    Tags read(CurrentCase.Opened open, List<String> own) {
        List<String> annotators = new ArrayList<>(own);
        annotators.addAll(open.overview().annotators());
        for (String annotator : annotators) {
            Tagging found = annotator.isEmpty()
                    ? Tagging.EMPTY
                    : tagging.look(open.code(), annotator).tagging();
            if (!found.isEmpty()) {
                return new Tags(annotator, found);
            }
        }
        return Tags.NONE;
    }

    void take(Tags found) {
        tags = found;
        relay();
    }

    void forget() {
        take(Tags.NONE);
    }

    private void relay() {
        CurrentCase.Opened open = current.opened();
        lane.set(
                open == null
                        ? TaggedLanes.EMPTY
                        : TaggedLanes.of(
                                open.procedure(),
                                tags.tagging(),
                                desk.recordingProperty().get(),
                                desk.durationProperty().get()));
    }

    ReadOnlyObjectProperty<TaggedLanes> laneProperty() {
        return lane.getReadOnlyProperty();
    }

    /** Whose tags are shown; empty where there are none. */
    String taggedBy() {
        return tags.annotator();
    }

    /** Where the item is to be seen, in time order. */
    List<PhaseSpan> episodesOf(Rubric.Item item) {
        CurrentCase.Opened open = current.opened();
        return open == null ? List.of() : ItemEpisodes.of(item, open.procedure(), tags.tagging());
    }

    /** Why the recording cannot be gone to for this item, or {@code null} if it can. */
    @Nullable
    String whyNoJump(Rubric.Item item) {
        CurrentCase.Opened open = current.opened();
        String phase = item.phase();
        if (phase == null) {
            return texts.get("marking.why.wholeOperation");
        }
        if (open == null || open.recording() == null) {
            return texts.get("marking.why.noRecording");
        }
        if (!episodesOf(item).isEmpty()) {
            return null;
        }
        String name = open.procedure().find(phase).map(Procedure.Term::name).orElse(phase);
        return texts.get("marking.why.notTagged", name);
    }

    /** Goes to the start of the item's phase; again, to the next time that it was taken up. */
    void jump(Rubric.Item item) {
        String why = whyNoJump(item);
        if (why != null) {
            notices.hint(why);
            return;
        }
        List<PhaseSpan> episodes = episodesOf(item);
        MediaTime now = desk.timeProperty().get();
        boolean within = episodes.stream().anyMatch(e -> e.contains(now));
        MediaTime to = episodes.stream()
                .map(PhaseSpan::start)
                .filter(start -> within && start.isAfter(now))
                .findFirst()
                .orElse(episodes.get(0).start());
        desk.seek(to);
    }
}
