package org.sideport.media.text;

import static org.assertj.core.api.Assertions.assertThat;

import java.awt.Color;
import java.awt.Rectangle;
import java.io.IOException;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.corpus.StampedFile;
import org.sideport.model.Progress;

/** Drawn recordings with and without writing: what is found of it, and what is found where there is none. */
class TextFinderTest {

    @TempDir
    Path folder;

    private Map<String, DrawnScene> written() {
        Map<String, DrawnScene> scenes = new LinkedHashMap<>();
        scenes.put("top left", new DrawnScene(1).text("T03 2026-03-09", 20, 12, 30));
        scenes.put("bottom right", new DrawnScene(2).text("CASE 0042", 24, 480, 345));
        scenes.put("small", new DrawnScene(3).text("ID 77810-44 A1", 12, 20, 340));
        scenes.put("large", new DrawnScene(4).text("UNIT T03", 48, 20, 60));
        scenes.put(
                "yellow",
                new DrawnScene(5).text("09.03.2026 08:15", 18, 400, 30).colour(Color.YELLOW, false));
        scenes.put(
                "on a plate",
                new DrawnScene(6).text("T03 LEFT EYE", 16, 30, 330).colour(Color.WHITE, true));
        scenes.put("black", new DrawnScene(7).text("A1 / T03 / OD", 20, 20, 340).colour(Color.BLACK, false));
        scenes.put("over the eye", new DrawnScene(8).text("T03 CATARACT", 22, 220, 190));
        scenes.put(
                "half of the time",
                new DrawnScene(9).text("T03 1962", 20, 12, 30).during(0, 9));
        scenes.put(
                "beside a clock",
                new DrawnScene(10).text("09-03-2026 08:15:", 18, 12, 30).counter());
        scenes.put(
                "in the dark corner",
                new DrawnScene(11).text("T03 5512", 14, 10, 20).ring());
        scenes.put(
                "with drape and lamps",
                new DrawnScene(12).text("ROOM 2 T03", 18, 470, 30).drape().reflections());
        scenes.put("faint", new DrawnScene(13).text("T03 2026", 18, 12, 30).colour(new Color(215, 150, 130), false));
        scenes.put("short", new DrawnScene(14).text("T03 2026", 18, 12, 30).during(5, 8));
        scenes.put("tiny", new DrawnScene(15).text("T03 2026-03-09", 7, 12, 30));
        scenes.put(
                "still scene",
                new DrawnScene(16).text("T03 2026-03-09", 20, 12, 30).still());
        return scenes;
    }

    private Map<String, DrawnScene> unwritten() {
        Map<String, DrawnScene> scenes = new LinkedHashMap<>();
        for (int i = 0; i < 2; i++) {
            scenes.put("plain " + i, new DrawnScene(100 + i));
        }
        scenes.put("ring", new DrawnScene(110).ring());
        scenes.put("ring and lamps", new DrawnScene(111).ring().reflections());
        scenes.put("drape", new DrawnScene(112).drape());
        scenes.put("drape and lamps", new DrawnScene(113).drape().reflections());
        scenes.put("all but lashes", new DrawnScene(114).drape().reflections().ring());
        scenes.put("still", new DrawnScene(115).still().reflections());
        scenes.put("still with ring", new DrawnScene(116).still().ring());
        scenes.put("lashes", new DrawnScene(117).lashes());
        return scenes;
    }

