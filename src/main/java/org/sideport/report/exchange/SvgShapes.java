package org.sideport.report.exchange;

import java.io.StringReader;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import javax.xml.parsers.DocumentBuilder;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.jspecify.annotations.Nullable;
import org.sideport.model.DrawnMark;
import org.sideport.model.InputException;
import org.sideport.model.MarkColour;
import org.sideport.model.PicturePoint;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.Node;
import org.xml.sax.InputSource;

/**
 * Drawings as the SVG of an SvgSelector (Web Annotation Data Model, section 4.2.7). The picture is a box from 0, 0 to 1, 1, so
 * that it fits a picture of any size.
 */
final class SvgShapes {

    private SvgShapes() {}

    static String write(List<DrawnMark> marks) {
        StringBuilder svg = new StringBuilder(
                "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\" preserveAspectRatio=\"none\">");
        for (DrawnMark mark : marks) {
            List<PicturePoint> p = mark.points();
            svg.append(
                    switch (mark.kind()) {
                        case ARROW, LINE ->
                            "<line x1=\"" + p.get(0).x() + "\" y1=\"" + p.get(0).y() + "\" x2=\""
                                    + p.get(1).x() + "\" y2=\"" + p.get(1).y() + "\"";
                        case ELLIPSE -> {
                            double rx = Math.abs(p.get(1).x() - p.get(0).x()) / 2;
                            double ry = Math.abs(p.get(1).y() - p.get(0).y()) / 2;
                            yield "<ellipse cx=\"" + (p.get(0).x() + p.get(1).x()) / 2 + "\" cy=\""
                                    + (p.get(0).y() + p.get(1).y()) / 2 + "\" rx=\"" + rx + "\" ry=\"" + ry + "\"";
                        }
                        case FREEHAND ->
                            "<polyline points=\""
                                    + p.stream().map(q -> q.x() + "," + q.y()).collect(Collectors.joining(" ")) + "\"";
                        case WORDS ->
                            "<text x=\"" + p.get(0).x() + "\" y=\"" + p.get(0).y() + "\"";
                    });
            svg.append(" class=\"")
                    .append(mark.kind().id())
                    .append(' ')
                    .append(mark.colour().id())
                    .append('"');
            if (mark.kind() == DrawnMark.Kind.WORDS) {
                svg.append('>').append(escaped(mark.words())).append("</text>");
            } else {
                svg.append(" fill=\"none\"/>");
            }
        }
        return svg.append("</svg>").toString();
    }

    private static String escaped(String text) {
        return text.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
    }

    /**
     * The shapes of another program's SVG that a drawing can hold: lines, ellipses, circles, rectangles, polygons, words.
     * Others, such as paths, are left out.
     *
     * @param width of the picture in pixels, which count where the SVG has no viewBox; 0 where it is not known
     * @throws InputException at the place if it is no SVG
     */
    static List<DrawnMark> read(String svg, String place, int width, int height) {
        Element root = parse(svg, place);
        double[] box = box(root, width, height);
        List<DrawnMark> marks = new ArrayList<>();
        if (box.length == 4) {
            collect(root, box, marks, place);
        }
        return marks;
    }

