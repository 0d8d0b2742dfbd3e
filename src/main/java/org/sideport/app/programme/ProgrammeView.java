package org.sideport.app.programme;

import java.util.List;
import java.util.function.Supplier;
import javafx.application.Platform;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Ui;
import org.sideport.app.frame.Screen;

/** What concerns the unit and not one case: each part under a tab. */
public final class ProgrammeView implements Screen {

    private final TabPane tabs = Ui.styled(new TabPane(), "programme");
    private final Supplier<List<ProgrammePane>> making;
    private List<ProgrammePane> panes = List.of();

    /**
     * @param making makes the parts when the screen is first shown: there are many, and most starts need none
     * @param left called when a part is left
     */
    public ProgrammeView(Supplier<List<ProgrammePane>> making, Runnable left) {
        this.making = making;
        tabs.setId("programme");
        tabs.setTabClosingPolicy(TabPane.TabClosingPolicy.UNAVAILABLE);
        tabs.addEventHandler(KeyEvent.KEY_PRESSED, event -> {
            if (tabs.isFocused() && event.getCode() == KeyCode.ENTER) {
                focusSoon();
                event.consume();
            }
        });
        tabs.getSelectionModel().selectedIndexProperty().addListener((property, old, now) -> {
            left.run();
            bringUpToDate();
            // who walks along the tabs by arrow keys stays on them until Enter
            if (!tabs.isFocused()) {
                focusSoon();
            }
        });
    }

    private void make() {
        panes = making.get();
        for (ProgrammePane pane : panes) {
            Tab tab = new Tab(pane.title(), pane.node());
            tab.setId("programme-" + pane.id());
            tabs.getTabs().add(tab);
        }
    }

    @Override
    public Node node() {
        return tabs;
    }

    @Override
    public void shown() {
        if (panes.isEmpty()) {
            make();
        }
        bringUpToDate();
        focusSoon();
    }

    private void bringUpToDate() {
        ProgrammePane pane = selected();
        if (pane != null) {
            pane.shown();
        }
    }

    private @Nullable ProgrammePane selected() {
        int index = tabs.getSelectionModel().getSelectedIndex();
        return index >= 0 && tabs.getScene() != null ? panes.get(index) : null;
    }

    /** A part that is only coming up cannot take the keyboard yet. */
    private void focusSoon() {
        ProgrammePane pane = selected();
        Scene scene = tabs.getScene();
        if (pane == null || scene == null) {
            return;
        }
        scene.addPostLayoutPulseListener(new Runnable() {
            @Override
            public void run() {
                scene.removePostLayoutPulseListener(this);
                if (pane == selected()) {
                    pane.takeFocus();
                }
            }
        });
        Platform.requestNextPulse();
    }
}
