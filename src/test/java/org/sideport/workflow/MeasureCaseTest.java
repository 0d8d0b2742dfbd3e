package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Random;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.MeasuredShape;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.SurgicalCase;
import org.sideport.model.WhiteToWhite;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;

/** On a picture shown as 1280 × 720: a limbus of 600 px, which is 12 mm wide, so that a pixel is 0.02 mm. */
class MeasureCaseTest {

    private static final MediaTime ONE = MediaTime.ofSeconds(10);
    private static final MediaTime TWO = MediaTime.ofSeconds(20);

    @TempDir
    Path temp;

    private Workspace workspace;
    private MeasureCase job;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Unit.addCase(workspace, "C-01", 100);
        job = new MeasureCase(workspace);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static List<PicturePoint> ring(double x, double y, double diameter) {
        Random random = new Random(11);
        List<PicturePoint> points = new ArrayList<>();
        for (int i = 0; i < 12; i++) {
            double angle = 2 * Math.PI * i / 12;
            double radius = diameter / 2 + 0.3 * random.nextGaussian();
            points.add(new PicturePoint((x + radius * Math.cos(angle)) / 1280, (y + radius * Math.sin(angle)) / 720));
        }
        return points;
    }

    private Measurement measure(MediaTime frame, MeasuredShape shape, List<PicturePoint> points, WhiteToWhite width) {
        return job.add("C-01", "A1", new MeasureCase.Wanted(frame, 1280, 720, shape, points, width));
    }

    private static final WhiteToWhite TWELVE = new WhiteToWhite(12, 0.05, true);

    @Test
    void everyMeasureComesBackFromTheStoreAsItWasMade() {
        measure(ONE, MeasuredShape.LIMBUS, ring(640, 360, 600), TWELVE);
        measure(ONE, MeasuredShape.PUPIL, ring(650, 360, 400), null);
        Measurement rhexis = measure(ONE, MeasuredShape.RHEXIS, ring(640, 370, 250), null);
        Measurement distance = measure(
                ONE,
                MeasuredShape.DISTANCE,
                List.of(new PicturePoint(0.5, 0.5), new PicturePoint(0.5 + 30 / 1280.0, 0.5 + 40 / 720.0)),
                null);
        Measurement angle = measure(
                TWO,
                MeasuredShape.ANGLE,
                List.of(new PicturePoint(0.5, 0.6), new PicturePoint(0.5, 0.5), new PicturePoint(0.6, 0.5)),
                null);
        // 250 px · 0.02 mm; 10 px below the limbus's centre; 10 px left of and 10 px below the pupil's; 50 px
        assertThat(rhexis.value("apparent_diameter").orElseThrow().value()).isCloseTo(5, within(0.02));
        assertThat(rhexis.value("decentration_from_limbus").orElseThrow().value())
                .isCloseTo(0.2, within(0.01));
        assertThat(rhexis.value("decentration_from_pupil").orElseThrow().value())
                .isCloseTo(0.02 * Math.sqrt(200), within(0.01));
        assertThat(distance.value("distance").orElseThrow().value()).isCloseTo(1, within(0.01));
        assertThat(angle.value("angle").orElseThrow().value())
                .as("without a scale")
                .isCloseTo(90, within(1e-6));
        workspace.close();
        workspace = Workspace.open(temp.resolve("w"));
        assertThat(new MeasureCase(workspace).of("C-01")).hasSize(5).contains(rhexis, distance, angle);
    }

    @Test
    void aLengthIsRefusedOnAFrameWhoseLimbusWasNotOutlined() {
        assertThatThrownBy(() -> measure(ONE, MeasuredShape.RHEXIS, ring(640, 370, 250), null))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no scale yet");
        measure(ONE, MeasuredShape.LIMBUS, ring(640, 360, 600), TWELVE);
        assertThatThrownBy(() -> measure(TWO, MeasuredShape.RHEXIS, ring(640, 370, 250), null))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("0:10.000")
                .hasMessageContaining("outline the limbus");
        Measurement closer = measure(TWO, MeasuredShape.LIMBUS, ring(640, 360, 660), null);
        assertThat(closer.warnings())
                .anySatisfy(w -> assertThat(w).contains("660 px").contains("600 px"));
        assertThat(closer.scale()).as("the eye's own width is known by now").isEqualTo(TWELVE);
        Measurement rhexis = measure(TWO, MeasuredShape.RHEXIS, ring(640, 370, 275), null);
        assertThat(rhexis.value("apparent_diameter").orElseThrow().value())
                .as("275 px of 0.01818 mm")
                .isCloseTo(5, within(0.02));
        assertThat(measure(TWO, MeasuredShape.LIMBUS, ring(640, 360, 660), null).warnings())
                .anySatisfy(w -> assertThat(w).contains("zoom"));
    }

    @Test
    void theWidthComesFromTheEyesOwnReadingIfThereIsOne() {
        assertThat(job.widthOf("C-01")).isEqualTo(WhiteToWhite.POPULATION);
        workspace.change(s -> s.cases()
                .add(new SurgicalCase(
                        "C-02", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of("white_to_white_mm", "12.1"), null)));
        assertThat(job.widthOf("C-02")).isEqualTo(new WhiteToWhite(12.1, 0.1, true));
        assertThatThrownBy(() -> new WhiteToWhite(118, 0.1, true)).isInstanceOf(InputException.class);
    }

    @Test
    void aScaleThatOthersRestOnStaysAndSoDoesTheWorkOfOthers() {
        Measurement limbus = measure(ONE, MeasuredShape.LIMBUS, ring(640, 360, 600), TWELVE);
        Measurement rhexis = measure(ONE, MeasuredShape.RHEXIS, ring(640, 370, 250), null);
        assertThatThrownBy(() -> job.remove("C-01", "A1", limbus))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("rest on this scale");
        assertThatThrownBy(() -> job.remove("C-01", "A2", rhexis))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("A1");
        job.remove("C-01", "A1", rhexis);
        job.remove("C-01", "A1", limbus);
        assertThat(job.of("C-01")).isEmpty();
        assertThatThrownBy(() -> job.remove("C-01", "A1", limbus))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no longer there");
    }

    @Test
    void tooFewPointsAndFramesBeyondTheEndAreRefused() {
        assertThatThrownBy(() ->
                        measure(ONE, MeasuredShape.LIMBUS, ring(640, 360, 600).subList(0, 4), TWELVE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("4 points");
        List<PicturePoint> line = new ArrayList<>();
        for (int i = 1; i < 8; i++) {
            line.add(new PicturePoint(i / 10.0, i / 10.0));
        }
        assertThatThrownBy(() -> measure(ONE, MeasuredShape.LIMBUS, line, TWELVE))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("line");
        assertThatThrownBy(() -> measure(MediaTime.ofSeconds(100), MeasuredShape.LIMBUS, ring(640, 360, 600), TWELVE))
                .isInstanceOf(InputException.class);
        assertThat(job.of("C-01")).isEmpty();
    }
}
