package org.sideport.app.progress;

import java.awt.image.BufferedImage;
import javafx.animation.PauseTransition;
import javafx.beans.value.ChangeListener;
import javafx.beans.value.ObservableValue;
import javafx.beans.value.WeakChangeListener;
import javafx.scene.AccessibleRole;
import javafx.scene.image.ImageView;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import javafx.scene.layout.Region;
import javafx.util.Duration;
import org.sideport.app.Background;
import org.sideport.app.Ui;
import org.sideport.chart.Chart;
import org.sideport.chart.ChartFiles;
import org.sideport.chart.Look;

/**
 * A chart, drawn off the screen's thread at the size that it has here and in the colours of the theme; anew when either
 * changes. Screen readers hear its sentence.
 */
final class ChartPane extends Region {

    private static final double LETTERS = 12;
    private static final Duration SETTLED = Duration.millis(120);

    private final Chart chart;
    private final Background drawing;
    private final ObservableValue<Boolean> light;
    private final double textSize;
    private final ImageView shown = new ImageView();
    private final PauseTransition settled = new PauseTransition(SETTLED);

    /** Kept here, since the theme holds it weakly. */
    @SuppressWarnings("FieldCanBeLocal")
    private final ChangeListener<Boolean> recoloured = (property, old, now) -> draw();

    private int turn;
    private int drawnWidth;
    private int drawnHeight;

    /** @param factor of letters: 1 at the usual size */
    ChartPane(Chart chart, Background drawing, ObservableValue<Boolean> light, double factor) {
        this.chart = chart;
        this.drawing = drawing;
        this.light = light;
        this.textSize = LETTERS * factor;
        Ui.styled(this, "chart");
        setAccessibleRole(AccessibleRole.IMAGE_VIEW);
        setAccessibleText(chart.sentence());
        setFocusTraversable(true);
        setMinWidth(0);
        getChildren().add(shown);
        light.addListener(new WeakChangeListener<>(recoloured));
        settled.setOnFinished(event -> draw());
    }

    @Override
    protected void layoutChildren() {
        shown.setX(0);
        if (getWidth() < 1 || getHeight() < 1) {
            return;
        }
        if (Math.round(getWidth()) != drawnWidth || Math.round(getHeight()) != drawnHeight) {
            if (drawnWidth == 0) {
                draw();
            } else {
                settled.playFromStart();
            }
        }
    }

    private void draw() {
        int width = (int) Math.round(getWidth());
        int height = (int) Math.round(getHeight());
        if (width < 1 || height < 1) {
            return;
        }
        drawnWidth = width;
        drawnHeight = height;
        int mine = ++turn;
        double scale = getScene() == null || getScene().getWindow() == null
                ? 1
                : getScene().getWindow().getOutputScaleX();
        Look look = Boolean.TRUE.equals(light.getValue()) ? Look.LIGHT : Look.DARK;
        drawing.run(
                progress -> pixels(ChartFiles.picture(chart, width, height, scale, look, textSize)),
                pixels -> {
                    if (turn == mine) {
                        show(pixels, width, height);
                    }
                },
                // a chart that cannot be drawn leaves its sentence, which stands beside it
                failure -> shown.setImage(null));
    }

    @SuppressWarnings("ArrayRecordComponent") // made and shown once
    private record Pixels(int width, int height, int[] argb) {}

    private static Pixels pixels(BufferedImage picture) {
        int width = picture.getWidth();
        int height = picture.getHeight();
        return new Pixels(width, height, picture.getRGB(0, 0, width, height, null, 0, width));
    }

    private void show(Pixels pixels, int width, int height) {
        WritableImage image = new WritableImage(pixels.width(), pixels.height());
        image.getPixelWriter()
                .setPixels(
                        0,
                        0,
                        pixels.width(),
                        pixels.height(),
                        PixelFormat.getIntArgbInstance(),
                        pixels.argb(),
                        0,
                        pixels.width());
        shown.setImage(image);
        shown.setFitWidth(width);
        shown.setFitHeight(height);
    }
}
