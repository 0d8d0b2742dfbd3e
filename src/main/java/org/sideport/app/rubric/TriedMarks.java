package org.sideport.app.rubric;

import java.util.ArrayList;
import java.util.List;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.app.marking.ItemMarking;
import org.sideport.app.review.TaggedLanes;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score;
import org.sideport.rubric.Scorer;

/** Marks on the preview: kept nowhere, so that a form can be tried while it is written. */
final class TriedMarks implements ItemMarking {

    private final Texts texts;
    private final Runnable changed;
    private final ReadOnlyObjectWrapper<TaggedLanes> lanes = new ReadOnlyObjectWrapper<>(TaggedLanes.EMPTY);
    private final List<ItemScore> scores = new ArrayList<>();
    private @Nullable Rubric rubric;

    /** @param changed told of each mark */
    TriedMarks(Texts texts, Runnable changed) {
        this.texts = texts;
        this.changed = changed;
    }

    /** Goes on with another state of the form; marks that no longer fit are gone. */
    void use(Rubric now) {
        rubric = now;
        scores.removeIf(score -> !fits(now, score));
    }

    private static boolean fits(Rubric now, ItemScore score) {
        Rubric.Item item = now.item(score.item()).orElse(null);
        if (item == null) {
            return false;
        }
        if (score instanceof ItemScore.Excused excused) {
            return item.notApplicable().contains(excused.reason());
        }
        ItemScore.Marked marked = (ItemScore.Marked) score;
        Double value = marked.value();
        return value == null
                ? !item.kind().isNumber() && now.pointsOf(item).contains(marked.points())
                : item.takes(value) && item.band(value).points() == marked.points();
    }

    /** What the marks come to; {@code null} while the form is too faulty to say. */
    @Nullable
    Score score() {
        Rubric now = rubric;
        if (now == null) {
            return null;
        }
        try {
            return Scorer.score(now, new Rating(now.id(), now.version(), "", false, false, List.copyOf(scores), ""));
        } catch (InputException | IndexOutOfBoundsException e) {
            return null;
        }
    }

    private void put(Rubric.Item item, @Nullable ItemScore score) {
        scores.removeIf(one -> one.item().equals(item.id()));
        if (score != null) {
            scores.add(score);
        }
        changed.run();
    }

    @Override
    public void focus(Rubric.Item item) {
        // nothing depends on which card has the keys
    }

    @Override
    public @Nullable String whyNoMarking() {
        return null;
    }

    @Override
    public @Nullable ItemScore scoreOf(Rubric.Item item) {
        return scores.stream()
                .filter(score -> score.item().equals(item.id()))
                .findFirst()
                .orElse(null);
    }

    @Override
    public boolean isCriticalFailure(Rubric.Item item) {
        Integer least = item.criticalMinimum();
        return least != null && scoreOf(item) instanceof ItemScore.Marked marked && marked.points() < least;
    }

    @Override
    public void mark(Rubric.Item item, int points) {
        put(item, new ItemScore.Marked(item.id(), points, null, "", List.of()));
    }

    @Override
    public void excuse(Rubric.Item item, NotApplicable reason) {
        put(item, new ItemScore.Excused(item.id(), reason, "", List.of()));
    }

    @Override
    public void clear(Rubric.Item item) {
        put(item, null);
    }

    @Override
    public void comment(Rubric.Item item, String text) {
        ItemScore score = scoreOf(item);
        if (score != null && !score.comment().equals(text)) {
            put(item, score.withComment(text));
        }
    }

    @Override
    public void markValue(Rubric.Item item, String written) {
        try {
            double value = Double.parseDouble(written.strip().replace(',', '.'));
            if (item.takes(value)) {
                put(item, new ItemScore.Marked(item.id(), item.band(value).points(), value, "", List.of()));
                return;
            }
        } catch (NumberFormatException e) {
            // shown as it was
        }
        changed.run();
    }

    @Override
    public void markFromTags(Rubric.Item item) {
        // there is no recording
    }

    @Override
    public void toggleEvidence(Rubric.Item item) {
        // there is no recording
    }

    @Override
    public void toggleEvidence(Rubric.Item item, MediaTime moment) {
        // there is no recording
    }

    @Override
    public void seek(MediaTime time) {
        // there is no recording
    }

    @Override
    public void jump(Rubric.Item item) {
        // there is no recording
    }

    @Override
    public String whyNoJump(Rubric.Item item) {
        return texts.get("rubrics.preview.noJump");
    }

    @Override
    public ReadOnlyObjectProperty<TaggedLanes> laneProperty() {
        return lanes.getReadOnlyProperty();
    }
}
