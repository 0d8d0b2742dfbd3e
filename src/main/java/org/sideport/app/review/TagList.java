package org.sideport.app.review;

import javafx.beans.binding.Bindings;
import javafx.beans.binding.StringBinding;
import javafx.geometry.Pos;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.Label;
import javafx.scene.control.ListCell;
import javafx.scene.control.ListView;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;

/** All spans and events in time order; a click goes there, the context menu changes them. */
final class TagList extends VBox {

    private final ReviewViewModel model;
    private final Texts texts;
    private final ListView<TagRow> list;
    private boolean selecting;

    TagList(ReviewViewModel model, Texts texts) {
        this.model = model;
        this.texts = texts;
        list = Ui.styled(new ListView<>(model.rows()), "tag-list", "dense");
        list.setId("tag-list");
        list.setFixedCellSize(44);
        list.setPlaceholder(Ui.wrapped(texts.get("tags.empty"), "text-muted", "padded"));
        list.setCellFactory(view -> new Cell());
        list.setOnMouseClicked(event -> {
            TagRow row = list.getSelectionModel().getSelectedItem();
            if (row != null) {
                model.go(row);
            }
            if (event.getClickCount() == 2 && row instanceof TagRow.Event tagged) {
                model.changeEvent(tagged.event());
            }
        });
        VBox.setVgrow(list, Priority.ALWAYS);
        list.getSelectionModel().selectedItemProperty().addListener((property, old, now) -> picked(now));
        model.selectedSpanProperty().addListener((property, old, now) -> follow());
        model.selectedEventProperty().addListener((property, old, now) -> follow());
        StringBinding why = Bindings.createStringBinding(
                () -> list.getSelectionModel().getSelectedItem() == null ? texts.get("review.why.nothingSelected") : "",
                list.getSelectionModel().selectedItemProperty());
        HBox tools = new HBox(
                Ui.STEP / 2,
                Ui.reasoned(Ui.button("change-tag", Feather.EDIT_2, texts.get("tags.change"), this::openMenu), why),
                Ui.reasoned(
                        Ui.button("delete-tag", Feather.TRASH_2, texts.get("tags.delete"), model::deleteSelected),
                        why));
        tools.setAlignment(Pos.CENTER_LEFT);
        tools.getStyleClass().add("padded");
        getChildren().addAll(list, tools);
    }

    private void picked(@Nullable TagRow row) {
        if (selecting || row == null) {
            return;
        }
        if (row instanceof TagRow.Span span) {
            model.select(span.span(), null);
        } else if (row instanceof TagRow.Event event) {
            model.select(null, event.event());
        }
    }

    private void follow() {
        PhaseSpan span = model.selectedSpanProperty().get();
        PointEvent event = model.selectedEventProperty().get();
        TagRow wanted = model.rows().stream()
                .filter(row -> (row instanceof TagRow.Span s && s.span().equals(span))
                        || (row instanceof TagRow.Event e && e.event().equals(event)))
                .findFirst()
                .orElse(null);
        selecting = true;
        if (wanted == null) {
            list.getSelectionModel().clearSelection();
        } else {
            list.getSelectionModel().select(wanted);
            list.scrollTo(wanted);
        }
        selecting = false;
    }

    private void openMenu() {
        TagRow row = list.getSelectionModel().getSelectedItem();
        if (row instanceof TagRow.Event event) {
            model.changeEvent(event.event());
        } else if (row instanceof TagRow.Span span) {
            spanMenu(span.span()).show(list, javafx.geometry.Side.BOTTOM, Ui.STEP, 0);
        } else {
            model.selectFirst();
        }
    }

