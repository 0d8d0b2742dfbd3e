package org.sideport.cli.talk;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Console;
import org.sideport.cli.console.Json;
import org.sideport.model.InputException;
import org.sideport.model.MeasuredShape;
import org.sideport.model.Plural;
import org.sideport.model.WhiteToWhite;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.Point;
import org.sideport.timing.CsvTable;
import org.sideport.workflow.MarkedPoints;
import org.sideport.workflow.StillMeasures;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.ParameterException;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "measure",
        description = {
            "Sizes on stills from points marked along edges, each with the uncertainty of marking and of scale"
                    + " together.",
            "",
            "The CSV has a point a row, in pixels; frame is any name of the still and may be left out:",
            "  frame,shape,x,y",
            "  711,limbus,512,240",
            "  711,rhexis,415,239",
            "shape is limbus, pupil, rhexis (outlines of 5 or more points, best 10), distance (2 points) or angle (3;"
                    + " the corner second). The limbus gives the scale, on its own frame only: a length on a frame"
                    + " without one is refused, since the zoom may have changed.",
            "",
            "Sizes are apparent ones: neither the cornea's magnification nor parallax is corrected.",
            "Example: sideport measure points.csv --white-to-white 11.9"
        })
final class MeasureCommand implements Callable<Integer> {

    private final Console console;

    @Spec
    CommandSpec spec;

    @Parameters(index = "0", arity = "0..1", paramLabel = "FILE", description = "The points.")
    @Nullable
    Path file;

    @Option(
            names = "--white-to-white",
            paramLabel = "MM",
            description = "This eye's own white-to-white distance; without it, the mean of people, 11.71 ± 0.42 mm"
                    + " (Rüfer et al. 2005, Cornea 24:259).")
    @Nullable
    Double width;

    @Option(
            names = "--white-to-white-sd",
            paramLabel = "MM",
            description = "Its standard uncertainty; by default 0.1 for an eye's own reading.")
    @Nullable
    Double widthSd;

    @Option(
            names = "--pixel-aspect",
            paramLabel = "R",
            defaultValue = "1",
            description = "Width of a pixel over its height, where pixels are not square.")
    double pixelAspect = 1;

    MeasureCommand(Console console) {
        this.console = console;
    }

    @Override
    public Integer call() {
        Path named = file;
        if (named == null) {
            throw new ParameterException(spec.commandLine(), "Name a file of points, or one of its commands.");
        }
        if (!(pixelAspect > 0 && pixelAspect < 100)) {
            throw new InputException("a pixel aspect of " + pixelAspect, null, "give for instance 1.0667");
        }
        WhiteToWhite cornea = width();
        List<MarkedPoints.Result> results = MarkedPoints.measure(read(CsvTable.read(named)), cornea);
        if (console.isJson()) {
            console.printJson(Json.object(
                    "measurements", results.stream().map(MeasureCommand::json).toList()));
        } else {
            results.forEach(this::say);
        }
        return results.stream().anyMatch(r -> r.outcome() instanceof Outcome.Refused<StillMeasures>) ? 1 : 0;
    }

    private WhiteToWhite width() {
        if (width == null) {
            if (widthSd != null) {
                throw new InputException(
                        "an uncertainty without a white-to-white distance", null, "give --white-to-white too");
            }
            return WhiteToWhite.POPULATION;
        }
        return new WhiteToWhite(width, widthSd == null ? WhiteToWhite.READING_SD : widthSd, true);
    }

    private List<MarkedPoints> read(CsvTable table) {
        record Key(String frame, MeasuredShape shape) {}
        Map<Key, List<Point>> groups = new LinkedHashMap<>();
        for (CsvTable.Row row : table.rows()) {
            Key key = new Key(row.text("frame"), MeasuredShape.parse(row.required("shape")));
            groups.computeIfAbsent(key, k -> new ArrayList<>())
                    .add(new Point(pixelAspect * number(row, "x"), number(row, "y")));
        }
        if (groups.isEmpty()) {
            throw new InputException("there are no points", table.file().toString(), "write a point a row");
        }
        List<MarkedPoints> marked = new ArrayList<>();
        groups.forEach((key, points) -> {
            int n = points.size();
            if (n < key.shape().fewestPoints() || n > key.shape().mostPoints()) {
                throw new InputException(
                        key.shape().id() + " with " + Plural.of(n, "point"),
                        table.file().toString(),
                        key.shape().isOutline()
                                ? "mark " + key.shape().fewestPoints() + " or more"
                                : "mark " + key.shape().fewestPoints());
            }
            marked.add(new MarkedPoints(key.frame(), key.shape(), points));
        });
        return marked;
    }

    private static double number(CsvTable.Row row, String column) {
        String text = row.required(column);
        try {
            double value = Double.parseDouble(text.replace(',', '.'));
            if (Double.isFinite(value)) {
                return value;
            }
        } catch (NumberFormatException e) {
            // said below
        }
        throw row.fault("\"" + text + "\" in the column " + column + " is no number", "write pixels, such as 415.5");
    }

    private static Map<String, @Nullable Object> json(MarkedPoints.Result result) {
        Map<String, @Nullable Object> object = Json.object(
                "frame",
                        result.marked().frame().isEmpty()
                                ? null
                                : result.marked().frame(),
                "shape", result.marked().shape().id(),
                "points", result.marked().points().size());
        if (result.outcome() instanceof Outcome.Found<StillMeasures> found) {
            object.put("values", MeasureViews.values(found.value().values()));
            object.put("method", found.value().method());
            object.put("warnings", found.value().warnings());
        } else if (result.outcome() instanceof Outcome.Refused<StillMeasures> refused) {
            object.put(
                    "refused",
                    Json.object(
                            "reason",
                            refused.refusal().reason().name().toLowerCase(java.util.Locale.ROOT),
                            "why",
                            refused.refusal().why(),
                            "remedy",
                            refused.refusal().remedy()));
        }
        return object;
    }

    private void say(MarkedPoints.Result result) {
        String frame = result.marked().frame();
        console.say((frame.isEmpty() ? "" : "frame " + frame + ", ")
                + result.marked().shape().id() + ", "
                + Plural.of(result.marked().points().size(), "point"));
        if (result.outcome() instanceof Outcome.Found<StillMeasures> found) {
            found.value().values().forEach(value -> console.say(MeasureViews.line(value)));
            console.say("    " + found.value().method());
            found.value().warnings().forEach(warning -> console.say("    note: " + warning));
        } else if (result.outcome() instanceof Outcome.Refused<StillMeasures> refused) {
            console.say("    refused: " + refused.refusal().why() + ". Remedy: "
                    + refused.refusal().remedy() + ".");
        }
    }
}
