package org.sideport.cli.stats;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.cli.console.TextTable;
import org.sideport.model.InputException;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.Calibration;
import org.sideport.stats.geometry.OpeningMeasures;
import org.sideport.stats.geometry.Point;
import org.sideport.stats.geometry.PointScatter;
import org.sideport.timing.CsvTable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;

/** What the fits of a circle and of an ellipse have in common. */
abstract class FitCommand extends StatsCommand {

    private static final Pattern TWO_NUMBERS =
            Pattern.compile("\\s*(-?\\d{1,9}(?:\\.\\d+)?)\\s*,\\s*(-?\\d{1,9}(?:\\.\\d+)?)\\s*");

    @Parameters(paramLabel = "POINTS.csv", description = "Points along the edge, in pixels.")
    Path file = Path.of("");

    @Option(
            names = "--click-sd",
            paramLabel = "PX",
            description = "Error of a click, standard deviation in pixels (default: from the points' own scatter).")
    @Nullable
    Double clickSd;

    @Option(
            names = "--mm-per-px",
            paramLabel = "MM",
            description = "Scale of this still, for instance 0.014421 for 11.71 mm over 812 px.")
    @Nullable
    Double mmPerPx;

    @Option(
            names = "--mm-per-px-sd",
            paramLabel = "MM",
            description = "Uncertainty of the scale, for instance 0.000517 where the 11.71 mm are a population mean.")
    @Nullable
    Double mmPerPxSd;

    @Option(
            names = "--centre",
            paramLabel = "X,Y",
            description = "A centre, in pixels, to measure the decentration from, for instance that of the pupil.")
    @Nullable
    String centre;

    @Option(
            names = "--centre-sd",
            paramLabel = "PX",
            defaultValue = "0",
            description = "Uncertainty of that centre in pixels (default: 0).")
    double centreSd;

    @Mixin
    private ConfidenceOption confidence = new ConfidenceOption();

    FitCommand(Console console) {
        super(console);
    }

    /** Confidence of the limits. */
    final double level() {
        return confidence.level();
    }

    /** The points of the file. */
    final List<Point> points() {
        CsvTable table = CsvTable.read(file);
        LongCsv.need(table, "x");
        LongCsv.need(table, "y");
        return table.rows().stream()
                .map(row -> new Point(LongCsv.number(row, "x"), LongCsv.number(row, "y")))
                .toList();
    }

    final void checkOptions() {
        positive(clickSd, "--click-sd");
        positive(mmPerPx, "--mm-per-px");
        if (mmPerPxSd != null && !(mmPerPxSd >= 0 && Double.isFinite(mmPerPxSd))) {
            throw new InputException(
                    "an uncertainty is not negative: " + mmPerPxSd, "--mm-per-px-sd", "write 0 or more");
        }
        if (mmPerPxSd != null && mmPerPx == null) {
            throw new InputException(
                    "the uncertainty of the scale is given, but not the scale",
                    "--mm-per-px-sd",
                    "give --mm-per-px too");
        }
        if (centre != null) {
            parse(centre);
        }
        if (!(centreSd >= 0)) {
            throw new InputException("an uncertainty is not negative: " + centreSd, "--centre-sd", "write 0 or more");
        }
    }

    private static void positive(@Nullable Double value, String option) {
        if (value != null && !(value > 0 && Double.isFinite(value))) {
            throw new InputException("this must be more than 0: " + value, option, "write a positive number");
        }
    }

    final @Nullable Calibration calibration() {
        return mmPerPx == null ? null : new Calibration(mmPerPx, mmPerPxSd == null ? 0 : mmPerPxSd);
    }

    final @Nullable Estimate decentration(OpeningMeasures measures) {
        return centre == null ? null : measures.decentration(parse(centre), centreSd);
    }

    private static Point parse(String centre) {
        Matcher matcher = TWO_NUMBERS.matcher(centre);
        if (!matcher.matches()) {
            throw new InputException("\"" + centre + "\" is no centre", "--centre", "write for instance 488.5,401");
        }
        return new Point(Double.parseDouble(matcher.group(1)), Double.parseDouble(matcher.group(2)));
    }

    final Outcome<Answer> answer(
            PointScatter scatter,
            Map<String, @Nullable Object> shape,
            Map<String, Estimate> lengths,
            Map<String, Estimate> ratios,
            double diameter) {
        boolean mm = mmPerPx != null;
        String unit = mm ? "mm" : "px";
        TextTable table = new TextTable("measure", ">value", "unit", ">SE", ">lower", ">upper");
        Map<String, @Nullable Object> json = new LinkedHashMap<>(shape);
        json.put("points", scatter.points());
        json.put("rms_residual_px", scatter.rms());
        json.put("click_sd_px", scatter.clickSd());
        json.put("click_sd_estimated", scatter.estimated());
        json.put("unit", unit);
        List<String> warnings = new ArrayList<>(scatter.warnings());
        lengths.forEach((name, estimate) ->
                row(table, json, warnings, name, name.equals("area") ? unit + "²" : unit, estimate));
        ratios.forEach((name, estimate) -> row(table, json, warnings, name, "", estimate));
        if (mm && mmPerPxSd == null) {
            warnings.add(
                    "The scale is taken as exact; give --mm-per-px-sd. A population's white-to-white distance as the"
                            + " scale is off by 3.6 % (one standard deviation).");
        }
        if (!mm) {
            warnings.add("Without a scale (--mm-per-px) sizes are in pixels and cannot be compared between stills.");
        }
        List<String> lines = new ArrayList<>(Answer.lines(table));
        lines.add("");
        lines.add("Points " + scatter.points() + ", distance from the line (root mean square) "
                + Figures.plain(scatter.rms()) + " px; error of a click "
                + (scatter.estimated() ? "estimated as " : "given as ") + Figures.plain(scatter.clickSd()) + " px");
        return Outcome.of(new Answer(
                json,
                lines,
                warnings,
                "The apparent diameter is " + Figures.plain(diameter, mm ? 2 : 1) + " " + unit
                        + " as seen through the cornea, which enlarges it by roughly a tenth or more; a scale holds for one"
                        + " still at one zoom only, since any change of zoom invalidates it."));
    }

    private static void row(
            TextTable table,
            Map<String, @Nullable Object> json,
            List<String> warnings,
            String name,
            String unit,
            Estimate estimate) {
        json.put(name, Figures.json(estimate));
        warnings.addAll(estimate.warnings());
        table.row(
                name.replace('_', ' '),
                Figures.plain(estimate.value(), 4),
                unit,
                Figures.plain(estimate.se(), 4),
                estimate.limits() == null
                        ? "–"
                        : Figures.plain(estimate.limits().lower(), 4),
                estimate.limits() == null
                        ? "–"
                        : Figures.plain(estimate.limits().upper(), 4));
    }

    /** Figures of the shape itself, for machines. */
    static Map<String, @Nullable Object> shape(@Nullable Object... keysAndValues) {
        return Json.object(keysAndValues);
    }
}
