package org.sideport.report.page;

import de.rototor.pdfbox.graphics2d.PdfBoxGraphics2DFontTextDrawer;
import java.awt.Font;
import java.awt.FontMetrics;
import java.io.IOException;
import java.io.InputStream;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.font.PDType0Font;
import org.jspecify.annotations.Nullable;

/** Letters of charts in a PDF: embedded, of the page's own face, whatever face the machine would take. */
final class ChartLetters extends PdfBoxGraphics2DFontTextDrawer {

    private @Nullable PDFont regular;
    private @Nullable PDFont bold;

    @Override
    protected PDFont mapFont(Font font, IFontTextDrawerEnv env) throws IOException {
        PDFont known = font.isBold() ? bold : regular;
        if (known != null) {
            return known;
        }
        try (InputStream in = Paper.font(font.isBold() ? "NotoSans-Bold.ttf" : "NotoSans-Regular.ttf")) {
            PDFont loaded = PDType0Font.load(env.getDocument(), in, true);
            if (font.isBold()) {
                bold = loaded;
            } else {
                regular = loaded;
            }
            return loaded;
        }
    }

    /** Of the machine's face: near enough to leave room by. */
    @Override
    public FontMetrics getFontMetrics(Font font, IFontTextDrawerEnv env) {
        return env.getCalculationGraphics().getFontMetrics(font);
    }
}
