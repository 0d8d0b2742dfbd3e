package org.sideport.demo;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import org.jspecify.annotations.Nullable;
import org.sideport.demo.EyePose.Held;
import org.sideport.model.PhaseSpan;
import tools.jackson.databind.SerializationFeature;
import tools.jackson.databind.json.JsonMapper;

/** Writes what is known for certain about the recordings, beside them. */
final class TruthWriter {

    /** Stands where an annotator's code would. */
    static final String ANNOTATOR = "TRUTH";

    private static final int PATH_PER_SECOND = 5;

    private final JsonMapper json =
            JsonMapper.builder().enable(SerializationFeature.INDENT_OUTPUT).build();

    void writeTaggings(Path folder, List<EyeScript> scripts) throws IOException {
        try (TagFiles tags = new TagFiles(folder.resolve("truth-phases.csv"), folder.resolve("truth-events.csv"))) {
            for (EyeScript script : scripts) {
                tags.add(script.code(), ANNOTATOR, script.truth());
            }
        }
    }

    void writeDetails(Path folder, EyeScript script) throws IOException {
        Files.writeString(
                folder.resolve(script.code() + "-truth.json"),
                json.writeValueAsString(details(script)) + "\n",
                StandardCharsets.UTF_8);
    }

    Map<String, Object> details(EyeScript script) {
        FrameClock clock = script.clock();
        Map<String, Object> truth = new LinkedHashMap<>();
        truth.put("case", script.code());
        truth.put("note", "schematic and invented: drawn by a program, shows no patient");
        truth.put("files", files(script));
        truth.put("frames", clock.frames());
        truth.put("frame_rate_num", clock.num());
        truth.put("frame_rate_den", clock.den());
        truth.put("duration_us", clock.duration().micros());
        truth.put("width", script.shape().width());
        truth.put("height", script.shape().height());
        truth.put(
                "sample_aspect",
                script.shape().aspectNum() + ":" + script.shape().aspectDen());
        truth.put("audio", script.sound());
        truth.put("limbus_diameter_mm", 2 * Anatomy.LIMBUS);
        truth.put("rhexis_diameter_mm", script.look().rhexisMm());
        truth.put("rhexis_still", rhexis(script));
        truth.put(
                "coordinates",
                "pixels of the stored picture, from its top left corner; pixel widths and heights differ where"
                        + " sample_aspect is not 1:1");
        truth.put(
                "path_columns",
                List.of(
                        "frame",
                        "at_us",
                        "tip_visible",
                        "tip_x",
                        "tip_y",
                        "limbus_x",
                        "limbus_y",
                        "limbus_radius_x",
                        "limbus_radius_y"));
        truth.put("path", path(script));
        return truth;
    }

    private static List<Map<String, Object>> files(EyeScript script) {
        List<Map<String, Object>> files = new ArrayList<>();
        int first = 0;
        for (int i = 0; i < script.files().size(); i++) {
            int frames = script.clock().fileFrames().get(i);
            Map<String, Object> file = new LinkedHashMap<>();
            file.put("file", script.files().get(i));
            file.put("first_frame", first);
            file.put("frames", frames);
            file.put("start_us", script.clock().at(first).micros());
            first += frames;
            file.put(
                    "duration_us",
                    script.clock().at(first).micros()
                            - script.clock().at(first - frames).micros());
            files.add(file);
        }
        return files;
    }

    /** A frame on which the finished rhexis can be measured, with nothing in the way. */
    private static Map<String, Object> rhexis(EyeScript script) {
        PhaseSpan last = script.truth().spans().stream()
                .filter(s -> s.phase().equals("rhexis"))
                .reduce((a, b) -> b)
                .orElseThrow();
        Act pause = script.acts().stream()
                .filter(a -> a.what().equals(Act.PAUSE)
                        && !script.clock().at(a.from()).isBefore(Objects.requireNonNull(last.end())))
                .findFirst()
                .orElseThrow();
        int frame = (pause.from() + pause.to()) / 2;
        EyePose pose = new EyeMotion(script).at(frame);
        double aspect = script.shape().aspect();
        Map<String, Object> still = new LinkedHashMap<>();
        still.put("frame", frame);
        still.put("at_us", script.clock().at(frame).micros());
        still.put("centre_x", hundredths(pose.screenX(script.look().rhexisX()) / aspect));
        still.put("centre_y", hundredths(pose.screenY(script.look().rhexisY())));
        still.put("diameter_px_x", hundredths(script.look().rhexisMm() * pose.scale() / aspect));
        still.put("diameter_px_y", hundredths(script.look().rhexisMm() * pose.scale()));
        still.put("mm_per_px_x", aspect / pose.scale());
        still.put("mm_per_px_y", 1 / pose.scale());
        still.put("limbus_x", hundredths(pose.centreX() / aspect));
        still.put("limbus_y", hundredths(pose.centreY()));
        return still;
    }

    private static List<List<@Nullable Object>> path(EyeScript script) {
        EyeMotion motion = new EyeMotion(script);
        double aspect = script.shape().aspect();
        List<List<@Nullable Object>> rows = new ArrayList<>();
        double step = script.clock().num() / (double) script.clock().den() / PATH_PER_SECOND;
        for (int k = 0; Math.round(k * step) < script.clock().frames(); k++) {
            int frame = (int) Math.round(k * step);
            String what = script.actAt(frame).what();
            if (what.equals(Act.TITLE) || what.equals(Act.BLANK)) {
                continue;
            }
            EyePose pose = motion.at(frame);
            Held main = pose.main();
            List<@Nullable Object> row = new ArrayList<>();
            row.add(frame);
            row.add(script.clock().at(frame).micros());
            row.add(main != null);
            row.add(main == null ? null : hundredths(pose.screenX(main.x()) / aspect));
            row.add(main == null ? null : hundredths(pose.screenY(main.y())));
            row.add(hundredths(pose.centreX() / aspect));
            row.add(hundredths(pose.centreY()));
            row.add(hundredths(Anatomy.LIMBUS * pose.scale() / aspect));
            row.add(hundredths(Anatomy.LIMBUS * pose.scale()));
            rows.add(row);
        }
        return rows;
    }

    private static double hundredths(double value) {
        return Math.round(value * 100) / 100.0;
    }
}
