package org.sideport.app.frame;

import java.util.Locale;
import javafx.geometry.Rectangle2D;
import javafx.stage.Screen;
import javafx.stage.Stage;
import org.sideport.app.Settings;

/** Keeps where the window is, for each arrangement of screens of its own, and puts it where it can be seen. */
final class WindowPlace {

    /** So much of the window must lie on a screen for it to be left where it was, pixels. */
    private static final double ENOUGH = 160;

    private static final double WIDEST = 1600;
    private static final double HIGHEST = 1000;

    private final Stage stage;
    private final Settings settings;

    WindowPlace(Stage stage, Settings settings) {
        this.stage = stage;
        this.settings = settings;
    }

    /** The screens that are there now, as a part of a setting's name. */
    private static String screens() {
        StringBuilder name = new StringBuilder("window");
        for (Screen screen : Screen.getScreens()) {
            Rectangle2D room = screen.getBounds();
            name.append(String.format(
                    Locale.ROOT,
                    ".%.0fx%.0f_%.0f_%.0f",
                    room.getWidth(),
                    room.getHeight(),
                    room.getMinX(),
                    room.getMinY()));
        }
        return name.toString();
    }

    void restore() {
        String name = screens();
        Rectangle2D primary = Screen.getPrimary().getVisualBounds();
        double width =
                settings.get(name + ".width", settings.get("window.width", Math.min(WIDEST, primary.getWidth())));
        double height =
                settings.get(name + ".height", settings.get("window.height", Math.min(HIGHEST, primary.getHeight())));
        double x = settings.get(name + ".x", settings.get("window.x", Double.NaN));
        double y = settings.get(name + ".y", settings.get("window.y", Double.NaN));
        Rectangle2D fitted = fitted(
                new Rectangle2D(
                        Double.isNaN(x) ? 0 : x, Double.isNaN(y) ? 0 : y, Math.max(1, width), Math.max(1, height)),
                Double.isNaN(x) || Double.isNaN(y),
                primary,
                Screen.getScreens().stream().map(Screen::getVisualBounds).toList());
        stage.setWidth(fitted.getWidth());
        stage.setHeight(fitted.getHeight());
        stage.setX(fitted.getMinX());
        stage.setY(fitted.getMinY());
        stage.setMaximized(settings.get(name + ".maximised", settings.get("window.maximised", false)));
    }

    /**
     * The place of a window on the screens that are there: where it was, no larger than its screen; in the middle of the
     * first screen, if too little of it would be seen.
     *
     * @param anew there is no place yet
     */
    static Rectangle2D fitted(Rectangle2D was, boolean anew, Rectangle2D primary, java.util.List<Rectangle2D> screens) {
        Rectangle2D on = primary;
        double most = 0;
        for (Rectangle2D screen : screens) {
            double across = Math.min(was.getMaxX(), screen.getMaxX()) - Math.max(was.getMinX(), screen.getMinX());
            double down = Math.min(was.getMaxY(), screen.getMaxY()) - Math.max(was.getMinY(), screen.getMinY());
            if (across >= ENOUGH && down >= ENOUGH && across * down > most) {
                most = across * down;
                on = screen;
            }
        }
        double width = Math.min(was.getWidth(), on.getWidth());
        double height = Math.min(was.getHeight(), on.getHeight());
        if (anew || most == 0) {
            return new Rectangle2D(
                    on.getMinX() + (on.getWidth() - width) / 2,
                    on.getMinY() + (on.getHeight() - height) / 2,
                    width,
                    height);
        }
        return new Rectangle2D(
                Math.max(on.getMinX(), Math.min(was.getMinX(), on.getMaxX() - width)),
                Math.max(on.getMinY(), Math.min(was.getMinY(), on.getMaxY() - height)),
                width,
                height);
    }

    void remember() {
        String name = screens();
        settings.put(name + ".maximised", stage.isMaximized());
        if (!stage.isMaximized() && !stage.isFullScreen()) {
            settings.put(name + ".width", stage.getWidth());
            settings.put(name + ".height", stage.getHeight());
            settings.put(name + ".x", stage.getX());
            settings.put(name + ".y", stage.getY());
        }
    }
}