    /** Nothing outside the text is ever fetched: no document type is allowed at all. */
    private static Element parse(String svg, String place) {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setFeature("http://apache.org/xml/features/disallow-doctype-decl", true);
            factory.setXIncludeAware(false);
            factory.setExpandEntityReferences(false);
            DocumentBuilder builder = factory.newDocumentBuilder();
            builder.setErrorHandler(null);
            Document document = builder.parse(new InputSource(new StringReader(svg)));
            return document.getDocumentElement();
        } catch (ParserConfigurationException e) {
            throw new IllegalStateException("every Java platform reads XML", e);
        } catch (org.xml.sax.SAXException | java.io.IOException e) {
            throw new InputException("this is no SVG: " + e.getMessage(), place, "mend it there", e);
        }
    }

    /** Left, top, width, height; empty where it cannot be known. */
    private static double[] box(Element root, int width, int height) {
        String[] numbers = root.getAttribute("viewBox").strip().split("[\\s,]+");
        if (numbers.length == 4) {
            double[] box = new double[4];
            for (int i = 0; i < 4; i++) {
                Double value = number(numbers[i]);
                if (value == null) {
                    return new double[0];
                }
                box[i] = value;
            }
            return box[2] > 0 && box[3] > 0 ? box : new double[0];
        }
        Double w = number(root.getAttribute("width"));
        Double h = number(root.getAttribute("height"));
        if (w != null && h != null && w > 0 && h > 0) {
            return new double[] {0, 0, w, h};
        }
        return width > 0 && height > 0 ? new double[] {0, 0, width, height} : new double[0];
    }

    private static @Nullable Double number(String text) {
        try {
            double value = Double.parseDouble(text.replaceFirst("px$", ""));
            return Double.isFinite(value) ? (Double) value : null;
        } catch (NumberFormatException e) {
            return null;
        }
    }

    private static void collect(Node node, double[] box, List<DrawnMark> marks, String place) {
        for (Node child = node.getFirstChild(); child != null; child = child.getNextSibling()) {
            if (child instanceof Element element) {
                DrawnMark mark = mark(element, box, place);
                if (mark != null) {
                    marks.add(mark);
                }
                collect(element, box, marks, place);
            }
        }
    }

    private static @Nullable DrawnMark mark(Element element, double[] box, String place) {
        String name = element.getNodeName().toLowerCase(Locale.ROOT).replaceFirst("^.*:", "");
        MarkColour colour = colour(element.getAttribute("class"));
        boolean arrow = List.of(element.getAttribute("class").split("\\s+")).contains("arrow");
        Ruler r = new Ruler(element, box, place);
        try {
            return switch (name) {
                case "line" ->
                    DrawnMark.of(
                            arrow ? DrawnMark.Kind.ARROW : DrawnMark.Kind.LINE,
                            colour,
                            List.of(r.at(r.of("x1"), r.of("y1")), r.at(r.of("x2"), r.of("y2"))));
                case "ellipse" -> r.ellipse(colour, r.of("cx"), r.of("cy"), r.of("rx"), r.of("ry"));
                case "circle" -> r.ellipse(colour, r.of("cx"), r.of("cy"), r.of("r"), r.of("r"));
                case "rect" -> r.rectangle(colour);
                case "polyline" -> DrawnMark.of(DrawnMark.Kind.FREEHAND, colour, r.points(false));
                case "polygon" -> DrawnMark.of(DrawnMark.Kind.FREEHAND, colour, r.points(true));
                case "text" -> words(element, colour, r);
                default -> null;
            };
        } catch (IllegalArgumentException e) {
            throw new InputException("<" + name + "> is no shape that can be drawn", place, "mend it there", e);
        }
    }

    private static @Nullable DrawnMark words(Element element, MarkColour colour, Ruler r) {
        String words = element.getTextContent().strip();
        if (words.isEmpty()) {
            return null;
        }
        String cut = words.substring(0, Math.min(words.length(), DrawnMark.LONGEST_WORDS));
        return DrawnMark.words(colour, r.at(r.of("x"), r.of("y")), cut);
    }

    private static MarkColour colour(String classes) {
        for (MarkColour colour : MarkColour.values()) {
            if (List.of(classes.split("\\s+")).contains(colour.id())) {
                return colour;
            }
        }
        return MarkColour.YELLOW;
    }

    /** Turns an element's numbers into places on the picture. */
    @SuppressWarnings("ArrayRecordComponent") // compared by nobody
    private record Ruler(Element element, double[] box, String place) {

        double of(String attribute) {
            String text = element.getAttribute(attribute);
            Double value = text.isBlank() ? (Double) 0.0 : number(text.strip());
            if (value == null) {
                throw new InputException(
                        attribute + "=\"" + text + "\" is no number", place, "write plain numbers in the SVG");
            }
            return value;
        }

        PicturePoint at(double x, double y) {
            return PicturePoint.within((x - box[0]) / box[2], (y - box[1]) / box[3]);
        }

        DrawnMark ellipse(MarkColour colour, double cx, double cy, double rx, double ry) {
            return DrawnMark.of(DrawnMark.Kind.ELLIPSE, colour, List.of(at(cx - rx, cy - ry), at(cx + rx, cy + ry)));
        }

        DrawnMark rectangle(MarkColour colour) {
            double x = of("x");
            double y = of("y");
            double right = x + of("width");
            double bottom = y + of("height");
            return SvgShapes.rectangle(colour, at(x, y), at(right, bottom));
        }

        List<PicturePoint> points(boolean closed) {
            String[] numbers = element.getAttribute("points").strip().split("[\\s,]+");
            List<PicturePoint> points = new ArrayList<>();
            for (int i = 0; i + 1 < numbers.length; i += 2) {
                Double x = number(numbers[i]);
                Double y = number(numbers[i + 1]);
                if (x == null || y == null) {
                    throw new InputException(
                            "points=\"" + element.getAttribute("points") + "\" are no numbers",
                            place,
                            "write plain numbers in the SVG");
                }
                points.add(at(x, y));
            }
            if (closed && points.size() > 1) {
                points.add(points.get(0));
            }
            return points;
        }
    }

    static DrawnMark rectangle(MarkColour colour, PicturePoint from, PicturePoint to) {
        return DrawnMark.of(
                DrawnMark.Kind.FREEHAND,
                colour,
                List.of(from, new PicturePoint(to.x(), from.y()), to, new PicturePoint(from.x(), to.y()), from));
    }
}
