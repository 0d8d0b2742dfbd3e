package org.sideport.media.film;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.font.TextLayout;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Path2D;
import java.awt.image.BufferedImage;
import java.util.List;
import org.sideport.model.DrawnMark;
import org.sideport.model.MarkColour;
import org.sideport.model.PicturePoint;

/** Draws marks into a picture: in their colour with a dark edge, so that they show on any ground. */
public final class MarkPainter {

    /** Widths as shares of the picture's height. */
    private static final double LINE = 0.006;

    private static final double EDGE = 0.012;
    private static final double LETTERS = 0.05;
    private static final double HEAD = 0.04;

    private MarkPainter() {}

    /** Okabe and Ito (2008), "Color Universal Design". */
    static Color colour(MarkColour colour) {
        return switch (colour) {
            case YELLOW -> new Color(240, 228, 66);
            case SKY_BLUE -> new Color(86, 180, 233);
            case VERMILION -> new Color(213, 94, 0);
            case GREEN -> new Color(0, 158, 115);
            case PURPLE -> new Color(204, 121, 167);
        };
    }

    public static void paint(BufferedImage picture, List<DrawnMark> marks) {
        if (marks.isEmpty()) {
            return;
        }
        Graphics2D g = picture.createGraphics();
        try {
            g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
            g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
            marks.forEach(mark -> paint(g, mark, picture.getWidth(), picture.getHeight()));
        } finally {
            g.dispose();
        }
    }

    private static void paint(Graphics2D g, DrawnMark mark, int width, int height) {
        if (mark.kind() == DrawnMark.Kind.WORDS) {
            words(g, mark, width, height);
            return;
        }
        Shape shape = shape(mark, width, height);
        g.setColor(Color.BLACK);
        g.setStroke(stroke(EDGE * height));
        g.draw(shape);
        g.setColor(colour(mark.colour()));
        g.setStroke(stroke(LINE * height));
        g.draw(shape);
    }

    private static BasicStroke stroke(double width) {
        return new BasicStroke((float) Math.max(1, width), BasicStroke.CAP_ROUND, BasicStroke.JOIN_ROUND);
    }

    private static void words(Graphics2D g, DrawnMark mark, int width, int height) {
        Font font = new Font(Font.SANS_SERIF, Font.BOLD, 1).deriveFont((float) (LETTERS * height));
        PicturePoint at = mark.points().get(0);
        Shape letters = new TextLayout(mark.words(), font, g.getFontRenderContext())
                .getOutline(AffineTransform.getTranslateInstance(at.x() * width, at.y() * height));
        g.setColor(Color.BLACK);
        g.setStroke(stroke(LINE * height));
        g.draw(letters);
        g.setColor(colour(mark.colour()));
        g.fill(letters);
    }

    private static Shape shape(DrawnMark mark, int width, int height) {
        List<PicturePoint> p = mark.points();
        double x = p.get(0).x() * width;
        double y = p.get(0).y() * height;
        double tipX = p.get(1).x() * width;
        double tipY = p.get(1).y() * height;
        if (mark.kind() == DrawnMark.Kind.ELLIPSE) {
            return new Ellipse2D.Double(Math.min(x, tipX), Math.min(y, tipY), Math.abs(tipX - x), Math.abs(tipY - y));
        }
        Path2D path = new Path2D.Double();
        path.moveTo(x, y);
        p.stream().skip(1).forEach(q -> path.lineTo(q.x() * width, q.y() * height));
        if (mark.kind() == DrawnMark.Kind.ARROW) {
            double angle = Math.atan2(tipY - y, tipX - x);
            for (double side : new double[] {0.45, -0.45}) {
                path.moveTo(tipX, tipY);
                path.lineTo(
                        tipX - HEAD * height * Math.cos(angle + side), tipY - HEAD * height * Math.sin(angle + side));
            }
        }
        return path;
    }
}
