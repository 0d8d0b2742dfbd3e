package org.sideport.app.measure;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Objects;
import javafx.beans.Observable;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.picture.ShownFrame;
import org.sideport.media.FramePicture;
import org.sideport.model.InputException;
import org.sideport.model.MeasuredShape;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.WhiteToWhite;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.Ellipse;
import org.sideport.stats.geometry.EllipseFit;
import org.sideport.workflow.LimbusScale;
import org.sideport.workflow.MeasureCase;
import org.sideport.workflow.StillMeasures;

/** Points are clicked on the frame that stands on the screen; what they measure is kept with its frame. */
public final class MeasureViewModel {

    /** Diameters between which the central zone for work on the nucleus is drawn, mm: common practice, no source. */
    static final double[] ZONE_MM = {3.0, 3.5};

    private final CurrentCase current;
    private final PictureDesk desk;
    private final ReadOnlyStringProperty person;
    private final MeasureCase job;
    private final Background work;
    private final Notices notices;
    private final Texts texts;

    private final ReadOnlyObjectWrapper<@Nullable MeasuredShape> shape = new ReadOnlyObjectWrapper<>(null);
    private final ObservableList<PicturePoint> points = FXCollections.observableArrayList();
    private final ReadOnlyObjectWrapper<@Nullable Ellipse> preview = new ReadOnlyObjectWrapper<>(null);
    private final ObservableList<Measurement> all = FXCollections.observableArrayList();
    private final ReadOnlyObjectWrapper<List<Measurement>> onFrame = new ReadOnlyObjectWrapper<>(List.of());
    private final ReadOnlyObjectWrapper<@Nullable LimbusScale> scale = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyObjectWrapper<WhiteToWhite> width = new ReadOnlyObjectWrapper<>(WhiteToWhite.POPULATION);
    private final BooleanProperty zone = new SimpleBooleanProperty(false);
    private final BooleanProperty showing = new SimpleBooleanProperty(false);
    private final ReadOnlyBooleanWrapper canPutBack = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyObjectWrapper<@Nullable Measurement> lastMade = new ReadOnlyObjectWrapper<>(null);
    private final Deque<Measurement> removed = new ArrayDeque<>();
    private MediaTime markedFrame = MediaTime.ZERO;

    private record Opening(List<Measurement> all, WhiteToWhite width) {}

    /** @param person code of who is at work */
    public MeasureViewModel(
            CurrentCase current,
            PictureDesk desk,
            ReadOnlyStringProperty person,
            MeasureCase job,
            Background work,
            Notices notices,
            Texts texts) {
        this.current = current;
        this.desk = desk;
        this.person = person;
        this.job = job;
        this.work = work;
        this.notices = notices;
        this.texts = texts;
        current.openedProperty().addListener((property, old, now) -> open());
        person.addListener((property, old, now) -> cancel());
        desk.timeProperty().addListener((property, old, now) -> follow());
        desk.playingProperty().addListener((property, old, now) -> follow());
        points.addListener((Observable changed) -> fit());
        open();
    }

    // ---- what is to be seen

    /** What is being marked; {@code null} for nothing. */
    public ReadOnlyObjectProperty<@Nullable MeasuredShape> shapeProperty() {
        return shape.getReadOnlyProperty();
    }

    /** Marked so far. */
    public ObservableList<PicturePoint> points() {
        return points;
    }

    /** The ellipse through what is marked so far, in the picture's square pixels; {@code null} if there is none yet. */
    public ReadOnlyObjectProperty<@Nullable Ellipse> previewProperty() {
        return preview.getReadOnlyProperty();
    }

    /** All measurements of the case, by frame. */
    public ObservableList<Measurement> all() {
        return all;
    }

    /** Those on the frame that stands on the screen. */
    public ReadOnlyObjectProperty<List<Measurement>> onFrameProperty() {
        return onFrame.getReadOnlyProperty();
    }

    /** What was measured or put back last on the open case, or {@code null}; told of after {@link #all()}. */
    public ReadOnlyObjectProperty<@Nullable Measurement> lastMadeProperty() {
        return lastMade.getReadOnlyProperty();
    }

