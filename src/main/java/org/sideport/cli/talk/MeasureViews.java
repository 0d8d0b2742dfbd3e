package org.sideport.cli.talk;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.model.MeasuredValue;
import org.sideport.model.Measurement;
import org.sideport.model.WhiteToWhite;

/** Measurements as JSON and as lines. */
final class MeasureViews {

    private MeasureViews() {}

    static Map<String, @Nullable Object> of(Measurement measurement) {
        WhiteToWhite scale = measurement.scale();
        return Json.object(
                "id", measurement.id(),
                "author", measurement.author(),
                "frame_us", measurement.frame().micros(),
                "shape", measurement.shape().id(),
                "display_width", measurement.displayWidth(),
                "display_height", measurement.displayHeight(),
                "points",
                        measurement.points().stream()
                                .map(p -> List.of(p.x(), p.y()))
                                .toList(),
                "white_to_white_mm", scale == null ? null : (Object) scale.mm(),
                "white_to_white_sd_mm", scale == null ? null : (Object) scale.sdMm(),
                "values", values(measurement.values()),
                "method", measurement.method(),
                "warnings", measurement.warnings());
    }

    static Map<String, @Nullable Object> values(List<MeasuredValue> values) {
        Map<String, @Nullable Object> all = Json.object();
        for (MeasuredValue value : values) {
            all.put(
                    value.name(),
                    Json.object(
                            "value", value.value(),
                            "unit", value.unit().isEmpty() ? null : value.unit(),
                            "se", value.se(),
                            "lower", value.lower(),
                            "upper", value.upper()));
        }
        return all;
    }

    static String line(MeasuredValue value) {
        String name = value.name().replace('_', ' ');
        Double se = value.se();
        Double lower = value.lower();
        Double upper = value.upper();
        int digits = digits(value);
        StringBuilder line =
                new StringBuilder(String.format(Locale.ROOT, "    %s: %." + digits + "f", name, value.value()));
        if (se != null) {
            double last = Math.pow(10, -digits);
            line.append(
                    se < last / 2
                            ? String.format(Locale.ROOT, " ± <%." + digits + "f", last)
                            : String.format(Locale.ROOT, " ± %." + digits + "f", se));
        }
        line.append(value.unit().isEmpty() ? "" : " " + value.unit());
        if (lower != null && upper != null) {
            line.append(String.format(Locale.ROOT, " (%." + digits + "f to %." + digits + "f)", lower, upper));
        }
        return line.toString();
    }

    private static int digits(MeasuredValue value) {
        return switch (value.unit()) {
            case "mm/px" -> 5;
            case "px", "degrees" -> 1;
            case "" -> 3;
            default -> 2;
        };
    }
}
