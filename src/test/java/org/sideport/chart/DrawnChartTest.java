package org.sideport.chart;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.StringReader;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import javax.imageio.ImageIO;
import javax.xml.parsers.DocumentBuilderFactory;
import org.junit.jupiter.api.Test;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.w3c.dom.NodeList;
import org.xml.sax.InputSource;

/** Drawings are read back as XML; where a value should lie is worked out here, from the range of the axis alone. */
class DrawnChartTest {

    private static final Pattern NUMBER = Pattern.compile("-?\\d+(?:\\.\\d+)?(?:E-?\\d+)?");

    private record Box(double left, double top, double width, double height) {}

    private static Document read(String svg) throws Exception {
        DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
        factory.setNamespaceAware(true);
        return factory.newDocumentBuilder().parse(new InputSource(new StringReader(svg)));
    }

    private static List<Element> all(Element in, String name) {
        NodeList found = in.getElementsByTagNameNS("*", name);
        List<Element> elements = new ArrayList<>();
        for (int i = 0; i < found.getLength(); i++) {
            elements.add((Element) found.item(i));
        }
        return elements;
    }

    private static Element group(Document drawing, String id) {
        return all(drawing.getDocumentElement(), "g").stream()
                .filter(g -> g.getAttribute("id").endsWith(id))
                .findFirst()
                .orElseThrow();
    }

    /** The frame of the plot is the largest rectangle without filling. */
    private static Box frame(Document drawing) {
        return all(drawing.getDocumentElement(), "rect").stream()
                .filter(r -> r.getAttribute("style").contains("fill:none")
                        || r.getAttribute("style").contains("fill: none"))
                .map(r -> new Box(
                        Double.parseDouble(r.getAttribute("x")),
                        Double.parseDouble(r.getAttribute("y")),
                        Double.parseDouble(r.getAttribute("width")),
                        Double.parseDouble(r.getAttribute("height"))))
                .max(Comparator.comparingDouble(box -> box.width() * box.height()))
                .orElseThrow();
    }

    private static List<Double> numbers(String text) {
        List<Double> found = new ArrayList<>();
        Matcher matcher = NUMBER.matcher(text);
        while (matcher.find()) {
            found.add(Double.valueOf(matcher.group()));
        }
        return found;
    }

    /** Half-way between the least and the greatest of every second number. */
    private static double middle(List<Double> numbers, int from) {
        double least = Double.POSITIVE_INFINITY;
        double greatest = Double.NEGATIVE_INFINITY;
        for (int i = from; i < numbers.size(); i += 2) {
            least = Math.min(least, numbers.get(i));
            greatest = Math.max(greatest, numbers.get(i));
        }
        return (least + greatest) / 2;
    }

    @Test
    void marksLieWhereTheArithmeticOfTheAxesSays() throws Exception {
        Document drawing = read(ChartFiles.svg(SampleCharts.times(), 640, 400, Look.LIGHT, 12));
        Box frame = frame(drawing);
        // x is linear from 0 to 20; y is logarithmic over two powers of ten, from 10 to 1000
        double[][] values = {{1, 500}, {4, 100}, {16, Math.sqrt(1000)}};
        List<double[]> centres = new ArrayList<>();
        for (Element mark : all(group(drawing, "layer-3"), "path")) {
            List<Double> outline = numbers(mark.getAttribute("d"));
            // a disc is drawn as four arcs between its outermost points, so the middle of all corners is its centre
            centres.add(new double[] {middle(outline, 0), middle(outline, 1)});
        }
        assertThat(centres).as("a filling and an outline each").hasSize(6);
        for (int i = 0; i < 3; i++) {
            double x = frame.left() + frame.width() * values[i][0] / 20;
            double y = frame.top() + frame.height() * (1 - (Math.log10(values[i][1]) - 1) / 2);
            double[] centre = centres.get(2 * i);
            assertThat(centre[0]).isCloseTo(x, within(0.02));
            assertThat(centre[1]).isCloseTo(y, within(0.02));
        }
    }