    /** The scale of the frame on the screen, or {@code null}. */
    public ReadOnlyObjectProperty<@Nullable LimbusScale> scaleProperty() {
        return scale.getReadOnlyProperty();
    }

    /** The width that the next limbus is taken to have. */
    public ReadOnlyObjectProperty<WhiteToWhite> widthProperty() {
        return width.getReadOnlyProperty();
    }

    /** Whether the central zone is drawn. */
    public BooleanProperty zoneProperty() {
        return zone;
    }

    /** Whether measurements are shown on the picture. */
    public BooleanProperty showingProperty() {
        return showing;
    }

    public boolean isOwn(Measurement measurement) {
        return measurement.author().equals(person.get());
    }

    /** Width of the displayed picture in its square pixels. */
    public double displayWidth() {
        ShownFrame shown = desk.shownProperty().get();
        return shown == null ? 1 : shown.picture().height() * shown.picture().displayAspect();
    }

    public double displayHeight() {
        ShownFrame shown = desk.shownProperty().get();
        return shown == null ? 1 : shown.picture().height();
    }

    // ---- opening

    private void open() {
        cancel();
        removed.clear();
        canPutBack.set(false);
        lastMade.set(null);
        took(List.of());
        width.set(WhiteToWhite.POPULATION);
        CurrentCase.Opened opened = current.opened();
        if (opened == null) {
            return;
        }
        work.run(
                never -> new Opening(job.of(opened.code()), job.widthOf(opened.code())),
                found -> {
                    if (opened.equals(current.opened())) {
                        width.set(found.width());
                        took(found.all());
                    }
                },
                notices::failed);
    }

    private void took(List<Measurement> found) {
        all.setAll(found);
        follow();
    }

    private void follow() {
        MediaTime now = desk.timeProperty().get();
        boolean playing = desk.playingProperty().get();
        if (shape.get() != null && (playing || !now.equals(markedFrame))) {
            cancel();
        }
        List<Measurement> here = playing
                ? List.of()
                : all.stream().filter(m -> m.frame().equals(now)).toList();
        scale.set(here.stream()
                .filter(m -> m.shape() == MeasuredShape.LIMBUS)
                .reduce((first, second) -> second)
                .map(MeasureCase::scaleOf)
                .orElse(null));
        onFrame.set(here);
    }

    // ---- marking

    /** Why this cannot be marked on the frame on the screen; empty if it can. */
    public String whyNot(MeasuredShape wanted) {
        CurrentCase.Opened opened = current.opened();
        if (opened == null) {
            return texts.get("review.why.noCase");
        }
        if (opened.recording() == null) {
            return texts.get("measure.why.noRecording");
        }
        if (person.get().isEmpty()) {
            return texts.get("comments.why.noCode");
        }
        if (wanted == MeasuredShape.LIMBUS || wanted == MeasuredShape.ANGLE || scale.get() != null) {
            return "";
        }
        return all.stream()
                .filter(m -> m.shape() == MeasuredShape.LIMBUS)
                .reduce((first, second) -> second)
                .map(m -> texts.get("measure.why.otherFrame", m.frame().toClockText()))
                .orElseGet(() -> texts.get("measure.why.noScale"));
    }

    /** Stands still and marks this on the frame of this moment. */
    public void begin(MeasuredShape wanted) {
        desk.pause();
        desk.stamp(frame -> {
            markedFrame = frame.start();
            String why = whyNot(wanted);
            if (!why.isEmpty()) {
                cancel();
                notices.hint(why);
                return;
            }
            points.clear();
            showing.set(true);
            shape.set(wanted);
        });
    }

    /** Adds a place; a distance and an angle are done with their last one. */
    public void mark(PicturePoint place) {
        MeasuredShape marked = shape.get();
        if (marked == null || points.contains(place) || points.size() >= marked.mostPoints()) {
            return;
        }
        points.add(place);
        if (!marked.isOutline() && points.size() == marked.mostPoints()) {
            finish();
        }
    }

    public void removeLast() {
        if (!points.isEmpty()) {
            points.remove(points.size() - 1);
        }
    }

