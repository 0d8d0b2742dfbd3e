package org.sideport.app.programme;

import java.util.List;
import javafx.scene.Node;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import org.sideport.app.Ui;
import org.sideport.app.frame.Screen;

/** What concerns the unit and not one case: each part under a tab. */
public final class ProgrammeView implements Screen {

    private final TabPane tabs = Ui.styled(new TabPane(), "programme");
    private final List<ProgrammePane> panes;

    public ProgrammeView(List<ProgrammePane> panes) {
        this.panes = panes;
        tabs.setId("programme");
        tabs.setTabClosingPolicy(TabPane.TabClosingPolicy.UNAVAILABLE);
        for (ProgrammePane pane : panes) {
            Tab tab = new Tab(pane.title(), pane.node());
            tab.setId("programme-" + pane.id());
            tabs.getTabs().add(tab);
        }
        tabs.getSelectionModel().selectedIndexProperty().addListener((property, old, now) -> shown());
    }

    @Override
    public Node node() {
        return tabs;
    }

    @Override
    public void shown() {
        int index = tabs.getSelectionModel().getSelectedIndex();
        if (index >= 0 && tabs.getScene() != null) {
            panes.get(index).shown();
        }
    }
}
