package org.sideport.report.page;

import com.openhtmltopdf.extend.FSObjectDrawer;
import com.openhtmltopdf.extend.FSObjectDrawerFactory;
import com.openhtmltopdf.extend.OutputDevice;
import com.openhtmltopdf.outputdevice.helper.BaseRendererBuilder.FontStyle;
import com.openhtmltopdf.outputdevice.helper.ExternalResourceControlPriority;
import com.openhtmltopdf.pdfboxout.PdfRendererBuilder;
import com.openhtmltopdf.render.RenderingContext;
import com.openhtmltopdf.util.XRLog;
import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2D;
import java.awt.Shape;
import java.io.IOException;
import java.io.InputStream;
import java.io.OutputStream;
import java.io.StringReader;
import java.io.UncheckedIOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import javax.xml.XMLConstants;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.parsers.ParserConfigurationException;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.chart.ChartRenderer;
import org.sideport.chart.Look;
import org.w3c.dom.Document;
import org.w3c.dom.Element;
import org.xml.sax.InputSource;
import org.xml.sax.SAXException;

/** Sets a page on paper: PDF with embedded letters, tagged for screen readers, charts drawn as lines and not as pixels. */
final class Paper {

    private static final String FACE = "Noto Sans";
    private static final String REGULAR = "NotoSans-Regular.ttf";
    private static final String BOLD = "NotoSans-Bold.ttf";

    /** Liberation Sans, which PDFBox carries. */
    private static final String FURTHER = "/org/apache/pdfbox/resources/ttf/LiberationSans-Regular.ttf";

    private static final String FURTHER_FACE = "Further Letters";

    /** The library's unit: dots of a page. */
    private static final double TEXT = 12;

    private static final double WIDTH = 720;

    private final Map<String, Chart> charts = new HashMap<>();
    private final ChartLetters letters = new ChartLetters();

    private Paper(List<Chart> charts) {
        charts.forEach(chart -> this.charts.put(chart.id(), chart.bare()));
    }

    /**
     * @param html well formed as XML; it is allowed no file and no address
     * @param charts those that it names
     */
    static void write(String html, List<Chart> charts, String program, PageWords words, OutputStream out) {
        // the library's own switch: it would tell of every style on standard error
        XRLog.setLoggingEnabled(false);
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.useFastMode();
        builder.usePdfUaAccessibility(true);
        builder.withProducer("Sideport " + program);
        builder.useFont(() -> font(REGULAR), FACE, 400, FontStyle.NORMAL, true);
        builder.useFont(() -> font(BOLD), FACE, 700, FontStyle.NORMAL, true);
        // for minus, arrows and other signs that the first lacks; there is no bold one
        builder.useFont(() -> font(FURTHER), FURTHER_FACE, 400, FontStyle.NORMAL, true);
        builder.useFont(() -> font(FURTHER), FURTHER_FACE, 700, FontStyle.NORMAL, true);
        builder.useExternalResourceAccessControl(
                // pictures within the page itself only
                (uri, type) -> uri.startsWith("data:image/jpeg;base64,"),
                ExternalResourceControlPriority.RUN_BEFORE_RESOLVING_URI);
        builder.useObjectDrawerFactory(new Paper(charts).new Drawers());
        Document page = parsed(html);
        new PrintedLetters(List.of(REGULAR, FURTHER)).replace(page, words);
        builder.withW3cDocument(page, null);
        builder.toStream(out);
        try {
            builder.run();
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private static Document parsed(String html) {
        try {
            DocumentBuilderFactory factory = DocumentBuilderFactory.newInstance();
            factory.setFeature(XMLConstants.FEATURE_SECURE_PROCESSING, true);
            factory.setFeature("http://apache.org/xml/features/nonvalidating/load-external-dtd", false);
            factory.setNamespaceAware(true);
            return factory.newDocumentBuilder().parse(new InputSource(new StringReader(html)));
        } catch (ParserConfigurationException | SAXException e) {
            throw new IllegalStateException("a template is not well formed", e);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    static InputStream font(String name) {
        return Objects.requireNonNull(Paper.class.getResourceAsStream(name), name);
    }

    private final class Drawers implements FSObjectDrawerFactory {

        @Override
        public @Nullable FSObjectDrawer createDrawer(Element element) {
            Chart chart = charts.get(element.getAttribute("data"));
            return chart == null ? null : new Drawer(chart, letters);
        }

        @Override
        public boolean isReplacedObject(Element element) {
            return element.getTagName().equals("object") && charts.containsKey(element.getAttribute("data"));
        }
    }

    private record Drawer(Chart chart, ChartLetters letters) implements FSObjectDrawer {

        @Override
        public @Nullable Map<Shape, String> drawObject(
                Element element,
                double x,
                double y,
                double width,
                double height,
                OutputDevice device,
                RenderingContext context,
                int dotsPerPixel) {
            device.drawWithGraphics((float) x, (float) y, (float) width, (float) height, on -> {
                if (on instanceof PdfBoxGraphics2D pdf) {
                    pdf.setFontTextDrawer(letters);
                }
                double wide = width / dotsPerPixel;
                double high = height / dotsPerPixel;
                double scale = wide / WIDTH;
                on.scale(scale, scale);
                ChartRenderer.draw(chart, on, WIDTH, high / scale, Look.LIGHT, TEXT);
            });
            return null;
        }
    }
}
