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
import java.io.UncheckedIOException;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sideport.chart.Chart;
import org.sideport.chart.ChartRenderer;
import org.sideport.chart.Look;
import org.w3c.dom.Element;

/** Sets a page on paper: PDF with embedded letters, tagged for screen readers, charts drawn as lines and not as pixels. */
final class Paper {

    private static final String FACE = "Noto Sans";
    /** What the first lacks: the minus sign, comparisons, arrows. A missing letter would be printed as "#". */
    private static final String SYMBOLS = "Page Symbols";
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
    static void write(String html, List<Chart> charts, String program, OutputStream out) {
        // the library's own switch: it would tell of every style on standard error
        XRLog.setLoggingEnabled(false);
        PdfRendererBuilder builder = new PdfRendererBuilder();
        builder.useFastMode();
        builder.usePdfUaAccessibility(true);
        builder.withProducer("Sideport " + program);
        builder.useFont(() -> font("NotoSans-Regular.ttf"), FACE, 400, FontStyle.NORMAL, true);
        builder.useFont(() -> font("NotoSans-Bold.ttf"), FACE, 700, FontStyle.NORMAL, true);
        builder.useFont(() -> font("Symbols-Regular.ttf"), SYMBOLS, 400, FontStyle.NORMAL, true);
        builder.useFont(() -> font("Symbols-Bold.ttf"), SYMBOLS, 700, FontStyle.NORMAL, true);
        builder.useExternalResourceAccessControl(
                (uri, type) -> false, ExternalResourceControlPriority.RUN_BEFORE_RESOLVING_URI);
        builder.useObjectDrawerFactory(new Paper(charts).new Drawers());
        builder.withHtmlContent(html, null);
        builder.toStream(out);
        try {
            builder.run();
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
