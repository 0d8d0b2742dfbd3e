package org.sideport.app.cases;

import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.StringBinding;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableMap;
import javafx.collections.ObservableSet;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Background;
import org.sideport.app.Notice;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.model.CaseChange;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.DescriptorKind;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.CaseEdit;
import org.sideport.workflow.Descriptors;
import org.sideport.workflow.EditCase;

/** The sheet of a case while it is being changed. */
public final class EditCaseViewModel {

    /** Who worked here last; the same setting as where phases are tagged. */
    private static final String WHO = "annotator";

    private final EditCase job;
    private final Background work;
    private final Texts texts;
    private final Settings settings;
    private final Clock clock;
    private final Runnable saved;
    private final EditCase.Sheet sheet;

    private final StringProperty by;
    private final StringProperty trainee;
    private final ObjectProperty<@Nullable LocalDate> date;
    private final ObservableMap<String, String> descriptors = FXCollections.observableMap(new LinkedHashMap<>());
    private final ObjectProperty<ConsentState> consent;
    private final ObservableSet<ConsentPurpose> purposes =
            FXCollections.observableSet(EnumSet.noneOf(ConsentPurpose.class));
    private final StringProperty consentBy;
    private final ObjectProperty<@Nullable LocalDate> consentOn;
    private final ObjectProperty<@Nullable LocalDate> reviewBy;
    private final ReadOnlyObjectWrapper<@Nullable Notice> problem = new ReadOnlyObjectWrapper<>(null);
    private final StringBinding whyNot;

    /** @param saved told when the change is in the store */
    public EditCaseViewModel(
            EditCase job,
            EditCase.Sheet sheet,
            Background work,
            Texts texts,
            Settings settings,
            Clock clock,
            Runnable saved) {
        this.job = job;
        this.sheet = sheet;
        this.work = work;
        this.texts = texts;
        this.settings = settings;
        this.clock = clock;
        this.saved = saved;
        SurgicalCase now = sheet.surgicalCase();
        by = new SimpleStringProperty(settings.get(WHO, ""));
        trainee = new SimpleStringProperty(now.trainee());
        date = new SimpleObjectProperty<>(now.date());
        descriptors.putAll(now.descriptors());
        consent = new SimpleObjectProperty<>(now.consent().state());
        purposes.addAll(now.consent().purposes());
        consentBy = new SimpleStringProperty(now.consent().recordedBy());
        consentOn = new SimpleObjectProperty<>(now.consent().recordedOn());
        reviewBy = new SimpleObjectProperty<>(now.reviewBy());
        consent.addListener((property, old, state) -> {
            // another answer is another record: who and when are asked anew
            consentBy.set("");
            consentOn.set(state == ConsentState.UNKNOWN ? null : LocalDate.now(clock));
        });
        whyNot = Bindings.createStringBinding(
                this::whyNotNow, by, trainee, date, descriptors, consent, purposes, consentBy, consentOn);
    }

    /** True if who signed in changes it under the own code. */
    public boolean isByFixed() {
        return settings.isFixed(WHO);
    }

    public SurgicalCase surgicalCase() {
        return sheet.surgicalCase();
    }

    public Procedure procedure() {
        return sheet.procedure();
    }

    /** Code of the person who changes it. */
    public StringProperty byProperty() {
        return by;
    }

    public StringProperty traineeProperty() {
        return trainee;
    }

    public ObjectProperty<@Nullable LocalDate> dateProperty() {
        return date;
    }

    /** Values by descriptor id. */
    public ObservableMap<String, String> descriptors() {
        return descriptors;
    }

    public ObjectProperty<ConsentState> consentProperty() {
        return consent;
    }

    public ObservableSet<ConsentPurpose> purposes() {
        return purposes;
    }

    /** Who recorded the consent; empty for the one who changes the sheet. */
    public StringProperty consentByProperty() {
        return consentBy;
    }

    public ObjectProperty<@Nullable LocalDate> consentOnProperty() {
        return consentOn;
    }

    public ObjectProperty<@Nullable LocalDate> reviewByProperty() {
        return reviewBy;
    }

    public ReadOnlyObjectProperty<@Nullable Notice> problemProperty() {
        return problem.getReadOnlyProperty();
    }

    /** Why it cannot be saved yet; empty if it can. */
    public StringBinding whyNotProperty() {
        return whyNot;
    }

    private String whyNotNow() {
        if (by.get().isBlank()) {
            return texts.get("edit.why.by");
        }
        if (trainee.get().isBlank()) {
            return texts.get("add.why.trainee");
        }
        if (date.get() == null) {
            return texts.get("add.why.date");
        }
        for (Procedure.Descriptor descriptor : sheet.procedure().descriptors()) {
            String value = descriptors.getOrDefault(descriptor.id(), "");
            boolean same = value.equals(sheet.surgicalCase().descriptors().getOrDefault(descriptor.id(), ""));
            if (!same && descriptor.kind() != DescriptorKind.COMPUTED && Descriptors.fault(descriptor, value) != null) {
                return texts.get("edit.why.descriptor", descriptor.name());
            }
        }
        if (consent.get() == ConsentState.GIVEN && purposes.isEmpty()) {
            return texts.get("edit.why.purpose");
        }
        return consent.get() != ConsentState.UNKNOWN && consentOn.get() == null
                ? texts.get("edit.why.consentDate")
                : "";
    }

    public void save() {
        if (!whyNotNow().isEmpty()) {
            return;
        }
        problem.set(null);
        Map<String, String> values = new LinkedHashMap<>(descriptors);
        sheet.surgicalCase().descriptors().keySet().forEach(id -> values.putIfAbsent(id, ""));
        ConsentState state = consent.get();
        List<ConsentPurpose> forWhat = new ArrayList<>(purposes);
        String recorder =
                consentBy.get().isBlank() ? by.get().strip() : consentBy.get().strip();
        LocalDate recordedOn = consentOn.get();
        LocalDate review = reviewBy.get();
        String who = by.get().strip();
        String whose = trainee.get().strip();
        LocalDate day = Objects.requireNonNull(date.get());
        settings.put(WHO, who);
        work.run(
                progress -> {
                    Consent agreed = state == ConsentState.UNKNOWN
                            ? Consent.UNKNOWN
                            : new Consent(
                                    state,
                                    forWhat.isEmpty() ? EnumSet.noneOf(ConsentPurpose.class) : EnumSet.copyOf(forWhat),
                                    recorder,
                                    recordedOn);
                    CaseEdit edit = new CaseEdit(who, whose, day, values, agreed, review, review == null);
                    return job.edit(sheet.surgicalCase().code(), edit, clock.instant());
                },
                (List<CaseChange> changes) -> saved.run(),
                failure -> problem.set(Notice.of(failure, texts)));
    }
}
