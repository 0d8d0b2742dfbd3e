package org.sideport.cli.stats;

import java.util.LinkedHashMap;
import java.util.Map;
import org.sideport.cli.console.Console;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.Ellipse;
import org.sideport.stats.geometry.EllipseFit;
import org.sideport.stats.geometry.OpeningMeasures;
import picocli.CommandLine.Command;

@Command(
        name = "ellipse",
        description = {
            "The ellipse through points marked along an edge on a still.",
            "",
            "By least squared distances: diameters, area, perimeter, circularity (4 pi A / P^2), axis ratio and decentration"
                    + " with the uncertainty that marking and scale bring.",
            "",
            "The CSV has a point a row, in pixels, at least six and best ten or more all",
            "round the edge:",
            "  x,y",
            "  612,402",
            "",
            "Diameters are apparent ones: the cornea enlarges what lies behind it. A scale",
            "holds for one zoom only. 4 pi A / P^2 hardly feels a slight oval (.995 for",
            "axes of 5.5 and 4.9); the axis ratio does."
        })
final class EllipseCommand extends FitCommand {

    EllipseCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        checkOptions();
        return EllipseFit.geometric(points(), clickSd).flatMap(fit -> {
            OpeningMeasures measures = OpeningMeasures.of(fit, calibration(), level());
            Map<String, Estimate> lengths = new LinkedHashMap<>();
            lengths.put("equivalent_diameter", measures.equivalentDiameter());
            lengths.put("longer_diameter", measures.longDiameter());
            lengths.put("shorter_diameter", measures.shortDiameter());
            lengths.put("area", measures.area());
            lengths.put("perimeter", measures.perimeter());
            Estimate decentration = decentration(measures);
            if (decentration != null) {
                lengths.put("decentration", decentration);
            }
            Map<String, Estimate> ratios = new LinkedHashMap<>();
            ratios.put("circularity", measures.circularity());
            ratios.put("axis_ratio", measures.axisRatio());
            Ellipse ellipse = fit.ellipse();
            return answer(
                    fit.scatter(),
                    shape(
                            "centre_x_px",
                            ellipse.centreX(),
                            "centre_y_px",
                            ellipse.centreY(),
                            "semi_major_px",
                            ellipse.semiMajor(),
                            "semi_minor_px",
                            ellipse.semiMinor(),
                            "angle_degrees",
                            Math.toDegrees(ellipse.angle())),
                    lengths,
                    ratios,
                    measures.equivalentDiameter().value());
        });
    }
}
