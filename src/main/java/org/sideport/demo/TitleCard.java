package org.sideport.demo;

import java.awt.BasicStroke;
import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RenderingHints;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.util.List;

/** The first picture of a recording says what it is: drawn, invented, of nobody. */
final class TitleCard {

    private final EyeScript script;

    TitleCard(EyeScript script) {
        this.script = script;
    }

    void paint(Graphics2D g) {
        int height = script.shape().height();
        double width = script.shape().displayWidth();
        g.setRenderingHint(RenderingHints.KEY_TEXT_ANTIALIASING, RenderingHints.VALUE_TEXT_ANTIALIAS_ON);
        g.setColor(new Color(18, 24, 30));
        g.fillRect(0, 0, script.shape().width(), height);
        AffineTransform old = g.getTransform();
        g.scale(1 / script.shape().aspect(), 1);
        emblem(g, width / 2, height * 0.3, height / 7.0);
        centred(g, script.code(), width, height * 0.57, Font.BOLD, height / 12, new Color(240, 244, 248));
        List<String> lines = List.of("Schematic operation, drawn by a program", "Invented: shows no patient");
        for (int i = 0; i < lines.size(); i++) {
            centred(
                    g,
                    lines.get(i),
                    width,
                    height * (0.68 + 0.07 * i),
                    Font.PLAIN,
                    height / 24,
                    new Color(176, 190, 202));
        }
        g.setTransform(old);
    }

    private static void emblem(Graphics2D g, double x, double y, double radius) {
        g.setColor(new Color(96, 128, 150));
        g.fill(new Ellipse2D.Double(x - radius, y - radius, 2 * radius, 2 * radius));
        double pupil = radius * 0.66;
        g.setColor(new Color(206, 92, 46));
        g.fill(new Ellipse2D.Double(x - pupil, y - pupil, 2 * pupil, 2 * pupil));
        double opening = radius * 0.44;
        g.setColor(new Color(255, 232, 206));
        g.setStroke(new BasicStroke((float) (radius * 0.04)));
        g.draw(new Ellipse2D.Double(x - opening, y - opening, 2 * opening, 2 * opening));
    }

    private static void centred(Graphics2D g, String text, double width, double y, int style, int size, Color colour) {
        g.setFont(new Font(Font.SANS_SERIF, style, size));
        g.setColor(colour);
        g.drawString(text, (float) ((width - g.getFontMetrics().stringWidth(text)) / 2), (float) y);
    }
}
