package org.sideport.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.sideport.media.WrittenVideo;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** The files in {@code demo-data} are what their truth files say. */
class ShippedRecordingsTest {

    private static final Path DATA = ProcedureIds.home().resolve("demo-data");

    @Test
    void everyFrameOfTheSplitRecordingCarriesItsNumberAtItsTime() throws IOException {
        check("D-001");
    }

    @Test
    void everyFrameOfTheRecordingOfUnevenRateCarriesItsNumberAtItsTime() throws IOException {
        check("D-003");
    }

    private static void check(String code) throws IOException {
        JsonNode truth = JsonMapper.shared().readTree(Files.readString(DATA.resolve(code + "-truth.json")));
        long num = truth.get("frame_rate_num").asLong();
        long den = truth.get("frame_rate_den").asLong();
        int[] next = {0};
        List<String> wrong = new ArrayList<>();
        for (JsonNode file : truth.get("files")) {
            int first = next[0];
            int width = truth.get("width").asInt();
            int height = truth.get("height").asInt();
            WrittenVideo.scan(DATA.resolve(file.get("file").asString()), frame -> {
                int number = FrameStamp.read(frame.argb(), width, height).orElse(-1);
                long due = Math.round((next[0] - first) * 1e6 * den / num);
                if (number != next[0] || frame.micros() != due) {
                    wrong.add("frame " + next[0] + ": stamp " + number + " at " + frame.micros() + ", due " + due);
                }
                next[0]++;
            });
            assertThat(next[0] - first).isEqualTo(file.get("frames").asInt());
        }
        assertThat(wrong).isEmpty();
        assertThat(next[0]).isEqualTo(truth.get("frames").asInt());
    }

    @Test
    void theWholeFolderStaysSmall() throws IOException {
        long bytes = 0;
        try (var files = Files.list(DATA)) {
            for (Path file : files.toList()) {
                bytes += Files.size(file);
            }
        }
        assertThat(bytes).isLessThan(8_000_000);
    }
}
