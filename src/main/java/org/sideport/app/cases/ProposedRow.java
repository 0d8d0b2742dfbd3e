package org.sideport.app.cases;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ObjectProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.beans.property.SimpleObjectProperty;
import javafx.beans.property.SimpleStringProperty;
import javafx.beans.property.StringProperty;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import org.jspecify.annotations.Nullable;
import org.sideport.workflow.ProposeCases;

/** A case that was made out of dropped files, while a person corrects it. */
final class ProposedRow {

    private final StringProperty code;
    private final StringProperty trainee = new SimpleStringProperty("");
    private final ObjectProperty<@Nullable LocalDate> date;
    private final BooleanProperty wanted = new SimpleBooleanProperty(true);
    private final StringProperty problem = new SimpleStringProperty("");
    private final StringProperty warning = new SimpleStringProperty("");
    private final ObservableList<Path> files = FXCollections.observableArrayList();
    private final List<String> hints;

    ProposedRow(ProposeCases.Proposal proposal) {
        code = new SimpleStringProperty(proposal.code());
        date = new SimpleObjectProperty<>(proposal.date());
        files.setAll(proposal.files());
        hints = proposal.hints();
    }

    StringProperty codeProperty() {
        return code;
    }

    StringProperty traineeProperty() {
        return trainee;
    }

    ObjectProperty<@Nullable LocalDate> dateProperty() {
        return date;
    }

    /** False leaves it out. */
    BooleanProperty wantedProperty() {
        return wanted;
    }

    /** Why it cannot be taken in; empty if nothing is known against it. */
    StringProperty problemProperty() {
        return problem;
    }

    /** What is odd about its files; empty if nothing is. */
    StringProperty warningProperty() {
        return warning;
    }

    ObservableList<Path> files() {
        return files;
    }

    /** What in the names may tell who the patient is. */
    List<String> hints() {
        return hints;
    }
}