    @Test
    void findsMostWritingAndLittleElse() throws IOException {
        int found = 0;
        int boxes = 0;
        int right = 0;
        int falseAlarms = 0;
        StringBuilder missed = new StringBuilder();
        StringBuilder wrong = new StringBuilder();
        Map<String, DrawnScene> written = written();
        for (Map.Entry<String, DrawnScene> scene : written.entrySet()) {
            List<TextArea> areas = find(scene.getValue());
            Rectangle place = scene.getValue().place();
            boolean hit = false;
            for (TextArea area : areas) {
                boxes++;
                boolean on = box(area).intersects(place);
                right += on ? 1 : 0;
                hit |= on && covered(area, place) > 0.9;
            }
            found += hit ? 1 : 0;
            missed.append(hit ? "" : " [" + scene.getKey() + "]");
        }
        Map<String, DrawnScene> unwritten = unwritten();
        for (Map.Entry<String, DrawnScene> scene : unwritten.entrySet()) {
            List<TextArea> areas = find(scene.getValue());
            boxes += areas.size();
            falseAlarms += areas.isEmpty() ? 0 : 1;
            wrong.append(areas.isEmpty() ? "" : " [" + scene.getKey() + " " + areas + "]");
        }
        double recall = found / (double) written.size();
        double precision = right / (double) boxes;
        System.out.printf(
                "writing: %d of %d covered to 90 %% or more (recall %.2f; missed:%s); %d of %d boxes lie on writing"
                        + " (precision %.2f); false alarms in %d of %d recordings without (%s)%n",
                found, written.size(), recall, missed, right, boxes, precision, falseAlarms, unwritten.size(), wrong);
        // faint, short and tiny writing is said to be missed
        assertThat(recall).isGreaterThanOrEqualTo(0.75);
        assertThat(precision).isGreaterThanOrEqualTo(0.75);
        assertThat(falseAlarms).isLessThanOrEqualTo(3);
    }

    private List<TextArea> find(DrawnScene scene) throws IOException {
        return TextFinder.find(List.of(scene.write(folder.resolve("scene.mp4"))), Progress.NONE);
    }

    private static Rectangle box(TextArea area) {
        return new Rectangle(area.x(), area.y(), area.width(), area.height());
    }

    private static double covered(TextArea area, Rectangle place) {
        Rectangle common = box(area).intersection(place);
        return common.isEmpty() ? 0 : common.width * (double) common.height / (place.width * (double) place.height);
    }

    @Test
    void saysWhenItWasSeenToAFewSeconds() throws IOException {
        // drawn from second 0 until before second 9 of 16
        List<TextArea> areas =
                find(new DrawnScene(9).text("T03 1962", 20, 12, 30).during(0, 9));
        assertThat(areas).hasSize(1);
        assertThat(areas.get(0).from().micros()).isLessThanOrEqualTo(4_000_000);
        assertThat(areas.get(0).to().micros()).isBetween(7_000_000L, 13_000_000L);
    }

    @Test
    void whatIsSeenInAStillSceneIsLessSure() throws IOException {
        DrawnScene lively = new DrawnScene(1).text("T03 2026-03-09", 20, 12, 30);
        DrawnScene still = new DrawnScene(1).text("T03 2026-03-09", 20, 12, 30).still();
        assertThat(find(lively).get(0).confidence()).isGreaterThan(0.9);
        assertThat(find(still)).isNotEmpty().allMatch(area -> area.confidence() <= 0.4);
    }

    @Test
    void boxesAreInPixelsOfTheUprightPicture() {
        // 200 x 100 coded pixels of shape 2:1, shown upright after a quarter turn clockwise: 100 / 2 wide, 200 high.
        // A corner at the coded top left comes to the upper right
        Geometry turned = new Geometry(200, 100, 2, 90);
        assertThat(turned.displayed(new Box(0, 0, 20, 10), 200, 100)).isEqualTo(new Box(45, 0, 50, 20));
        Geometry upsideDown = new Geometry(200, 100, 1, 180);
        assertThat(upsideDown.displayed(new Box(0, 0, 20, 10), 200, 100)).isEqualTo(new Box(180, 90, 200, 100));
        Geometry left = new Geometry(200, 100, 1, 270);
        assertThat(left.displayed(new Box(0, 0, 20, 10), 200, 100)).isEqualTo(new Box(0, 180, 10, 200));
        // half as large, and pixels half as wide again as high
        Geometry wide = new Geometry(400, 200, 1.5, 0);
        assertThat(wide.displayed(new Box(10, 10, 20, 20), 200, 100)).isEqualTo(new Box(30, 20, 60, 40));
    }

    @Test
    void aRecordingOfOneFrameHasNothingToCompare() throws IOException {
        Path file = folder.resolve("one.mp4");
        StampedFile.frames(1, 25).write(file);
        assertThat(TextFinder.find(List.of(file), Progress.NONE)).isEmpty();
    }
}