    /** What can be done to a span: another name, other hands, removal. */
    ContextMenu spanMenu(PhaseSpan span) {
        ContextMenu menu = new ContextMenu();
        Menu names = new Menu(texts.get("tags.relabel"));
        Procedure procedure = model.procedureProperty().get();
        if (procedure != null) {
            for (Procedure.Term term : procedure.terms()) {
                if (!term.phase().idle()) {
                    MenuItem item = new MenuItem((term.isStep() ? "    " : "") + term.name());
                    item.setOnAction(event -> model.relabel(span, term.id()));
                    names.getItems().add(item);
                }
            }
        }
        menu.getItems().add(names);
        menu.getItems().add(new SeparatorMenuItem());
        for (Operator operator : Operator.values()) {
            MenuItem item = new MenuItem(texts.get("tags.by", operatorName(texts, operator)));
            item.setOnAction(event -> model.setOperator(span, operator));
            menu.getItems().add(item);
        }
        MenuItem unknown = new MenuItem(texts.get("tags.byUnknown"));
        unknown.setOnAction(event -> model.setOperator(span, null));
        MenuItem remove = new MenuItem(texts.get("tags.remove"));
        remove.setOnAction(event -> {
            model.select(span, null);
            model.deleteSelected();
        });
        menu.getItems().addAll(unknown, new SeparatorMenuItem(), remove);
        return menu;
    }

    static String operatorName(Texts texts, Operator operator) {
        return texts.get("operator." + operator.name());
    }

    private final class Cell extends ListCell<TagRow> {

        private final Label time = Ui.label("", "digits", "small");
        private final Label swatch = Ui.styled(new Label(), "dot");
        private final Label name = Ui.label("");
        private final Label detail = Ui.label("", "small", "text-muted");
        private final FontIcon icon = new FontIcon(Feather.FLAG);
        private final HBox box;

        Cell() {
            VBox words = new VBox(0, name, detail);
            words.setAlignment(Pos.CENTER_LEFT);
            time.setMinWidth(USE_PREF_SIZE);
            time.getStyleClass().add("tag-time");
            swatch.setMinSize(18, 24);
            swatch.setAlignment(Pos.CENTER);
            box = new HBox(Ui.STEP, time, swatch, words);
            box.setAlignment(Pos.CENTER_LEFT);
            HBox.setHgrow(words, Priority.ALWAYS);
            setPrefWidth(0);
        }

        @Override
        protected void updateItem(TagRow row, boolean empty) {
            super.updateItem(row, empty);
            if (empty || row == null) {
                setGraphic(null);
                setContextMenu(null);
                return;
            }
            time.setText(Formats.clock(row.at()));
            name.setText(row.name());
            if (row instanceof TagRow.Span span) {
                swatch.setStyle(span.look().style());
                swatch.setGraphic(null);
                detail.setText(spanDetail(span));
                setContextMenu(spanMenu(span.span()));
            } else if (row instanceof TagRow.Event event) {
                swatch.setStyle("-phase-fill: transparent;");
                swatch.setGraphic(icon);
                detail.setText(eventDetail(event));
                setContextMenu(eventMenu(event.event()));
            }
            setGraphic(box);
        }

        private String spanDetail(TagRow.Span row) {
            MediaTime end = row.end();
            Operator operator = row.span().operator();
            String hands = operator == null ? "" : " · " + operatorName(texts, operator);
            return (end == null
                            ? texts.get("tags.open")
                            : Formats.length(end.micros() - row.at().micros()))
                    + hands;
        }

        private String eventDetail(TagRow.Event row) {
            StringBuilder text = new StringBuilder(texts.get(row.complication() ? "tags.complication" : "tags.moment"));
            if (row.event().severity() != null) {
                text.append(" · ")
                        .append(texts.get("severity." + row.event().severity().name())
                                .toLowerCase(texts.locale()));
            }
            if (!row.event().note().isEmpty()) {
                text.append(" · ").append(row.event().note());
            }
            return text.toString();
        }

        private ContextMenu eventMenu(PointEvent event) {
            MenuItem change = new MenuItem(texts.get("tags.change"));
            change.setOnAction(action -> model.changeEvent(event));
            MenuItem remove = new MenuItem(texts.get("tags.remove"));
            remove.setOnAction(action -> {
                model.select(null, event);
                model.deleteSelected();
            });
            return new ContextMenu(change, remove);
        }
    }
}
