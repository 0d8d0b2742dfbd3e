package org.sideport.app.programme;

import java.util.List;
import java.util.function.Supplier;
import javafx.scene.Node;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import org.sideport.app.Ui;
import org.sideport.app.frame.Screen;

/** What concerns the unit and not one case: each part under a tab. */
public final class ProgrammeView implements Screen {

    private final TabPane tabs = Ui.styled(new TabPane(), "programme");
    private final Supplier<List<ProgrammePane>> making;
    private List<ProgrammePane> panes = List.of();

    /** @param making makes the parts when the screen is first shown: there are many, and most starts need none */
    public ProgrammeView(Supplier<List<ProgrammePane>> making) {
        this.making = making;
        tabs.setId("programme");
        tabs.setTabClosingPolicy(TabPane.TabClosingPolicy.UNAVAILABLE);
        tabs.getSelectionModel().selectedIndexProperty().addListener((property, old, now) -> tabShown());
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
        tabShown();
    }

    private void tabShown() {
        int index = tabs.getSelectionModel().getSelectedIndex();
        if (index >= 0 && tabs.getScene() != null) {
            panes.get(index).shown();
        }
    }
}
