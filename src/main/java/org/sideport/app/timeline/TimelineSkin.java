package org.sideport.app.timeline;

import javafx.geometry.Bounds;
import javafx.geometry.Orientation;
import javafx.scene.canvas.Canvas;
import javafx.scene.control.ScrollBar;
import javafx.scene.control.SkinBase;
import javafx.scene.layout.Region;
import javafx.scene.shape.Rectangle;
import org.jspecify.annotations.Nullable;

/**
 * Draws a timeline: one canvas for ruler and lanes, one for the map, and plain regions for what moves above them, so that
 * neither playing nor dragging the mouse redraws a canvas. However much changes, a canvas is drawn at most once in a pulse:
 * a change only asks for layout, and layout draws.
 */
final class TimelineSkin extends SkinBase<TimelineView> {

    static final double RULER = 20;
    static final double MAP = 14;
    private static final double PLAYHEAD = 2;
    /** Frames narrower than this are not marked, pixels. */
    private static final double NARROWEST_FRAME = 6;

    private final TimelineView view;
    private final Canvas lanes = new Canvas();
    private final Canvas map = new Canvas();
    private final Surface laneSurface = new Surface(lanes);
    private final Surface mapSurface = new Surface(map);
    private final Region mapWindow = styled("timeline-map-window");
    private final Region playhead = styled("timeline-playhead");
    private final Region playheadFrame = styled("timeline-frame");
    private final Region mapPlayhead = styled("timeline-map-playhead");
    private final Region rubberBand = styled("timeline-rubber-band");
    private final Region snapLine = styled("timeline-snap");
    private final ScrollBar down = new ScrollBar();
    private final Rectangle clip = new Rectangle();
    private final TimelinePainter painter;
    private final MapPainter mapPainter;
    private final TimelineMouse mouse;
    private final TimelineMenu menu;
    private Preview preview = Preview.NONE;
    private double scrolled;
    private int paintings;

    /** Asks for its drawing by layout; unmanaged, so that nothing around it is laid out for that. */
    private static final class Surface extends Region {

        private @Nullable Runnable paint;

        Surface(Canvas canvas) {
            getChildren().add(canvas);
            setManaged(false);
            setMouseTransparent(true);
        }

        @Override
        protected void layoutChildren() {
            if (paint != null && getWidth() > 0 && getHeight() > 0) {
                paint.run();
            }
        }
    }

    TimelineSkin(TimelineView view) {
        super(view);
        this.view = view;
        painter = new TimelinePainter(view, this::redraw);
        mapPainter = new MapPainter(view);
        mouse = new TimelineMouse(view, this);
        menu = new TimelineMenu(view);
        laneSurface.paint = this::paintLanes;
        mapSurface.paint = () -> mapPainter.paint(map.getGraphicsContext2D(), map.getWidth(), map.getHeight());
        getChildren()
                .addAll(
                        laneSurface,
                        playheadFrame,
                        rubberBand,
                        snapLine,
                        playhead,
                        mapSurface,
                        mapWindow,
                        mapPlayhead,
                        down);
        down.setOrientation(Orientation.VERTICAL);
        down.setManaged(false);
        down.setFocusTraversable(false);
        down.valueProperty().addListener((property, old, now) -> scroll(now.doubleValue() - scrolled));
        rubberBand.setVisible(false);
        snapLine.setVisible(false);
        view.setClip(clip);
        mouse.install();

        registerChangeListener(view.modelProperty(), change -> {
            painter.modelChanged();
            view.requestLayout();
            redraw();
            mapSurface.requestLayout();
        });
        registerChangeListener(view.scaleProperty(), change -> {
            redraw();
            placeMarkers();
        });
        registerChangeListener(view.playheadProperty(), change -> placeMarkers());
        registerChangeListener(view.framesProperty(), change -> {
            redraw();
            placeMarkers();
        });
        registerChangeListener(view.selectionProperty(), change -> redraw());
        registerChangeListener(view.boundaryMarksProperty(), change -> redraw());
        registerChangeListener(view.focusedProperty(), change -> redraw());
        registerChangeListener(view.emptyNoteProperty(), change -> redraw());
        view.colours().onChange(() -> {
            painter.coloursChanged();
            view.requestLayout();
            redraw();
            mapSurface.requestLayout();
        });
    }

    private static Region styled(String styleClass) {
        Region region = new Region();
        region.getStyleClass().add(styleClass);
        region.setManaged(false);
        region.setMouseTransparent(true);
        return region;
    }

    /** Has the lanes drawn in the next pulse. */
    void redraw() {
        laneSurface.requestLayout();
    }

    private void paintLanes() {
        paintings++;
        painter.paint(lanes.getGraphicsContext2D(), lanes.getWidth(), lanes.getHeight(), preview, scrolled);
    }

    /** How often the lanes have been drawn. */
    int paintings() {
        return paintings;
    }

