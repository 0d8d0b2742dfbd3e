package org.sideport.app.measure;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.model.MeasuredShape;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.WhiteToWhite;
import org.sideport.player.DemoRecordings;
import org.sideport.workflow.MeasureCase;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/** On D-001, 640 × 480 square pixels, 25 frames a second. */
class MeasureViewModelTest {

    @TempDir
    Path folder;

    private Bench bench;
    private ReviewViewModel review;
    private MeasureViewModel model;

    @BeforeEach
    void open() {
        bench = new Bench(folder);
        Bench.addCase(bench.workspace, "C-1", DemoRecordings.D001);
        review = bench.review();
        model = new MeasureViewModel(
                bench.current,
                bench.desk,
                review.annotatorProperty(),
                new MeasureCase(bench.workspace),
                bench.work,
                bench.notices,
                bench.texts);
        bench.current.open("C-1");
        review.setAnnotator("A1");
        bench.desk.seek(frame(711));
    }

    @AfterEach
    void close() {
        bench.close();
    }

    private static MediaTime frame(long n) {
        return MediaTime.ofMicros(n * 40_000);
    }

    private void ring(double diameter) {
        for (int i = 0; i < 10; i++) {
            double angle = 2 * Math.PI * i / 10;
            // not quite on the circle, in turns
            double radius = diameter / 2 + (i % 2 == 0 ? 0.4 : -0.4);
            model.mark(
                    new PicturePoint((320 + radius * Math.cos(angle)) / 640, (240 + radius * Math.sin(angle)) / 480));
        }
    }

    @Test
    void limbusThenRhexisThenADistanceAllOnOneFrame() {
        model.setOwnWidth("12,0");
        assertThat(model.widthProperty().get()).isEqualTo(new WhiteToWhite(12, 0.1, true));
        model.begin(MeasuredShape.LIMBUS);
        ring(400);
        assertThat(model.previewProperty().get().equivalentDiameter()).isCloseTo(400, within(0.5));
        model.finish();
        assertThat(model.shapeProperty().get()).isNull();
        // 12 mm over 400 px
        assertThat(model.scaleProperty().get().calibration().mmPerPx()).isCloseTo(0.03, within(1e-4));
        model.begin(MeasuredShape.RHEXIS);
        ring(170);
        model.removeLast();
        assertThat(model.points()).hasSize(9);
        model.finish();
        Measurement rhexis = model.onFrameProperty().get().get(1);
        assertThat(rhexis.value("apparent_diameter").orElseThrow().value()).isCloseTo(5.1, within(0.02));
        model.begin(MeasuredShape.DISTANCE);
        model.mark(new PicturePoint(0.25, 0.5));
        model.mark(new PicturePoint(0.75, 0.5));
        // 320 px of 0.03 mm, done with its second point
        assertThat(model.onFrameProperty()
                        .get()
                        .get(2)
                        .value("distance")
                        .orElseThrow()
                        .value())
                .isCloseTo(9.6, within(0.03));
        assertThat(new MeasureCase(bench.workspace).of("C-1")).hasSize(3);
        model.remove(model.all().get(0));
        assertThat(bench.notice()).contains("rest on this scale");
        assertThat(model.canPutBackProperty().get()).isFalse();
        model.remove(rhexis);
        assertThat(new MeasureCase(bench.workspace).of("C-1")).hasSize(2);
        model.putBack();
        assertThat(new MeasureCase(bench.workspace).of("C-1")).hasSize(3).contains(rhexis);
        assertThat(model.canPutBackProperty().get()).isFalse();
    }

    @Test
    void anotherFrameHasNoScaleAndSaysWhereThereIsOne() {
        model.begin(MeasuredShape.RHEXIS);
        assertThat(bench.notice()).contains("Outline the limbus");
        assertThat(model.shapeProperty().get()).isNull();
        model.begin(MeasuredShape.LIMBUS);
        ring(400);
        model.finish();
        bench.desk.step(1);
        assertThat(model.scaleProperty().get()).isNull();
        assertThat(model.onFrameProperty().get()).isEmpty();
        model.begin(MeasuredShape.RHEXIS);
        assertThat(bench.notice()).contains("0:28.440");
        bench.desk.step(-1);
        assertThat(model.scaleProperty().get()).isNotNull();
    }

    @Test
    void pointsBelongToTheirFrame() {
        model.begin(MeasuredShape.LIMBUS);
        model.mark(new PicturePoint(0.1, 0.1));
        model.finish();
        assertThat(bench.notice()).contains("4 more points are");
        bench.desk.step(1);
        assertThat(model.shapeProperty().get()).isNull();
        assertThat(model.points()).isEmpty();
        assertThat(model.all()).isEmpty();
    }

    @Test
    void aWidthThatIsNoneIsSaidSo() {
        model.setOwnWidth("wide");
        assertThat(bench.notice()).contains("\"wide\" is no number");
        model.setOwnWidth("118");
        assertThat(bench.notice()).contains("cornea");
        assertThat(model.widthProperty().get()).isEqualTo(WhiteToWhite.POPULATION);
    }

    /** D-003 has pixels of 10:11; its truth is in pixels of the stored picture, 704 × 480. */
    @Test
    void onPixelsThatAreNotSquareARoundRhexisIsRoundAndOfItsTrueSize() throws Exception {
        Bench.addCase(bench.workspace, "C-3", "D-003.mp4");
        bench.current.open("C-3");
        JsonNode truth =
                JsonMapper.builder().build().readTree(Files.readString(DemoRecordings.file("D-003-truth.json")));
        JsonNode still = truth.get("rhexis_still");
        bench.desk.seek(MediaTime.ofMicros(still.get("at_us").asLong()));
        double limbusMm = truth.get("limbus_diameter_mm").asDouble();
        model.setOwnWidth(String.valueOf(limbusMm));
        Random random = new Random(9);
        model.begin(MeasuredShape.LIMBUS);
        clickStored(
                random,
                still.get("limbus_x").asDouble(),
                still.get("limbus_y").asDouble(),
                limbusMm / still.get("mm_per_px_x").asDouble(),
                limbusMm / still.get("mm_per_px_y").asDouble());
        model.begin(MeasuredShape.RHEXIS);
        clickStored(
                random,
                still.get("centre_x").asDouble(),
                still.get("centre_y").asDouble(),
                still.get("diameter_px_x").asDouble(),
                still.get("diameter_px_y").asDouble());
        Measurement rhexis = model.onFrameProperty().get().get(1);
        // 704 · 10/11 = 640
        assertThat(rhexis.displayWidth()).isCloseTo(640, within(1e-6));
        var diameter = rhexis.value("apparent_diameter").orElseThrow();
        assertThat(diameter.value()).isCloseTo(truth.get("rhexis_diameter_mm").asDouble(), within(2 * diameter.se()));
        // were the pixels taken for square ones it would be 0.91
        assertThat(rhexis.value("axis_ratio_short_by_long").orElseThrow().value())
                .isGreaterThan(0.97);
    }

    private void clickStored(Random random, double x, double y, double diameterX, double diameterY) {
        for (int i = 0; i < 12; i++) {
            double angle = 2 * Math.PI * i / 12;
            model.mark(new PicturePoint(
                    (x + diameterX / 2 * Math.cos(angle) + random.nextGaussian()) / 704,
                    (y + diameterY / 2 * Math.sin(angle) + random.nextGaussian()) / 480));
        }
        model.finish();
    }
}
