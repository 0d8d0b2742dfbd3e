package org.sideport.demo;

import java.awt.Color;
import java.awt.Font;
import java.awt.Graphics2D;
import java.awt.RadialGradientPaint;
import java.awt.RenderingHints;
import java.awt.Shape;
import java.awt.geom.AffineTransform;
import java.awt.geom.Ellipse2D;
import java.awt.geom.Point2D;
import java.awt.image.BufferedImage;
import java.awt.image.DataBufferInt;
import org.jspecify.annotations.Nullable;
import org.sideport.demo.EyePose.Held;

/**
 * Draws the frames of one script: a surgeon's view through the microscope. Keeps the last background, so frames are
 * cheapest in order; not safe for use by several threads.
 */
public final class EyePainter {

    private final EyeScript script;
    private final EyeMotion motion;
    private final BufferedImage eye;
    private final BufferedImage canvas;
    private final BufferedImage background;
    private final LensPainter lens;
    private final CapsulePainter capsule;
    private final ImplantPainter implant;
    private final SurfacePainter surface;
    private final ToolPainter tools = new ToolPainter();
    private final TitleCard card;
    private @Nullable EyePose painted;

    public EyePainter(EyeScript script) {
        this.script = script;
        motion = new EyeMotion(script);
        EyeTexture texture = new EyeTexture(script.look());
        eye = texture.eye();
        lens = new LensPainter(script, texture.nucleus());
        capsule = new CapsulePainter(script);
        implant = new ImplantPainter(script);
        surface = new SurfacePainter(script);
        card = new TitleCard(script);
        int width = script.shape().width();
        int height = script.shape().height();
        canvas = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
        background = new BufferedImage(width, height, BufferedImage.TYPE_INT_RGB);
    }

    /**
     * One frame with its stamp.
     *
     * @param frame number in the recording, from 0
     * @return rows of {@code 0x00RRGGBB}, coded size; overwritten by the next call
     */
    public int[] paint(int frame) {
        Graphics2D g = canvas.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_ANTIALIASING, RenderingHints.VALUE_ANTIALIAS_ON);
        g.setRenderingHint(RenderingHints.KEY_STROKE_CONTROL, RenderingHints.VALUE_STROKE_PURE);
        g.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
        String what = script.actAt(frame).what();
        switch (what) {
            case Act.TITLE -> card.paint(g);
            case Act.BLANK -> {
                g.setColor(new Color(6, 6, 8));
                g.fillRect(0, 0, canvas.getWidth(), canvas.getHeight());
            }
            default -> eye(g, frame);
        }
        footer(g, frame);
        g.dispose();
        int[] pixels = ((DataBufferInt) canvas.getRaster().getDataBuffer()).getData();
        FrameStamp.write(pixels, canvas.getWidth(), canvas.getHeight(), frame);
        return pixels;
    }

    private void eye(Graphics2D g, int frame) {
        EyePose pose = motion.at(frame);
        EyePose last = painted;
        if (last == null
                || last.centreX() != pose.centreX()
                || last.centreY() != pose.centreY()
                || last.scale() != pose.scale()) {
            surroundings(pose);
            painted = pose;
        }
        g.drawImage(background, 0, 0, null);
        AffineTransform pixels = g.getTransform();
        g.transform(view(pose));
        Shape whole = g.getClip();
        g.setClip(circle(Anatomy.PUPIL));
        lens.paint(g, frame);
        capsule.paint(g, frame, pose);
        g.setClip(circle(Anatomy.PUPIL + 0.12));
        implant.paint(g, frame);
        surface.loose(g, frame, pose);
        g.setClip(whole);
        surface.incisions(g, frame);
        Held second = pose.second();
        if (second != null) {
            tools.paint(g, second);
        }
        Held main = pose.main();
        if (main != null) {
            tools.paint(g, main);
        }
        surface.reflections(g, main);
        g.setTransform(pixels);
    }

    /** From mm round the limbus centre to coded pixels. */
    private AffineTransform view(EyePose pose) {
        AffineTransform view =
                AffineTransform.getScaleInstance(1 / script.shape().aspect(), 1);
        view.translate(pose.centreX(), pose.centreY());
        view.scale(pose.scale(), pose.scale());
        return view;
    }

    private void surroundings(EyePose pose) {
        Graphics2D g = background.createGraphics();
        g.setRenderingHint(RenderingHints.KEY_INTERPOLATION, RenderingHints.VALUE_INTERPOLATION_BILINEAR);
        AffineTransform place = view(pose);
        place.translate(-EyeTexture.HALF_WIDTH, -EyeTexture.HALF_HEIGHT);
        place.scale(1 / EyeTexture.SCALE, 1 / EyeTexture.SCALE);
        g.drawImage(eye, place, null);
        double width = script.shape().displayWidth();
        double height = script.shape().height();
        g.scale(1 / script.shape().aspect(), 1);
        g.setPaint(new RadialGradientPaint(
                new Point2D.Double(width / 2, height / 2),
                (float) (width * 0.66),
                new float[] {0f, 0.55f, 0.8f, 1f},
                new Color[] {
                    new Color(0, 0, 0, 0), new Color(0, 0, 0, 10), new Color(0, 0, 0, 70), new Color(0, 0, 0, 170)
                }));
        g.fillRect(0, 0, (int) Math.ceil(width), (int) height);
        g.dispose();
    }

    private void footer(Graphics2D g, int frame) {
        int width = canvas.getWidth();
        int height = canvas.getHeight();
        int stamp = FrameStamp.blockWidth(width) * FrameStamp.BITS;
        int bar = Math.max(14, FrameStamp.blockHeight(height) + 4);
        g.setColor(new Color(10, 10, 12));
        g.fillRect(0, height - bar, width, bar);
        AffineTransform old = g.getTransform();
        g.translate(stamp + 10, height - bar / 2.0 + 4.2);
        g.scale(1 / script.shape().aspect(), 1);
        g.setFont(new Font(Font.MONOSPACED, Font.PLAIN, 11));
        g.setColor(new Color(208, 212, 216));
        g.drawString(
                String.format(
                        java.util.Locale.ROOT,
                        "%s  %s  frame %05d  schematic",
                        script.code(),
                        script.clock().at(frame).toClockText(),
                        frame),
                0,
                0);
        g.setTransform(old);
    }

    private static Ellipse2D.Double circle(double radius) {
        return new Ellipse2D.Double(-radius, -radius, 2 * radius, 2 * radius);
    }
}
