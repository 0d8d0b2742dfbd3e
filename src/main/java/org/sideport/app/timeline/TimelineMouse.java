package org.sideport.app.timeline;

import java.util.LinkedHashSet;
import java.util.Set;
import javafx.scene.Cursor;
import javafx.scene.control.Tooltip;
import javafx.scene.input.ContextMenuEvent;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.input.ScrollEvent;
import javafx.util.Duration;
import org.jspecify.annotations.Nullable;

/** What the mouse does on a timeline; a drag under way is a {@link Drag} of its own. */
final class TimelineMouse {

    private final TimelineView view;
    private final TimelineSkin skin;
    private final ItemTexts words;
    private final Tooltip tooltip = new Tooltip();
    private @Nullable Drag drag;
    private boolean tooltipThere;

    TimelineMouse(TimelineView view, TimelineSkin skin) {
        this.view = view;
        this.skin = skin;
        this.words = new ItemTexts(view);
        tooltip.setShowDelay(Duration.millis(350));
        tooltip.getStyleClass().add("timeline-tooltip");
    }

    void install() {
        view.setOnMousePressed(this::pressed);
        view.setOnMouseDragged(event -> {
            if (drag != null) {
                drag.to(event.getX(), event.getY(), event.isAltDown());
            }
        });
        view.setOnMouseReleased(event -> {
            Drag done = drag;
            drag = null;
            if (done != null) {
                done.drop();
            }
        });
        view.setOnMouseClicked(this::clicked);
        view.setOnMouseMoved(this::moved);
        view.setOnScroll(this::scrolled);
        view.setOnZoom(event -> {
            view.zoom(event.getZoomFactor(), Math.max(0, scaleX(event.getX())));
            event.consume();
        });
        view.setOnContextMenuRequested(this::menu);
    }

    /** Gives up the drag under way. @return false if there was none */
    boolean cancel() {
        Drag given = drag;
        drag = null;
        if (given != null) {
            given.cancel();
        }
        return given != null;
    }

    /** The tooltip's words; empty while it has none. */
    String said() {
        return tooltipThere ? tooltip.getText() : "";
    }

    private double scaleX(double x) {
        return x - view.headerWidth();
    }

    private long timeAt(double x) {
        return view.scaleProperty().get().timeAt(scaleX(x));
    }

    private boolean onLanes(double y) {
        return y >= TimelineSkin.RULER && y < view.getHeight() - TimelineSkin.MAP;
    }

    private Hit hit(double x, double y, boolean boundaries) {
        if (!onLanes(y) || x < view.headerWidth()) {
            return new Hit.Outside();
        }
        return HitTester.at(
                view.index(),
                view.scaleProperty().get(),
                scaleX(x),
                y - TimelineSkin.RULER + skin.scrolled(),
                boundaries);
    }

    private void pressed(MouseEvent event) {
        view.requestFocus();
        if (view.model().durationUs() == 0) {
            return;
        }
        double x = event.getX();
        double y = event.getY();
        if (event.getButton() == MouseButton.MIDDLE) {
            drag = new PanDrag(view, x);
            return;
        }
        if (event.getButton() != MouseButton.PRIMARY || drag != null) {
            return;
        }
        if (y >= view.getHeight() - TimelineSkin.MAP) {
            drag = new MapDrag(view);
            drag.to(x, y, false);
            return;
        }
        boolean adding = event.isShortcutDown() || event.isShiftDown();
        Hit hit = hit(x, y, !adding);
        if (hit instanceof Hit.Boundary boundary) {
            drag = new BoundaryDrag(view, skin, boundary, x);
        } else if (hit instanceof Hit.SpanHit span) {
            item(event, span.span().key(), span.lane(), timeAt(x), adding);
        } else if (hit instanceof Hit.PointHit point) {
            item(event, point.point().key(), point.lane(), point.point().atUs(), adding);
        } else if (hit instanceof Hit.Free) {
            drag = new BandDrag(view, skin, x, y, adding);
        } else {
            drag = new ScrubDrag(view);
            view.seek(timeAt(x));
        }
    }

