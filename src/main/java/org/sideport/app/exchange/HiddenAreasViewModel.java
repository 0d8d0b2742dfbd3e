package org.sideport.app.exchange;

import java.util.List;
import javafx.beans.property.ReadOnlyDoubleProperty;
import javafx.beans.property.ReadOnlyDoubleWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.ReadOnlyStringProperty;
import javafx.beans.property.ReadOnlyStringWrapper;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Texts;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.workflow.HideAreas;

/** Which areas of a case's picture are black in what is handed out of it. */
public final class HiddenAreasViewModel {

    private final HideAreas job;
    private final String code;
    private final Background work;
    private final Texts texts;
    private final Runnable saved;
    private final ObservableList<MaskArea> areas = FXCollections.observableArrayList();
    private final ReadOnlyObjectWrapper<HideAreas.@Nullable Still> still = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyStringWrapper whyNot = new ReadOnlyStringWrapper("");
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);

    private final ReadOnlyDoubleWrapper finding = new ReadOnlyDoubleWrapper(Double.NaN);
    private final ReadOnlyStringWrapper found = new ReadOnlyStringWrapper("");
    private Background.@Nullable Job search;

    /** The time that was asked for last, and whether a picture is on its way. */
    private MediaTime wanted = MediaTime.ZERO;

    private boolean reading;

    /** @param saved told when the areas are stored */
    public HiddenAreasViewModel(HideAreas job, String code, Background work, Texts texts, Runnable saved) {
        this.job = job;
        this.code = code;
        this.work = work;
        this.texts = texts;
        this.saved = saved;
        whyNot.set(texts.get("progress.loading"));
        work.run(
                progress -> job.of(code),
                found -> {
                    areas.setAll(found);
                    whyNot.set("");
                },
                this::failed);
        read();
    }

    public String code() {
        return code;
    }

    /** In the order in which they were drawn. */
    public ObservableList<MaskArea> areas() {
        return areas;
    }

    /** The picture to draw on; {@code null} until it is read. */
    public ReadOnlyObjectProperty<HideAreas.@Nullable Still> stillProperty() {
        return still.getReadOnlyProperty();
    }

    /** Why nothing can be stored now; empty if it can. */
    public ReadOnlyStringProperty whyNotProperty() {
        return whyNot.getReadOnlyProperty();
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    /** Shows another picture of the recording; of many that are asked for in a row, the last. */
    public void showAt(MediaTime at) {
        if (!at.equals(wanted)) {
            wanted = at;
            read();
        }
    }

    private void read() {
        if (reading) {
            return;
        }
        reading = true;
        MediaTime at = wanted;
        work.run(
                progress -> job.picture(code, at, progress),
                found -> {
                    reading = false;
                    still.set(found);
                    if (!at.equals(wanted)) {
                        read();
                    }
                },
                failure -> {
                    reading = false;
                    failed(failure);
                });
    }

    public void add(MaskArea area) {
        problem.set(null);
        if (!areas.contains(area)) {
            areas.add(area);
        }
    }

    /**
     * Adds an area that was typed as {@link MaskArea#parse} reads it.
     *
     * @return false if it is none; the problem says so then
     */
    public boolean add(String typed) {
        try {
            add(MaskArea.parse(typed));
            return true;
        } catch (InputException noArea) {
            failed(noArea);
            return false;
        }
    }

    public void remove(MaskArea area) {
        areas.remove(area);
    }

    /** How far the search for writing is, 0 to 1; not a number when none is under way. */
    public ReadOnlyDoubleProperty findingProperty() {
        return finding.getReadOnlyProperty();
    }

    /** What the search found, in words; empty before one has ended. */
    public ReadOnlyStringProperty foundProperty() {
        return found.getReadOnlyProperty();
    }

    /** Adds areas where writing may be, unless a search is under way. */
    public void findWriting() {
        if (!Double.isNaN(finding.get())) {
            return;
        }
        problem.set(null);
        found.set("");
        finding.set(0);
        search = work.run(
                progress -> job.findWriting(code, progress),
                some -> {
                    finding.set(Double.NaN);
                    found.set(texts.get("hide.found", some.size()));
                    some.forEach(this::add);
                },
                failure -> {
                    finding.set(Double.NaN);
                    failed(failure);
                },
                (fraction, message) -> {
                    if (!Double.isNaN(finding.get())) {
                        finding.set(Math.max(0, fraction));
                    }
                });
    }

    /** Stops a search that is under way. */
    public void stopFinding() {
        if (search != null) {
            search.cancel();
        }
        finding.set(Double.NaN);
    }

    /** Stores the areas as they are now. */
    public void save() {
        if (!whyNot.get().isEmpty()) {
            return;
        }
        problem.set(null);
        whyNot.set(texts.get("hide.saving"));
        List<MaskArea> now = List.copyOf(areas);
        work.run(
                progress -> {
                    job.replace(code, now);
                    return true;
                },
                done -> saved.run(),
                failure -> {
                    whyNot.set("");
                    failed(failure);
                });
    }

    private void failed(Throwable failure) {
        problem.set(Notice.of(failure, texts));
    }
}
