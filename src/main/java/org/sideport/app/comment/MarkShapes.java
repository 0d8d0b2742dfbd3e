package org.sideport.app.comment;

import java.util.List;
import javafx.scene.Group;
import javafx.scene.Node;
import javafx.scene.shape.Ellipse;
import javafx.scene.shape.LineTo;
import javafx.scene.shape.MoveTo;
import javafx.scene.shape.Path;
import javafx.scene.shape.Shape;
import javafx.scene.text.Font;
import javafx.scene.text.Text;
import org.sideport.model.DrawnMark;
import org.sideport.model.PicturePoint;

/** Drawn marks as shapes of a scene, for a picture of some size on the screen. */
final class MarkShapes {

    private static final double HEAD_ANGLE = Math.toRadians(26);

    private MarkShapes() {}

    /** @param width of the picture on the screen, as {@code height} */
    static Node of(DrawnMark mark, double width, double height) {
        double stroke = Math.max(2, height / 200);
        Group group = new Group();
        group.getStyleClass().add(TalkStyle.classOf(mark.colour()));
        if (mark.kind() == DrawnMark.Kind.WORDS) {
            PicturePoint at = mark.points().get(0);
            Text text = new Text(at.x() * width, at.y() * height, mark.words());
            text.setFont(Font.font(Math.max(12, height / 28)));
            text.getStyleClass().add("mark-words");
            // within the picture, whose edge would cut them
            text.setX(Math.max(
                    0, Math.min(text.getX(), width - text.getLayoutBounds().getWidth())));
            group.getChildren().add(text);
            return group;
        }
        Shape rim = shape(mark, width, height, stroke);
        rim.getStyleClass().add("mark-rim");
        rim.setStrokeWidth(stroke + 2);
        Shape line = shape(mark, width, height, stroke);
        line.getStyleClass().add("mark-line");
        line.setStrokeWidth(stroke);
        group.getChildren().addAll(rim, line);
        return group;
    }

    private static Shape shape(DrawnMark mark, double width, double height, double stroke) {
        List<PicturePoint> points = mark.points();
        PicturePoint first = points.get(0);
        PicturePoint last = points.get(points.size() - 1);
        double x0 = first.x() * width;
        double y0 = first.y() * height;
        double x1 = last.x() * width;
        double y1 = last.y() * height;
        if (mark.kind() == DrawnMark.Kind.ELLIPSE) {
            return new Ellipse((x0 + x1) / 2, (y0 + y1) / 2, Math.abs(x1 - x0) / 2, Math.abs(y1 - y0) / 2);
        }
        Path path = new Path(new MoveTo(x0, y0));
        for (PicturePoint point : points.subList(1, points.size())) {
            path.getElements().add(new LineTo(point.x() * width, point.y() * height));
        }
        if (mark.kind() == DrawnMark.Kind.ARROW) {
            double back = Math.atan2(y0 - y1, x0 - x1);
            double head = Math.min(6 * stroke, Math.hypot(x1 - x0, y1 - y0) / 2);
            for (double side : new double[] {back - HEAD_ANGLE, back + HEAD_ANGLE}) {
                path.getElements().add(new MoveTo(x1, y1));
                path.getElements().add(new LineTo(x1 + head * Math.cos(side), y1 + head * Math.sin(side)));
            }
        }
        return path;
    }
}
