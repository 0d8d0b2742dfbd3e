package org.sideport.workflow;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import org.sideport.model.ItemScore;
import org.sideport.model.Rating;
import org.sideport.model.Recording;
import org.sideport.model.Rubric;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.Workspace;

/** Cases of a made-up unit, stored for real. */
final class Unit {

    static final Path DATA = Path.of("demo-data").toAbsolutePath();
    static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();

    private Unit() {}

    /** A case of trainee T03 without a recording. */
    static SurgicalCase addCase(Workspace workspace, String code) {
        return add(workspace, new SurgicalCase(code, "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null));
    }

    /** A case of trainee T03 with a recording of two files that are not there, of 40 s and the rest. */
    static SurgicalCase addCase(Workspace workspace, String code, long recordingSeconds) {
        Recording recording =
                new Recording(List.of(segment(code + "-1.mp4", 40), segment(code + "-2.mp4", recordingSeconds - 40)));
        return add(workspace, new SurgicalCase(code, "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), recording));
    }

    private static SurgicalCase add(Workspace workspace, SurgicalCase added) {
        workspace.change(s -> s.cases().add(added));
        return added;
    }

    private static Segment segment(String name, long seconds) {
        return new Segment(
                Path.of(name).toAbsolutePath(),
                "0".repeat(64),
                1000,
                seconds * 1_000_000,
                seconds * 25,
                0,
                25,
                1,
                false,
                "h264",
                640,
                480,
                "1:1",
                0,
                false,
                false,
                List.of());
    }

    /** Level 3 for each item of the shipped rubric but those named. */
    static Rating rating(String assessor, boolean self, String... without) {
        List<ItemScore> scores = new ArrayList<>();
        for (Rubric.Item item : RUBRIC.items()) {
            if (!Arrays.asList(without).contains(item.id())) {
                scores.add(new ItemScore.Marked(item.id(), 3, ""));
            }
        }
        return new Rating(RUBRIC.id(), RUBRIC.version(), assessor, self, false, scores, "");
    }

    static Rating withPoints(Rating rating, String item, int points) {
        List<ItemScore> scores = new ArrayList<>(rating.scores());
        scores.replaceAll(s -> s.item().equals(item) ? new ItemScore.Marked(item, points, "") : s);
        return new Rating(
                rating.rubric(), rating.rubricVersion(), rating.assessor(), rating.self(), rating.blind(), scores, "");
    }

    static Path csv(Path folder, String... lines) {
        try {
            return Files.write(Files.createTempFile(folder, "table", ".csv"), List.of(lines), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
