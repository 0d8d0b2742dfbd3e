package org.sideport.app.measure;

import java.util.List;
import javafx.beans.Observable;
import javafx.scene.Group;
import javafx.scene.input.MouseButton;
import javafx.scene.input.MouseEvent;
import javafx.scene.layout.Pane;
import javafx.scene.shape.Circle;
import javafx.scene.shape.Ellipse;
import javafx.scene.shape.Polyline;
import javafx.scene.shape.Shape;
import javafx.scene.transform.Rotate;
import org.jspecify.annotations.Nullable;
import org.sideport.app.comment.TalkStyle;
import org.sideport.model.MarkColour;
import org.sideport.model.MeasuredShape;
import org.sideport.model.Measurement;
import org.sideport.model.PicturePoint;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.EllipseFit;
import org.sideport.stats.geometry.Point;
import org.sideport.workflow.LimbusScale;
import org.sideport.workflow.MeasureCase;
import org.sideport.workflow.StillMeasures;

/** Lies on the picture: shows what was measured on its frame, and takes points while something is being marked. */
public final class MeasureLayer extends Pane {

    private final MeasureViewModel model;
    private final Group shapes = new Group();

    public MeasureLayer(MeasureViewModel model) {
        this.model = model;
        setId("measure-layer");
        getStyleClass().add("measure-layer");
        TalkStyle.dressed(this);
        shapes.setManaged(false);
        getChildren().add(shapes);
        setMouseTransparent(true);
        setOnMousePressed(event -> {
            event.consume();
            // away from a text field, so that Enter and Backspace are about the points
            requestFocus();
        });
        setOnMouseClicked(this::clicked);
        model.shapeProperty().addListener((property, old, now) -> aim(now));
        model.points().addListener((Observable changed) -> show());
        model.previewProperty().addListener((property, old, now) -> show());
        model.onFrameProperty().addListener((property, old, now) -> show());
        model.scaleProperty().addListener((property, old, now) -> show());
        model.showingProperty().addListener((property, old, now) -> show());
        model.zoneProperty().addListener((property, old, now) -> show());
        widthProperty().addListener((property, old, now) -> show());
        heightProperty().addListener((property, old, now) -> show());
        show();
    }

    private void aim(@Nullable MeasuredShape marked) {
        setMouseTransparent(marked == null);
        getStyleClass().remove("aiming");
        if (marked != null) {
            getStyleClass().add("aiming");
        }
        show();
    }

    private void clicked(MouseEvent event) {
        event.consume();
        if (event.getButton() == MouseButton.PRIMARY) {
            model.mark(PicturePoint.within(event.getX() / getWidth(), event.getY() / getHeight()));
        } else if (event.getButton() == MouseButton.SECONDARY) {
            model.removeLast();
        }
    }

    private void show() {
        shapes.getChildren().clear();
        if (!model.showingProperty().get() || getWidth() < 1 || getHeight() < 1) {
            return;
        }
        for (Measurement measurement : model.onFrameProperty().get()) {
            show(measurement);
        }
        if (model.zoneProperty().get()) {
            showZone();
        }
        MeasuredShape marked = model.shapeProperty().get();
        if (marked != null) {
            MarkColour colour = colourOf(marked);
            org.sideport.stats.geometry.Ellipse preview =
                    model.previewProperty().get();
            if (preview != null) {
                add(ellipse(preview), colour);
            }
            if (!marked.isOutline()) {
                addLine(model.points(), colour);
            }
            addDots(model.points(), colour, 3);
        }
    }

    /** A colour for each shape; its name stands beside its numbers. */
    private static MarkColour colourOf(MeasuredShape shape) {
        return switch (shape) {
            case LIMBUS -> MarkColour.SKY_BLUE;
            case PUPIL -> MarkColour.PURPLE;
            case RHEXIS -> MarkColour.YELLOW;
            case DISTANCE -> MarkColour.VERMILION;
            case ANGLE -> MarkColour.GREEN;
        };
    }

    private void show(Measurement measurement) {
        MarkColour colour = colourOf(measurement.shape());
        if (measurement.shape().isOutline()) {
            List<Point> pixels =
                    MeasureCase.pixels(measurement.points(), measurement.displayWidth(), measurement.displayHeight());
            if (StillMeasures.fit(pixels) instanceof Outcome.Found<EllipseFit> fit) {
                add(ellipse(fit.value().ellipse()), colour);
            }
            addDots(measurement.points(), colour, 2);
        } else {
            addLine(measurement.points(), colour);
            addDots(measurement.points(), colour, 3);
        }
    }

    private void showZone() {
        LimbusScale scale = model.scaleProperty().get();
        if (scale == null) {
            return;
        }
        Point centre = model.onFrameProperty().get().stream()
                .filter(m -> m.shape() == MeasuredShape.PUPIL)
                .reduce((first, second) -> second)
                .map(m -> StillMeasures.fit(MeasureCase.pixels(m.points(), m.displayWidth(), m.displayHeight())))
                .map(fit -> fit.orElseThrow().ellipse().centre())
                .orElseGet(() -> scale.ellipse().centre());
        for (double mm : MeasureViewModel.ZONE_MM) {
            double radius = mm / 2 / scale.calibration().mmPerPx();
            Shape line = ellipse(new org.sideport.stats.geometry.Ellipse(centre.x(), centre.y(), radius, radius, 0));
            line.getStyleClass().add("mark-dashed");
            add(line, MarkColour.SKY_BLUE);
        }
    }

    /** Screen pixels for each of the picture's square pixels: the same both ways. */
    private double zoom() {
        return getHeight() / model.displayHeight();
    }

    private Shape ellipse(org.sideport.stats.geometry.Ellipse fitted) {
        double x = fitted.centreX() * zoom();
        double y = fitted.centreY() * zoom();
        Ellipse line = new Ellipse(x, y, fitted.semiMajor() * zoom(), fitted.semiMinor() * zoom());
        line.getTransforms().add(new Rotate(Math.toDegrees(fitted.angle()), x, y));
        return line;
    }

    private void add(Shape shape, MarkColour colour) {
        shape.getStyleClass().addAll("mark-line", TalkStyle.classOf(colour));
        shape.setStrokeWidth(1.5);
        shapes.getChildren().add(shape);
    }

    private void addLine(List<PicturePoint> points, MarkColour colour) {
        Polyline line = new Polyline();
        points.forEach(p -> line.getPoints().addAll(p.x() * getWidth(), p.y() * getHeight()));
        add(line, colour);
    }

    private void addDots(List<PicturePoint> points, MarkColour colour, double radius) {
        for (PicturePoint point : points) {
            Circle dot = new Circle(point.x() * getWidth(), point.y() * getHeight(), radius);
            dot.getStyleClass().addAll("mark-dot", TalkStyle.classOf(colour));
            shapes.getChildren().add(dot);
        }
    }
}
