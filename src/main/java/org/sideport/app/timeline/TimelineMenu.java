package org.sideport.app.timeline;

import java.util.List;
import java.util.function.Consumer;
import javafx.scene.control.ContextMenu;
import javafx.scene.control.Menu;
import javafx.scene.control.MenuItem;
import javafx.scene.control.SeparatorMenuItem;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;

/** The menu of the selected items; what cannot be done now is grey. */
final class TimelineMenu {

    private final TimelineView view;
    private final TimelineActions actions;
    private final ContextMenu menu = new ContextMenu();

    TimelineMenu(TimelineView view) {
        this.view = view;
        this.actions = new TimelineActions(view);
    }

    List<MenuItem> items() {
        return menu.getItems();
    }

    void show(double screenX, double screenY, long us) {
        Texts texts = view.texts();
        Menu relabel = new Menu(texts.get("timeline.menu.relabel"));
        relabel.setId("timeline-relabel");
        for (LabelChoice choice : view.labelsProperty().get()) {
            MenuItem item = new MenuItem((choice.step() ? "    " : "") + choice.name());
            item.setId("timeline-label-" + choice.id());
            item.setOnAction(event -> actions.relabel(choice.id()));
            relabel.getItems().add(item);
        }
        relabel.setDisable(!actions.canRelabel() || relabel.getItems().isEmpty());
        menu.getItems()
                .setAll(
                        relabel,
                        item(
                                "timeline-split",
                                texts.get("timeline.menu.split"),
                                Shortcut.SPLIT,
                                !actions.canSplit(us),
                                a -> a.split(us)),
                        item(
                                "timeline-join",
                                texts.get("timeline.menu.join"),
                                Shortcut.JOIN,
                                !actions.canMerge(),
                                TimelineActions::merge),
                        item(
                                "timeline-delete",
                                texts.get("timeline.menu.delete"),
                                Shortcut.DELETE,
                                !actions.canDelete(),
                                TimelineActions::delete),
                        new SeparatorMenuItem(),
                        item(
                                "timeline-show-selected",
                                texts.get("timeline.menu.selected"),
                                Shortcut.SHOW_SELECTED,
                                view.selectionProperty().get().isEmpty(),
                                TimelineActions::showSelected),
                        item(
                                "timeline-frames",
                                texts.get("timeline.menu.frames"),
                                Shortcut.FRAMES,
                                false,
                                a -> view.showFrames()),
                        item(
                                "timeline-whole",
                                texts.get("timeline.menu.whole"),
                                Shortcut.WHOLE,
                                false,
                                a -> view.showWhole()));
        menu.show(view, screenX, screenY);
    }

    private MenuItem item(
            String id, String text, Shortcut shortcut, boolean disabled, Consumer<TimelineActions> action) {
        // the key is written, not set: the timeline hears its keys itself
        MenuItem item = new MenuItem(view.texts().get("tooltip.withKey", text, shortcut.keysText()));
        item.setId(id);
        item.setDisable(disabled);
        item.setOnAction(event -> action.accept(actions));
        return item;
    }
}
