package org.sideport.app.review;

import java.util.List;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.CurrentCase;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.picture.PictureDesk;
import org.sideport.model.Cut;
import org.sideport.model.CutState;
import org.sideport.model.MediaTime;
import org.sideport.workflow.RecordingCuts;

/** The cuts of the open case's recording: found on request, then accepted or dismissed by the person at work. */
public final class CutsViewModel {

    private final CurrentCase current;
    private final PictureDesk desk;
    private final RecordingCuts job;
    private final Background work;
    private final Background longWork;
    private final Notices notices;
    private final Texts texts;
    private final ReviewViewModel review;
    private final ObservableList<Cut> cuts = FXCollections.observableArrayList();
    private final ReadOnlyBooleanWrapper looking = new ReadOnlyBooleanWrapper(false);
    private final ReadOnlyDoubleWrapper progress = new ReadOnlyDoubleWrapper(0);
    private Background.@Nullable Job search;

    /**
     * @param work for what is done in moments
     * @param longWork for looking through a whole recording
     */
    public CutsViewModel(
            ReviewViewModel review,
            PictureDesk desk,
            RecordingCuts job,
            Background work,
            Background longWork,
            Notices notices,
            Texts texts) {
        this.review = review;
        this.current = review.current();
        this.desk = desk;
        this.job = job;
        this.work = work;
        this.longWork = longWork;
        this.notices = notices;
        this.texts = texts;
        current.openedProperty().addListener((property, old, now) -> caseChanged());
        caseChanged();
    }

    public ObservableList<Cut> cuts() {
        return cuts;
    }

    /** True while the recording is looked through. */
    public ReadOnlyBooleanProperty lookingProperty() {
        return looking.getReadOnlyProperty();
    }

    /** 0 to 1 while {@link #lookingProperty()}. */
    public ReadOnlyDoubleProperty progressProperty() {
        return progress.getReadOnlyProperty();
    }

    private void caseChanged() {
        cancel();
        cuts.clear();
        CurrentCase.Opened open = current.opened();
        if (open != null && open.recording() != null) {
            work.run(never -> job.of(open.code()), found -> took(open, found), notices::failed);
        }
    }

    /** Looks through the whole recording; takes about as long as playing it at many times its speed. */
    public void look() {
        CurrentCase.Opened open = current.opened();
        if (open == null || open.recording() == null || looking.get()) {
            return;
        }
        looking.set(true);
        progress.set(0);
        search = longWork.run(
                running -> job.find(open.code(), running),
                found -> {
                    looking.set(false);
                    boolean nothingNew = open.equals(current.opened()) && cuts.equals(found);
                    took(open, found);
                    if (nothingNew) {
                        notices.hint(texts.get("cuts.none"));
                    }
                },
                failure -> {
                    looking.set(false);
                    notices.failed(failure);
                },
                (fraction, message) -> progress.set(fraction));
    }

    public void cancel() {
        Background.Job running = search;
        search = null;
        if (running != null) {
            running.cancel();
        }
    }

    private void took(CurrentCase.Opened open, List<Cut> found) {
        if (open.equals(current.opened())) {
            cuts.setAll(found);
        }
    }

    public void go(Cut cut) {
        desk.seek(cut.to());
    }

    public void accept(Cut cut) {
        decide(cut, CutState.ACCEPTED);
    }

    public void dismiss(Cut cut) {
        decide(cut, CutState.DISMISSED);
    }

    /** Takes a decision back. */
    public void reopen(Cut cut) {
        decide(cut, CutState.PROPOSED);
    }

    private void decide(Cut cut, CutState decision) {
        CurrentCase.Opened open = current.opened();
        String who = review.annotatorProperty().get();
        if (open == null || isNobody(who)) {
            return;
        }
        change(open, () -> job.decide(open.code(), cut.to(), decision, who));
    }

    /** Keeps that there is a cut before the frame on the screen. */
    public void addHere() {
        CurrentCase.Opened open = current.opened();
        String who = review.annotatorProperty().get();
        if (open == null || open.recording() == null || isNobody(who)) {
            return;
        }
        MediaTime at = desk.timeProperty().get();
        change(open, () -> job.add(open.code(), at, texts.get("cuts.seen"), who));
    }

    private boolean isNobody(String who) {
        if (who.isEmpty()) {
            notices.hint(texts.get("review.why.noAnnotator"));
        }
        return who.isEmpty();
    }

    private void change(CurrentCase.Opened open, Runnable change) {
        work.run(
                never -> {
                    change.run();
                    return job.of(open.code());
                },
                found -> {
                    took(open, found);
                    review.timesChanged();
                },
                notices::failed);
    }
}