    @Test
    void linesAndBandsLieThereToo() throws Exception {
        Document drawing = read(ChartFiles.svg(SampleCharts.times(), 640, 400, Look.DARK, 12));
        Box frame = frame(drawing);
        List<Double> curve =
                numbers(all(group(drawing, "layer-2"), "path").get(0).getAttribute("d"));
        assertThat(curve.get(0)).isCloseTo(frame.left() + frame.width() / 20, within(0.02));
        assertThat(curve.get(1))
                .isCloseTo(frame.top() + frame.height() * (1 - (Math.log10(400) - 1) / 2), within(0.02));
        assertThat(curve.get(2)).isCloseTo(frame.left() + frame.width() * 19 / 20, within(0.02));
        assertThat(curve.get(3)).isCloseTo(frame.top() + frame.height() * (1 - (Math.log10(80) - 1) / 2), within(0.02));
        List<Double> level =
                numbers(all(group(drawing, "layer-1"), "path").get(0).getAttribute("d"));
        assertThat(level.get(1))
                .isCloseTo(frame.top() + frame.height() * (1 - (Math.log10(24.8) - 1) / 2), within(0.02));
        assertThat(level.get(3)).isEqualTo(level.get(1));
        List<Double> low =
                numbers(all(group(drawing, "layer-0-1"), "path").get(0).getAttribute("d"));
        assertThat(low.get(1)).isCloseTo(frame.top() + frame.height() * (1 - (Math.log10(50) - 1) / 2), within(0.02));
    }

    @Test
    void barsStandOnZeroAndAreAsHighAsTheirValue() throws Exception {
        Document drawing = read(ChartFiles.svg(SampleCharts.sums(), 640, 400, Look.LIGHT, 12));
        Box frame = frame(drawing);
        Element bar = all(group(drawing, "layer-0"), "rect").get(0);
        // y runs from -2 to 6, so a unit is an eighth, and 0 lies two units above the lower edge
        double unit = frame.height() / 8;
        double left = Double.parseDouble(bar.getAttribute("x"));
        assertThat(Double.parseDouble(bar.getAttribute("height"))).isCloseTo(2 * unit, within(0.05));
        assertThat(Double.parseDouble(bar.getAttribute("y"))).isCloseTo(frame.top() + 4 * unit, within(0.05));
        assertThat(left + Double.parseDouble(bar.getAttribute("width")) / 2)
                .isCloseTo(frame.left() + frame.width() * 3 / 20, within(0.05));
    }

    @Test
    void aDrawingSaysWhatItShowsAndEscapesEveryWord() throws Exception {
        String svg = ChartFiles.svg(SampleCharts.times(), 640, 400, Look.LIGHT, 12);
        Element root = read(svg).getDocumentElement();
        assertThat(svg).doesNotContain("<T01>");
        assertThat(root.getAttribute("role")).isEqualTo("img");
        assertThat(all(root, "title").get(0).getTextContent()).isEqualTo("Rhexis <T01> & others");
        assertThat(all(root, "desc").get(0).getTextContent()).isEqualTo("Three cases.");
        assertThat(all(root, "text"))
                .anySatisfy(t -> assertThat(t.getTextContent()).contains("<T01> &"));
        assertThat(all(root, "text"))
                .anySatisfy(t -> assertThat(t.getTextContent()).contains("published \"median\""));
        assertThat(all(root, "text"))
                .allSatisfy(t -> assertThat(t.getAttribute("style") + t.getAttribute("font-family"))
                        .contains("sans-serif"));
        assertThat(all(root, "image")).isEmpty();
        assertThat(svg.replace("http://www.w3.org/", "")).doesNotContain("http:");
    }

    @Test
    void charactersThatXmlCannotHoldDoNotSpoilADrawing() throws Exception {
        Chart bad = new Chart(
                "bad",
                "a\u0001b\uD800c",
                SampleCharts.CASES,
                SampleCharts.SECONDS,
                List.of(new Layer.Level("l\u000B]]>", Ink.MAIN, 50), new Layer.Level("<!--", Ink.FIT, 60)),
                "\uFFFE<script>",
                "says\u0000");
        assertThat(read(ChartFiles.svg(bad, 300, 200, Look.LIGHT, 12))
                        .getDocumentElement()
                        .getTagName())
                .isEqualTo("svg");
    }

    @Test
    void aPictureHasTheSizeAskedForAndInkOnBothGrounds() throws Exception {
        for (Look look : Look.values()) {
            byte[] png = ChartFiles.png(SampleCharts.times(), 320, 200, 2, look, 12);
            BufferedImage picture = ImageIO.read(new ByteArrayInputStream(png));
            assertThat(picture.getWidth()).isEqualTo(640);
            assertThat(picture.getHeight()).isEqualTo(400);
            assertThat(picture.getRGB(1, 1) & 0xFFFFFF).isEqualTo(look.background());
            assertThat(has(picture, Ink.MAIN.rgb(look))).isTrue();
            assertThat(has(picture, Ink.FIT.rgb(look))).isTrue();
        }
    }

    private static boolean has(BufferedImage picture, int rgb) {
        for (int y = 0; y < picture.getHeight(); y++) {
            for (int x = 0; x < picture.getWidth(); x++) {
                if ((picture.getRGB(x, y) & 0xFFFFFF) == rgb) {
                    return true;
                }
            }
        }
        return false;
    }
}