    private void item(MouseEvent event, Object key, int lane, long us, boolean adding) {
        Set<Object> selected = view.selectionProperty().get();
        if (adding) {
            Set<Object> now = new LinkedHashSet<>(selected);
            if (!now.remove(key)) {
                now.add(key);
            }
            view.select(now);
            return;
        }
        if (selected.contains(key)
                && view.index().isEditable(lane)
                && view.handlerProperty().get() != null) {
            drag = new ItemsDrag(view, skin, event.getX(), us);
        } else {
            view.select(Set.of(key));
            view.seek(us);
            drag = new ScrubDrag(view);
        }
    }

    /** Twice on an item: as large as may be. */
    private void clicked(MouseEvent event) {
        Hit hit = hit(event.getX(), event.getY(), false);
        if (event.getButton() == MouseButton.PRIMARY
                && event.getClickCount() == 2
                && event.isStillSincePress()
                && (hit instanceof Hit.SpanHit || hit instanceof Hit.PointHit)) {
            new TimelineActions(view).showSelected();
        }
    }

    private void moved(MouseEvent event) {
        Hit hit = hit(event.getX(), event.getY(), true);
        view.setCursor(hit instanceof Hit.Boundary ? Cursor.H_RESIZE : Cursor.DEFAULT);
        String text = text(hit, event.getX(), event.getY());
        if (text.isEmpty()) {
            if (tooltipThere) {
                Tooltip.uninstall(view, tooltip);
                tooltip.hide();
                tooltipThere = false;
            }
        } else {
            tooltip.setText(text);
            if (!tooltipThere) {
                Tooltip.install(view, tooltip);
                tooltipThere = true;
            }
        }
    }

    private String text(Hit hit, double x, double y) {
        long us = timeAt(x);
        double reach = HitTester.TARGET / 2 * view.scaleProperty().get().usPerPixel();
        if (hit instanceof Hit.Boundary) {
            Hit under = hit(x, y, false);
            return under instanceof Hit.SpanHit span ? words.of(span.span()) : "";
        }
        if (hit instanceof Hit.SpanHit span) {
            return words.of(span.span());
        }
        if (hit instanceof Hit.PointHit point) {
            return words.of(point.point());
        }
        if (!(hit instanceof Hit.Free free)) {
            return "";
        }
        for (long border : view.model().borders()) {
            if (Math.abs(border - us) <= reach) {
                return words.border(border);
            }
        }
        for (Stretch gap : view.model().gaps()) {
            if (gap.contains(us)) {
                return words.gap(gap);
            }
        }
        for (Stretch doubt : view.model().doubts()) {
            if (doubt.contains(us)) {
                return words.doubt(doubt);
            }
        }
        Lane lane = view.index().lane(free.lane());
        if (lane instanceof Lane.Curve curve) {
            return words.of(curve, us);
        }
        if (lane instanceof Lane.Band band) {
            LaneLayout layout = view.index().layout();
            double inLane = y - TimelineSkin.RULER + skin.scrolled() - layout.top(free.lane());
            int row = (int) (inLane / (layout.rowHeight() * LaneLayout.BAND));
            int[] rows = view.index().bandRows(free.lane());
            for (int i = 0; i < rows.length; i++) {
                Lane.BandPart part = band.parts().get(i);
                if (rows[i] == row && us >= part.lowUs() - reach && us <= part.highUs() + reach) {
                    return words.of(part);
                }
            }
        }
        return "";
    }

    private void scrolled(ScrollEvent event) {
        if (event.isShortcutDown() && event.getDeltaY() != 0) {
            view.zoom(Math.pow(1.25, event.getDeltaY() / 40), Math.max(0, scaleX(event.getX())));
        } else if (event.isAltDown()) {
            skin.scroll(-event.getDeltaY());
        } else {
            view.pan(-(event.getDeltaX() == 0 ? event.getDeltaY() : event.getDeltaX()));
        }
        event.consume();
    }

    private void menu(ContextMenuEvent event) {
        if (event.isKeyboardTrigger()) {
            skin.showMenuAtSelection();
        } else {
            Hit hit = hit(event.getX(), event.getY(), false);
            Object key = hit instanceof Hit.SpanHit span
                    ? span.span().key()
                    : hit instanceof Hit.PointHit point ? point.point().key() : null;
            if (key != null && !view.selectionProperty().get().contains(key)) {
                view.select(Set.of(key));
            }
            skin.showMenu(event.getScreenX(), event.getScreenY(), timeAt(event.getX()));
        }
        event.consume();
    }
}