    /** Measures what is marked and keeps it. */
    public void finish() {
        MeasuredShape marked = shape.get();
        CurrentCase.Opened opened = current.opened();
        ShownFrame shown = desk.shownProperty().get();
        if (marked == null || opened == null || shown == null) {
            return;
        }
        if (points.size() < marked.fewestPoints()) {
            notices.hint(texts.get("measure.why.tooFew", marked.fewestPoints() - points.size()));
            return;
        }
        FramePicture picture = shown.picture();
        MeasureCase.Wanted wanted = new MeasureCase.Wanted(
                markedFrame,
                picture.height() * picture.displayAspect(),
                picture.height(),
                marked,
                List.copyOf(points),
                marked == MeasuredShape.LIMBUS ? width.get() : null);
        String who = person.get();
        work.run(
                never -> {
                    Measurement made = job.add(opened.code(), who, wanted);
                    return new Added(made, job.of(opened.code()));
                },
                added -> {
                    if (opened.equals(current.opened())) {
                        cancel();
                        took(added.all());
                        lastMade.set(added.made());
                        if (marked == MeasuredShape.LIMBUS
                                && !added.made().warnings().isEmpty()) {
                            notices.hint(added.made().warnings().get(0));
                        }
                    }
                },
                notices::failed);
    }

    private record Added(Measurement made, List<Measurement> all) {}

    /** @return false if nothing was being marked */
    public boolean cancel() {
        boolean marking = shape.get() != null;
        shape.set(null);
        points.clear();
        return marking;
    }

    private void fit() {
        MeasuredShape marked = shape.get();
        Ellipse found = null;
        if (marked != null && marked.isOutline() && points.size() >= marked.fewestPoints()) {
            Outcome<EllipseFit> fit =
                    StillMeasures.fit(MeasureCase.pixels(List.copyOf(points), displayWidth(), displayHeight()));
            if (fit instanceof Outcome.Found<EllipseFit> ellipse) {
                found = ellipse.value().ellipse();
            }
        }
        preview.set(found);
    }

    // ---- the eye's own width

    /** Takes the eye's own white-to-white distance from now on, or the mean of people where nothing is written. */
    public void setOwnWidth(String mm) {
        String text = mm.strip().replace(',', '.');
        if (text.isEmpty()) {
            width.set(WhiteToWhite.POPULATION);
            return;
        }
        try {
            width.set(new WhiteToWhite(Double.parseDouble(text), WhiteToWhite.READING_SD, true));
        } catch (NumberFormatException e) {
            notices.hint(texts.get("measure.why.noNumber", mm));
        } catch (InputException e) {
            notices.failed(e);
        }
    }

    // ---- results

    public void go(Measurement measurement) {
        showing.set(true);
        desk.scrub(measurement.frame());
    }

    public void remove(Measurement measurement) {
        CurrentCase.Opened opened = Objects.requireNonNull(current.opened());
        String who = person.get();
        work.run(
                never -> {
                    job.remove(opened.code(), who, measurement);
                    return job.of(opened.code());
                },
                found -> {
                    if (opened.equals(current.opened())) {
                        removed.push(measurement);
                        canPutBack.set(true);
                        lastMade.set(null);
                        took(found);
                    }
                },
                notices::failed);
    }

    /** Whether something was removed that can be put back. */
    public ReadOnlyBooleanProperty canPutBackProperty() {
        return canPutBack.getReadOnlyProperty();
    }

    /** Puts back what was removed last; nothing if nothing was. */
    public void putBack() {
        Measurement last = removed.peek();
        CurrentCase.Opened opened = current.opened();
        if (last == null || opened == null) {
            return;
        }
        String who = person.get();
        work.run(
                never -> {
                    job.putBack(opened.code(), who, last);
                    return job.of(opened.code());
                },
                found -> {
                    if (opened.equals(current.opened())) {
                        removed.remove(last);
                        canPutBack.set(!removed.isEmpty());
                        took(found);
                        lastMade.set(last);
                    }
                },
                notices::failed);
    }
}
