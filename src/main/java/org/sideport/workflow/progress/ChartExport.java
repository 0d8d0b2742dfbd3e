package org.sideport.workflow.progress;

import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Locale;
import org.sideport.chart.Chart;
import org.sideport.chart.ChartFiles;
import org.sideport.chart.Look;
import org.sideport.model.InputException;
import org.sideport.report.AtomicFile;

/** Charts as files: always light, as they are for paper and slides. */
public final class ChartExport {

    private static final int WIDTH = 800;
    private static final int HEIGHT = 500;
    private static final double TEXT = 13;
    private static final double PNG_SCALE = 2;

    private ChartExport() {}

    /** What a chart can be written as. */
    public enum Format {
        SVG,
        PNG,
        CSV;

        /** As files end, without the dot. */
        public String ending() {
            return name().toLowerCase(Locale.ROOT);
        }

        /** @throws InputException if the name of the file does not end as one of them */
        public static Format of(Path file) {
            String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
            for (Format format : values()) {
                if (name.endsWith("." + format.ending())) {
                    return format;
                }
            }
            throw new InputException(
                    "a chart cannot be written as that", file.toString(), "end the name with .svg, .png or .csv");
        }
    }

    /** @throws InputException if it cannot be written there; what was there stays */
    public static void write(Chart chart, Path file, Format format) {
        byte[] content =
                switch (format) {
                    case SVG ->
                        ChartFiles.svg(chart, WIDTH, HEIGHT, Look.LIGHT, TEXT).getBytes(StandardCharsets.UTF_8);
                    case PNG -> ChartFiles.png(chart, WIDTH, HEIGHT, PNG_SCALE, Look.LIGHT, TEXT);
                    case CSV -> ChartFiles.csv(chart).getBytes(StandardCharsets.UTF_8);
                };
        AtomicFile.write(file, out -> out.write(content));
    }
}
