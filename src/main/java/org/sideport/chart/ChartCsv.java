package org.sideport.chart;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.Locale;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.sideport.timing.CsvText;

/**
 * The data of a chart, long form, one mark a row: {@code layer,kind,<x>,<y>,low,high,label}. The columns of x and y are
 * named as the axes, with their units. Numbers are written so that they read back as the same; decimal point.
 */
final class ChartCsv {

    private ChartCsv() {}

    static String of(Chart chart) {
        StringWriter text = new StringWriter();
        try (CSVPrinter out = new CSVPrinter(
                text, CSVFormat.DEFAULT.builder().setRecordSeparator("\n").get())) {
            out.printRecord(
                    "layer",
                    "kind",
                    CsvText.guard(chart.x().title()),
                    CsvText.guard(chart.y().title()),
                    "low",
                    "high",
                    "label");
            for (Layer layer : chart.layers()) {
                print(out, layer);
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }

    private static void print(CSVPrinter out, Layer layer) throws IOException {
        String name = CsvText.guard(layer.name());
        String kind = layer.getClass().getSimpleName().toLowerCase(Locale.ROOT);
        if (layer instanceof Layer.Band band) {
            for (Layer.Range range : band.ranges()) {
                out.printRecord(name, kind, range.x(), null, range.low(), range.high(), "");
            }
        } else if (layer instanceof Layer.Boxes boxes) {
            for (Layer.Range range : boxes.ranges()) {
                out.printRecord(name, kind, range.x(), null, range.low(), range.high(), "");
            }
        } else if (layer instanceof Layer.Whiskers whiskers) {
            for (Layer.Stretch one : whiskers.at()) {
                out.printRecord(name, kind, one.x(), null, one.low(), one.high(), CsvText.guard(one.label()));
            }
        } else if (layer instanceof Layer.Level level) {
            out.printRecord(name, kind, null, level.y(), null, null, "");
        } else {
            for (Layer.At at : Places.of(layer)) {
                out.printRecord(name, kind, at.x(), at.y(), null, null, CsvText.guard(at.label()));
            }
        }
    }
}