    @Override
    protected void layoutChildren(double x, double y, double width, double height) {
        double mapTop = Math.max(RULER, view.getHeight() - MAP);
        clip.setWidth(view.getWidth());
        clip.setHeight(view.getHeight());
        view.roomChanged(Math.max(0, view.getWidth() - view.headerWidth()));
        size(lanes, view.getWidth(), mapTop);
        laneSurface.resizeRelocate(0, 0, view.getWidth(), mapTop);
        size(map, Math.max(0, view.getWidth() - view.headerWidth()), MAP - 2);
        mapSurface.resizeRelocate(view.headerWidth(), mapTop + 2, map.getWidth(), map.getHeight());
        placeBar(mapTop);
        scroll(0);
        redraw();
        mapSurface.requestLayout();
        placeMarkers();
    }

    /** Beside lanes that have no room for all of them. */
    private void placeBar(double bottom) {
        double most = hiddenHeight();
        double room = bottom - RULER;
        down.setVisible(most > 0);
        down.setMax(most);
        // in units of the value, of which there are as many as pixels that can be moved
        down.setVisibleAmount(most * room / (most + room));
        down.setBlockIncrement(room / 2);
        double width = Math.ceil(down.prefWidth(-1));
        down.resizeRelocate(view.getWidth() - width, RULER, width, Math.max(0, room));
    }

    private double hiddenHeight() {
        return Math.max(0, view.index().layout().total() - (view.getHeight() - MAP - RULER));
    }

    private static void size(Canvas canvas, double width, double height) {
        if (canvas.getWidth() != width || canvas.getHeight() != height) {
            canvas.setWidth(width);
            canvas.setHeight(height);
        }
    }

    private void placeMarkers() {
        TimeScale scale = view.scaleProperty().get();
        long at = view.playheadProperty().get().micros();
        double left = view.headerWidth();
        double x = scale.x(at);
        double bottom = view.getHeight() - MAP;
        boolean seen = scale.durationUs() > 0 && x >= -1 && x <= scale.width() + 1;
        playhead.setVisible(seen);
        playhead.resizeRelocate(Math.rint(left + x) - PLAYHEAD / 2, 0, PLAYHEAD, bottom);
        FrameGrid frames = view.framesProperty().get();
        double frameWidth = 0;
        if (seen && frames != null) {
            int frame = frames.at(at);
            long end = frame + 1 < frames.size() ? frames.start(frame + 1) : scale.durationUs();
            frameWidth = (end - frames.start(frame)) / scale.usPerPixel();
            playheadFrame.resizeRelocate(left + scale.x(frames.start(frame)), 0, frameWidth, bottom);
        }
        playheadFrame.setVisible(frameWidth >= NARROWEST_FRAME);

        double perUs = scale.durationUs() == 0 ? 0 : map.getWidth() / scale.durationUs();
        double from = Math.max(0, scale.startUs() * perUs);
        double to = Math.min(map.getWidth(), scale.endUs() * perUs);
        mapWindow.setVisible(scale.durationUs() > 0);
        mapWindow.resizeRelocate(left + from, bottom + 1, Math.max(8, to - from), MAP - 1);
        mapPlayhead.setVisible(scale.durationUs() > 0);
        mapPlayhead.resizeRelocate(Math.rint(left + at * perUs), bottom + 2, 1, MAP - 2);
    }

    // ---- for the mouse

    TimelineMouse mouse() {
        return mouse;
    }

    void preview(Preview now) {
        preview = now;
        redraw();
    }

    void snapLine(@Nullable Long us) {
        snapLine.setVisible(us != null);
        if (us != null) {
            double x = view.xOf(us);
            snapLine.resizeRelocate(Math.rint(x) - 1, RULER, 2, view.getHeight() - MAP - RULER);
        }
    }

    void rubberBand(double x, double y, double width, double height) {
        rubberBand.setVisible(width > 0 || height > 0);
        rubberBand.resizeRelocate(x, y, width, height);
    }

    double scrolled() {
        return scrolled;
    }

    /** Moves the lanes up or down where not all of them have room. */
    void scroll(double by) {
        double now = Math.max(0, Math.min(hiddenHeight(), scrolled + by));
        if (now != scrolled) {
            scrolled = now;
            down.setValue(now);
            redraw();
        }
    }

    TimelineMenu menu() {
        return menu;
    }

    void showMenu(double screenX, double screenY, long us) {
        menu.show(screenX, screenY, us);
    }

    void showMenuAtSelection() {
        Bounds bounds = view.localToScreen(view.getBoundsInLocal());
        long at = view.playheadProperty().get().micros();
        double x = Math.max(view.headerWidth(), Math.min(view.getWidth() - 8, view.xOf(at)));
        if (bounds != null) {
            menu.show(bounds.getMinX() + x, bounds.getMinY() + RULER, at);
        }
    }

    @Override
    protected double computePrefHeight(double width, double top, double right, double bottom, double left) {
        return RULER + view.index().layout().total() + MAP;
    }

    @Override
    protected double computeMinHeight(double width, double top, double right, double bottom, double left) {
        return RULER + MAP + Math.min(view.index().layout().total(), 48);
    }

    @Override
    protected double computeMinWidth(double height, double top, double right, double bottom, double left) {
        return view.headerWidth() + 64;
    }

    @Override
    protected double computePrefWidth(double height, double top, double right, double bottom, double left) {
        return view.headerWidth() + 640;
    }

    @Override
    protected double computeMaxHeight(double width, double top, double right, double bottom, double left) {
        return computePrefHeight(width, top, right, bottom, left);
    }
}
