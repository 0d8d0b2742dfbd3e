package org.sideport.app.cases;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import javafx.collections.MapChangeListener;
import javafx.collections.ObservableMap;
import javafx.geometry.VPos;
import javafx.scene.Node;
import javafx.scene.control.CheckBox;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.TextField;
import javafx.scene.layout.GridPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Descriptor;
import org.sideport.workflow.Descriptors;

/** Fields for what is noted of a case, as its procedure file types them; what is wrong is said below the field. */
final class DescriptorForm {

    private static final String BETWEEN = "; ";

    private final Texts texts;
    private final ObservableMap<String, String> values;
    private final GridPane grid;
    private String explained = "";

    /**
     * @param grid takes the fields below what it holds already
     * @param values by descriptor id; written as the user types
     */
    DescriptorForm(Texts texts, ObservableMap<String, String> values, GridPane grid) {
        this.texts = texts;
        this.values = values;
        this.grid = grid;
    }

    void addAll(Procedure procedure) {
        String group = "";
        for (Descriptor descriptor : procedure.descriptors()) {
            if (!descriptor.group().equals(group)) {
                group = descriptor.group();
                Label heading = Ui.label(group, "section", "group-heading");
                grid.add(heading, 0, grid.getRowCount(), 2, 1);
            }
            row(descriptor);
        }
    }

    private void row(Descriptor descriptor) {
        int row = grid.getRowCount();
        Label name = Ui.wrapped(descriptor.name(), "text-muted", "field-name", "form-name");
        Node field = field(descriptor);
        name.setLabelFor(field);
        if (field instanceof Label || field instanceof VBox) {
            field.getStyleClass().add("field-name");
        }
        VBox box = new VBox(Ui.STEP / 4, field);
        String meaning = descriptor.scale().isEmpty()
                ? descriptor.definition()
                : descriptor.definition().isEmpty()
                        ? descriptor.scale()
                        : texts.get("form.scale", descriptor.scale(), descriptor.definition());
        if (!meaning.isEmpty() && !meaning.equals(explained)) {
            box.getChildren().add(Ui.wrapped(meaning, "small", "text-muted"));
            explained = meaning;
        }
        Label fault = Ui.wrapped("", "small", "critical-note");
        fault.setId("fault-" + descriptor.id());
        fault.setVisible(false);
        fault.setManaged(false);
        box.getChildren().add(1, fault);
        Runnable check = () -> {
            String value = values.getOrDefault(descriptor.id(), "");
            String why = descriptor.kind() == Procedure.DescriptorKind.COMPUTED
                    ? null
                    : Descriptors.fault(descriptor, value);
            fault.setText(why == null ? "" : why);
            fault.setVisible(why != null);
            fault.setManaged(why != null);
        };
        values.addListener((MapChangeListener<String, String>) change -> {
            if (change.getKey().equals(descriptor.id())) {
                check.run();
            }
        });
        GridPane.setValignment(name, VPos.TOP);
        GridPane.setHgrow(box, Priority.ALWAYS);
        grid.add(name, 0, row);
        grid.add(box, 1, row);
    }

    private Node field(Descriptor descriptor) {
        return switch (descriptor.kind()) {
            case CHOICE -> choice(descriptor);
            case SEVERAL -> several(descriptor);
            case NUMBER -> number(descriptor);
            case TEXT -> text(descriptor);
            case COMPUTED -> computed(descriptor);
        };
    }

    private String value(Descriptor descriptor) {
        return values.getOrDefault(descriptor.id(), "");
    }

    private ComboBox<String> choice(Descriptor descriptor) {
        ComboBox<String> box = new ComboBox<>();
        box.setId("descriptor-" + descriptor.id());
        box.getItems().add("");
        box.getItems().addAll(descriptor.values());
        String now = value(descriptor);
        if (!box.getItems().contains(now)) {
            box.getItems().add(now);
        }
        box.setValue(now);
        box.setMaxWidth(Double.MAX_VALUE);
        box.valueProperty()
                .addListener((property, old, chosen) -> values.put(descriptor.id(), chosen == null ? "" : chosen));
        return box;
    }

    private VBox several(Descriptor descriptor) {
        VBox box = new VBox(Ui.STEP / 2);
        box.setId("descriptor-" + descriptor.id());
        List<String> chosen = new ArrayList<>(Arrays.asList(value(descriptor).split(BETWEEN)));
        for (String one : descriptor.values()) {
            CheckBox check = new CheckBox(one);
            check.setWrapText(true);
            check.setSelected(chosen.contains(one));
            check.selectedProperty().addListener((property, old, now) -> {
                List<String> checked = box.getChildren().stream()
                        .map(CheckBox.class::cast)
                        .filter(CheckBox::isSelected)
                        .map(CheckBox::getText)
                        .toList();
                values.put(descriptor.id(), String.join(BETWEEN, checked));
            });
            box.getChildren().add(check);
        }
        return box;
    }

    private HBox number(Descriptor descriptor) {
        TextField field = text(descriptor);
        field.setPrefColumnCount(7);
        field.getStyleClass().add("number-field");
        field.getStyleClass().add("digits");
        if (descriptor.minimum() != null && descriptor.maximum() != null) {
            field.setPromptText(texts.get(
                    "form.range",
                    descriptor.minimum().toPlainString(),
                    descriptor.maximum().toPlainString()));
        }
        field.setAccessibleHelp(Descriptors.limits(descriptor));
        HBox box = new HBox(Ui.STEP, field, Ui.label(descriptor.unit(), "text-muted"));
        box.setAlignment(javafx.geometry.Pos.CENTER_LEFT);
        return box;
    }

    private TextField text(Descriptor descriptor) {
        TextField field = new TextField(value(descriptor));
        field.setId("descriptor-" + descriptor.id());
        field.textProperty().addListener((property, old, now) -> values.put(descriptor.id(), now));
        return field;
    }

    private Label computed(Descriptor descriptor) {
        Label label = Ui.wrapped("", "digits");
        label.setId("descriptor-" + descriptor.id());
        Runnable update = () -> {
            String result = descriptor.computed(Map.copyOf(values));
            label.setText(
                    result == null
                            ? texts.get("form.notYetComputed", Formats.UNKNOWN)
                            : texts.get("detail.computed", result + " " + descriptor.unit()));
        };
        values.addListener((MapChangeListener<String, String>) change -> update.run());
        update.run();
        return label;
    }
}
