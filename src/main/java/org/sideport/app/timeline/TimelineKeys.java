package org.sideport.app.timeline;

import java.util.Set;
import javafx.scene.input.KeyEvent;
import org.sideport.app.Shortcut;

/** The keys of the timeline. */
final class TimelineKeys {

    private final TimelineView view;
    private final TimelineActions actions;

    TimelineKeys(TimelineView view) {
        this.view = view;
        this.actions = new TimelineActions(view);
    }

    boolean handle(KeyEvent event) {
        Shortcut shortcut = Shortcut.of(event, Shortcut.Scope.TIMELINE).orElse(null);
        if (shortcut == null) {
            return false;
        }
        double page = view.scaleProperty().get().width() * 0.9;
        switch (shortcut) {
            case NEXT_ITEM_ON_LANE -> actions.selectNext(1, false);
            case PREVIOUS_ITEM_ON_LANE -> actions.selectNext(-1, false);
            case EXTEND_FORWARD -> actions.selectNext(1, true);
            case EXTEND_BACK -> actions.selectNext(-1, true);
            case LANE_BELOW -> actions.selectLane(1);
            case LANE_ABOVE -> actions.selectLane(-1);
            case SELECT_LANE -> actions.selectAll();
            case SELECT_NONE -> {
                return escape();
            }
            case START_LATER -> actions.nudge(false, 1);
            case START_EARLIER -> actions.nudge(false, -1);
            case END_LATER -> actions.nudge(true, 1);
            case END_EARLIER -> actions.nudge(true, -1);
            case MOVE_LATER -> actions.move(1);
            case MOVE_EARLIER -> actions.move(-1);
            case SPLIT -> actions.split(view.playheadProperty().get().micros());
            case JOIN -> actions.merge();
            case RELABEL -> menu();
            case PAGE_ON -> view.pan(page);
            case PAGE_BACK -> view.pan(-page);
            case WHOLE -> view.showWhole();
            case FRAMES -> view.showFrames();
            case SHOW_SELECTED -> actions.showSelected();
            default -> throw new IllegalStateException("not a timeline key: " + shortcut);
        }
        return true;
    }

    /** Lets go of what is being dragged, else of what is selected. */
    private boolean escape() {
        if (view.getSkin() instanceof TimelineSkin skin && skin.mouse().cancel()) {
            return true;
        }
        boolean any = !view.selectionProperty().get().isEmpty();
        view.select(Set.of());
        return any;
    }

    private void menu() {
        if (view.getSkin() instanceof TimelineSkin skin) {
            skin.showMenuAtSelection();
        }
    }
}
