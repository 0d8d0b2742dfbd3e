package org.sideport.cli.stats;

import java.util.LinkedHashMap;
import java.util.Map;
import org.sideport.cli.console.Console;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.geometry.CircleFit;
import org.sideport.stats.geometry.OpeningMeasures;
import picocli.CommandLine.Command;

@Command(
        name = "circle",
        description = {
            "The circle through points marked along an edge on a still.",
            "",
            "By least squared distances: diameter, area and decentration with the uncertainty that marking and scale bring.",
            "",
            "The CSV has a point a row, in pixels:",
            "  x,y",
            "  612,402",
            "",
            "The diameter is an apparent one: the cornea enlarges what lies behind it.",
            "A scale holds for one zoom only."
        })
final class CircleCommand extends FitCommand {

    CircleCommand(Console console) {
        super(console);
    }

    @Override
    Outcome<Answer> answer() {
        checkOptions();
        return CircleFit.geometric(points(), clickSd).flatMap(fit -> {
            OpeningMeasures measures = OpeningMeasures.of(fit, calibration(), level());
            Map<String, Estimate> lengths = new LinkedHashMap<>();
            lengths.put("diameter", measures.equivalentDiameter());
            lengths.put("area", measures.area());
            Estimate decentration = decentration(measures);
            if (decentration != null) {
                lengths.put("decentration", decentration);
            }
            return answer(
                    fit.scatter(),
                    shape(
                            "centre_x_px",
                            fit.circle().centreX(),
                            "centre_y_px",
                            fit.circle().centreY(),
                            "radius_px",
                            fit.circle().radius()),
                    lengths,
                    Map.of(),
                    measures.equivalentDiameter().value());
        });
    }
}
