package org.sideport.app;

import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.property.ReadOnlyBooleanWrapper;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.picture.PictureDesk;
import org.sideport.model.InputException;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.workflow.CaseList;
import org.sideport.workflow.CaseOverview;
import org.sideport.workflow.OpenRecording;
import org.sideport.workflow.Vocabularies;

/** The case that Review and Marking are about. Opening one puts its recording on the {@link PictureDesk}. */
public final class CurrentCase {

    /**
     * A case with all that its screens need.
     *
     * @param recording {@code null} if it has none, or it was not found
     * @param recordingProblem why the recording is not there, or {@code null}
     */
    public record Opened(
            CaseOverview overview,
            Procedure procedure,
            @Nullable Recording recording,
            @Nullable InputException recordingProblem) {

        public String code() {
            return overview.surgicalCase().code();
        }
    }

    private final CaseList cases;
    private final Vocabularies vocabularies;
    private final OpenRecording recordings;
    private final Background work;
    private final PictureDesk desk;
    private final Notices notices;
    private final ReadOnlyObjectWrapper<@Nullable Opened> opened = new ReadOnlyObjectWrapper<>(null);
    private final ReadOnlyBooleanWrapper loading = new ReadOnlyBooleanWrapper(false);

    public CurrentCase(
            CaseList cases,
            Vocabularies vocabularies,
            OpenRecording recordings,
            Background work,
            PictureDesk desk,
            Notices notices) {
        this.cases = cases;
        this.vocabularies = vocabularies;
        this.recordings = recordings;
        this.work = work;
        this.desk = desk;
        this.notices = notices;
    }

    public ReadOnlyObjectProperty<@Nullable Opened> openedProperty() {
        return opened.getReadOnlyProperty();
    }

    public ReadOnlyBooleanProperty loadingProperty() {
        return loading.getReadOnlyProperty();
    }

    public @Nullable Opened opened() {
        return opened.get();
    }

    /** Closes the case if it is this one: it is not to be seen any more. */
    public void close(String code) {
        Opened now = opened.get();
        if (now != null && now.code().equals(code)) {
            opened.set(null);
            desk.close();
        }
    }

    /** Opens a case, unless it is open already. */
    public void open(String code) {
        Opened now = opened.get();
        if (now != null && now.code().equals(code) && now.recordingProblem() == null) {
            return;
        }
        opened.set(null);
        desk.close();
        loading.set(true);
        work.run(progress -> load(code), this::arrived, failure -> {
            loading.set(false);
            notices.failed(failure);
        });
    }

    private Opened load(String code) {
        CaseOverview overview = cases.one(code);
        Procedure procedure = vocabularies.procedure(overview.surgicalCase().procedure());
        if (overview.surgicalCase().recording() == null) {
            return new Opened(overview, procedure, null, null);
        }
        try {
            return new Opened(overview, procedure, recordings.locate(overview.surgicalCase()), null);
        } catch (InputException problem) {
            return new Opened(overview, procedure, null, problem);
        }
    }

    private void arrived(Opened now) {
        loading.set(false);
        if (now.recording() != null) {
            desk.open(now.recording());
        }
        if (now.recordingProblem() != null) {
            notices.failed(now.recordingProblem());
        }
        opened.set(now);
        String warning = now.overview().surgicalCase().consent().warning();
        if (warning != null) {
            notices.hint(warning);
        }
    }
}
