package org.sideport.workflow.handout;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.FramePicture;
import org.sideport.media.RecordingFrames;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.Caller;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Hidden;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Role;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.HideAreas;
import org.sideport.workflow.assign.Assignments;
import org.sideport.workflow.exchange.ExportChapters;
import org.sideport.workflow.exchange.MakeFilm;
import org.sideport.workflow.handout.WriteFeedback.Wanted;

/** What is hidden of a case is black in everything that is made of its pictures, and stays so without being said again. */
class HideAreasTest {

    /** Within the eye, where the demo's pictures are bright, and clear of what is drawn on the still; even, as blocks of colour are. */
    private static final MaskArea AREA = new MaskArea(344, 264, 40, 32);

    /** Of three colours of 0 to 255 each: what coding leaves of black. */
    private static final int DARK = 60;

    @TempDir
    Path dir;

    @Test
    void filmStillsAndPageAreBlackWhereTheCaseSaysSo() throws Exception {
        Path film = dir.resolve("film.mp4");
        Path page = dir.resolve("page.html");
        try (Workspace workspace = FreshWorkspace.in(dir.resolve("unit"))) {
            HandoutCase.into(workspace, "well done");
            new HideAreas(workspace).replace(HandoutCase.CODE, List.of(AREA));
        }
        try (Workspace workspace = Workspace.open(dir.resolve("unit"))) {
            MakeFilm.Part part = MakeFilm.Part.parse("0:22-0:22.4");
            new MakeFilm(workspace)
                    .film(
                            new MakeFilm.Wanted(
                                    HandoutCase.CODE, null, List.of(part), List.of(), false, false, List.of()),
                            film,
                            false,
                            Progress.NONE);
            new WriteFeedback(workspace).write(Wanted.of(HandoutCase.CODE, "en"), page, Progress.NONE);
            List<String> warnings = new ExportChapters(workspace)
                    .export(
                            new ExportChapters.Wanted(HandoutCase.CODE, null, false, ConsentPurpose.TEACHING),
                            dir.resolve("copies"),
                            false,
                            Progress.NONE)
                    .warnings();
            assertThat(warnings).anyMatch(w -> w.contains("the recording itself"));
        }
        Path original = Path.of("demo-data", "D-002.mp4").toAbsolutePath();
        Path copy = dir.resolve("page-media").resolve(HandoutFolder.FILM);
        assertThat(brightest(original, 22)).as("the recording there").isGreaterThan(3 * DARK);
        assertThat(brightest(film, 0.2)).as("film").isLessThan(DARK);
        assertThat(brightest(copy, 22)).as("page").isLessThan(DARK);
        assertThat(brightest(copy, 50)).as("page, later").isLessThan(DARK);
        var still =
                ImageIO.read(dir.resolve("page-media").resolve("still-1.jpg").toFile());
        List<Integer> there = new ArrayList<>();
        for (int y = AREA.y() + 2; y < AREA.y() + AREA.height() - 2; y++) {
            for (int x = AREA.x() + 2; x < AREA.x() + AREA.width() - 2; x++) {
                int rgb = still.getRGB(x, y);
                there.add((rgb >> 16 & 0xff) + (rgb >> 8 & 0xff) + (rgb & 0xff));
            }
        }
        assertThat(there).as("still").allMatch(sum -> sum < DARK);
    }

    /** The sum of the colours of the brightest point within the area. */
    private static int brightest(Path file, double seconds) {
        try (RecordingFrames frames = RecordingFrames.open(List.of(file), Progress.NONE)) {
            FramePicture picture = frames.picture(frames.frameAt(MediaTime.ofSeconds(seconds)));
            int most = 0;
            for (int y = AREA.y() + 2; y < AREA.y() + AREA.height() - 2; y++) {
                for (int x = AREA.x() + 2; x < AREA.x() + AREA.width() - 2; x++) {
                    int at = (y * picture.width() + x) * 4;
                    most = Math.max(
                            most,
                            (picture.bgra()[at] & 0xff)
                                    + (picture.bgra()[at + 1] & 0xff)
                                    + (picture.bgra()[at + 2] & 0xff));
                }
            }
            return most;
        }
    }

    @Test
    void theyAreKeptInTheirOrderAndTheAuditTrailTellsWhatWasHiddenBefore() {
        MaskArea later = new MaskArea(0, 0, 64, 32, MediaTime.ofSeconds(5), MediaTime.ofSeconds(12));
        try (Workspace workspace = FreshWorkspace.in(dir.resolve("unit"))) {
            HandoutCase.into(workspace, "well done");
            HideAreas hide = new HideAreas(workspace);
            assertThat(hide.of(HandoutCase.CODE)).isEmpty();
            hide.replace(HandoutCase.CODE, List.of(AREA, later, AREA));
            assertThat(hide.of(HandoutCase.CODE)).containsExactly(AREA, later);
            hide.replace(HandoutCase.CODE, List.of(later));
            assertThat(hide.of(HandoutCase.CODE)).containsExactly(later);
            assertThat(MaskArea.parse(later.text())).isEqualTo(later);
            assertThat(workspace.read(stores -> stores.audit().all()).stream()
                            .filter(entry -> entry.deed().equals("case.hide"))
                            .reduce((first, second) -> second))
                    .hasValueSatisfying(last -> {
                        assertThat(last.before()).isEqualTo(AREA.text() + " " + later.text());
                        assertThat(last.after()).isEqualTo(later.text());
                    });
            var still = hide.picture(HandoutCase.CODE, MediaTime.ofSeconds(24.49), Progress.NONE);
            assertThat(still.at()).isEqualTo(HandoutCase.frame(HandoutCase.DRAWN_FRAME));
        }
    }

    @Test
    void whoMarksBlindSeesThemUnderTheLabelAndChangesNothing() {
        try (Workspace workspace = FreshWorkspace.in(dir.resolve("unit"))) {
            HandoutCase.into(workspace, "well done");
            new HideAreas(workspace).replace(HandoutCase.CODE, List.of(AREA));
            String label = new Assignments(workspace, Clock.systemUTC())
                    .give(
                            List.of(HandoutCase.CODE),
                            "A2",
                            new Assignments.Terms(Purpose.FIRST, EnumSet.allOf(Hidden.class), null))
                    .get(0)
                    .label();
            Workspace seen = workspace.as(new Caller.Person("A2", Set.of(Role.ASSESSOR)));
            HideAreas blind = new HideAreas(seen);
            assertThat(blind.of(label)).containsExactly(AREA);
            assertThat(seen.read(stores -> stores.cases().get(label))
                            .recording()
                            .covered())
                    .as("of the blinded assessor's recording")
                    .containsExactly(AREA);
            assertThat(workspace
                            .read(stores -> stores.cases().get(HandoutCase.CODE))
                            .recording()
                            .covered())
                    .as("of the others'")
                    .isEmpty();
            assertThatThrownBy(() -> blind.replace(label, List.of()))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining("blind");
            assertThat(blind.of(label)).containsExactly(AREA);
        }
    }
}
