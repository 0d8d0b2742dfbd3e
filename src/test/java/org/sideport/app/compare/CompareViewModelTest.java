package org.sideport.app.compare;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.LinkedBlockingQueue;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.compare.PairDesk.Side;
import org.sideport.app.picture.FrameSource;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.voice.Narrator;
import org.sideport.app.voice.VoiceOutput;
import org.sideport.media.voice.VoiceWriter;
import org.sideport.model.Comment;
import org.sideport.model.DrawnMark;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.SurgicalCase;
import org.sideport.player.DemoRecordings;
import org.sideport.player.FakeVideoPlayer;
import org.sideport.workflow.CompareCases;
import org.sideport.workflow.Comparison;
import org.sideport.workflow.ComputeTimings.Level;
import org.sideport.workflow.Exemplars;
import org.sideport.workflow.OpenRecording;
import org.sideport.workflow.StackCases;
import org.sideport.workflow.TagExchange;
import org.sideport.workflow.VoiceKeeping;

/**
 * Real frames of D-001 and D-002, both 25 a second, so frame {@code 25 s} is shown from {@code s} seconds on. By
 * {@code truth-phases.csv} their rhexis is 18.4 to 28 and 20.8 to 28.4.
 */
class CompareViewModelTest {

    @TempDir
    Path folder;

    private Bench bench;
    private final FakeVideoPlayer leftPlayer = new FakeVideoPlayer();
    private final FakeVideoPlayer rightPlayer = new FakeVideoPlayer();
    private final CountDownLatch open = new CountDownLatch(1);
    private final AtomicLong heardUs = new AtomicLong(0);
    private final LinkedBlockingQueue<Runnable> later = new LinkedBlockingQueue<>();
    /** Has heard as much as the test says. */
    private final VoiceOutput.Line loudspeaker = new VoiceOutput.Line() {
        private final CountDownLatch closed = new CountDownLatch(1);

        @Override
        public void write(short[] samples) {
            open.countDown();
        }

        @Override
        public void drain() {
            try {
                assertThat(closed.await(30, TimeUnit.SECONDS)).isTrue();
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }

        @Override
        public long positionUs() {
            return heardUs.get();
        }

        @Override
        public boolean isSilent() {
            return false;
        }

        @Override
        public void close() {
            closed.countDown();
        }
    };

    private PairDesk pair;
    private CompareViewModel model;

    @BeforeEach
    void open() throws IOException {
        bench = new Bench(folder.resolve("w"));
        Bench.addCase(bench.workspace, "D-001", DemoRecordings.D001);
        Bench.addCase(bench.workspace, "D-002", DemoRecordings.D002);
        tags(Files.readAllLines(DemoRecordings.file("truth-phases.csv")).stream()
                .filter(line -> line.startsWith("case") || line.startsWith("D-001") || line.startsWith("D-002"))
                .toList());
        pair = new PairDesk(desk(leftPlayer), desk(rightPlayer));
        model = new CompareViewModel(
                new CompareCases(bench.workspace),
                new Exemplars(bench.workspace, Clock.systemUTC()),
                new OpenRecording(bench.workspace),
                bench.current,
                pair,
                new Narrator(() -> loudspeaker, later::add, () -> heardUs.get() * 1000, bench.notices, bench.texts),
                bench.work,
                bench.notices,
                bench.texts,
                bench.settings);
        model.refresh();
    }

    private PictureDesk desk(FakeVideoPlayer player) {
        return new PictureDesk(player, FrameSource::of, bench.work, bench.notices);
    }

    private void tags(List<String> lines) throws IOException {
        Path file = Files.createTempFile(folder, "tags", ".csv");
        new TagExchange(bench.workspace).importCsv(Files.write(file, lines), null, false);
    }

    @AfterEach
    void close() {
        pair.close();
        bench.close();
    }

    private void chooseBoth() {
        assertThat(model.choose(Side.LEFT, "d-001")).isTrue();
        assertThat(model.choose(Side.RIGHT, "D-002")).isTrue();
    }

    private long frame(Side side) {
        return Objects.requireNonNull(pair.desk(side).shownProperty().get())
                .frame()
                .number();
    }

    private Comparison comparison() {
        return Objects.requireNonNull(model.comparisonProperty().get());
    }

    @Test
    void twoChosenCasesAreCompared() {
        assertThat(model.comparisonProperty().get()).isNull();
        chooseBoth();
        assertThat(comparison().left().code()).isEqualTo("D-001");
        assertThat(frame(Side.LEFT)).isZero();
        assertThat(frame(Side.RIGHT)).isZero();

        model.swap();
        assertThat(comparison().left().code()).isEqualTo("D-002");
        assertThat(model.choose(Side.LEFT, "D-009")).isFalse();
        assertThat(bench.notice()).startsWith("D-009 has no tagged phases");
        assertThat(comparison().left().code()).isEqualTo("D-002");
    }

    @Test
    void theCaseThatIsOpenIsOfferedOnTheLeft() {
        bench.current.open("D-002");
        model.refresh();
        assertThat(Objects.requireNonNull(model.choiceProperty(Side.LEFT).get()).caseCode())
                .isEqualTo("D-002");
    }

    @Test
    void bothGoToAPhase() {
        chooseBoth();
        model.toPhase("rhexis");
        assertThat(frame(Side.LEFT)).isEqualTo(460);
        assertThat(frame(Side.RIGHT)).isEqualTo(520);
        // the next is hydrodissection: 28.92 and 29.2
        model.toPhase(1);
        assertThat(frame(Side.LEFT)).isEqualTo(723);
        assertThat(frame(Side.RIGHT)).isEqualTo(730);
        model.toPhase(-1);
        assertThat(frame(Side.LEFT)).isEqualTo(460);
    }

    /** A tag from elsewhere need not lie on a frame's start: the frame then is a little older than the phase. */
    @Test
    void aPhaseThatStartsWithinAFrameStillGoesToThePhaseOfTheOtherSide() throws IOException {
        tags(List.of("case,annotator,phase,start,end,operator", "D-001,A2,rhexis,18.41,28,"));
        tags(List.of(
                "case,annotator,phase,start,end,operator",
                "D-002,A2,ovd_chamber,13.4,20.8,",
                "D-002,A2,rhexis,20.8,28.4,"));
        bench.settings.put("annotator", "A2");
        chooseBoth();
        model.toPhase("rhexis");
        assertThat(frame(Side.LEFT)).isEqualTo(460);
        assertThat(frame(Side.RIGHT)).isEqualTo(520);
    }

    @Test
    void whilePlayingTheRightShowsTheFrameThatBelongsToTheLeftOnes() {
        chooseBoth();
        model.toPhase("rhexis");
        pair.playOrPause();
        leftPlayer.runTo(MediaTime.ofSeconds(23.2));
        // half of 9.6 s: half of 7.6 s is 3.8, and 20.8 + 3.8 is 24.6: frame 615
        assertThat(frame(Side.RIGHT)).isEqualTo(615);
        assertThat(rightPlayer.state().status()).isNotEqualTo(org.sideport.player.PlayerState.Status.PLAYING);
        pair.playOrPause();
        assertThat(frame(Side.LEFT)).isEqualTo(580);
        assertThat(frame(Side.RIGHT)).isEqualTo(615);
    }

    @Test
    void byTheClockBothAreAtTheSameTime() {
        chooseBoth();
        model.toPhase("rhexis");
        model.toggleMode();
        assertThat(frame(Side.RIGHT)).isEqualTo(460);
        model.toggleMode();
        assertThat(frame(Side.RIGHT)).isEqualTo(520);
    }

    @Test
    void whatOneSideLacksIsSaid() {
        chooseBoth();
        assertThat(model.whereProperty().get()).isEmpty();
        // only the right one is dyed, from 9.2 to 12.6
        pair.lead(Side.RIGHT);
        pair.seek(Side.RIGHT, MediaTime.ofSeconds(10));
        assertThat(model.whereProperty().get()).isEqualTo("Left stands still: it has no Capsule dye here");
        long standing = frame(Side.LEFT);
        pair.seek(Side.RIGHT, MediaTime.ofSeconds(12));
        assertThat(frame(Side.LEFT)).isEqualTo(standing);
    }

    @Test
    void aPlaceOnTheFollowingSideBringsTheLeadingOneThere() {
        chooseBoth();
        pair.seek(Side.RIGHT, MediaTime.ofSeconds(20.8));
        assertThat(frame(Side.LEFT)).isEqualTo(460);
        assertThat(frame(Side.RIGHT)).isEqualTo(520);
    }

    @Test
    void theShortcutsSayWhyTheyCannot() {
        model.usePrevious();
        assertThat(bench.notice()).isEqualTo("Choose a case for the left side first");
        model.choose(Side.LEFT, "D-001");
        model.usePrevious();
        assertThat(bench.notice()).isEqualTo("T02 has no tagged case of this procedure before D-001");
    }

    @Test
    void theExemplarAndThePreviousCaseComeOnTheRight() throws IOException {
        bench.workspace.change(
                s -> s.cases().add(new SurgicalCase("C-0", "T02", LocalDate.of(2026, 1, 1), "phaco", Map.of(), null)));
        tags(List.of("case,annotator,phase,start,end,operator", "C-0,TRUTH,rhexis,5,25,"));
        model.refresh();
        model.choose(Side.LEFT, "D-001");
        model.usePrevious();
        assertThat(comparison().right().code()).isEqualTo("C-0");
        // without a recording its times are there, and no picture
        assertThat(pair.desk(Side.RIGHT).recordingProperty().get()).isNull();

        new Exemplars(bench.workspace, Clock.systemUTC()).name("D-002", null, "dyed", "", "A1", false);
        model.refresh();
        model.useExemplar(model.exemplars().get(0));
        assertThat(comparison().right().code()).isEqualTo("D-002");
        assertThat(Objects.requireNonNull(comparison().right().exemplar()).title())
                .isEqualTo("dyed");

        model.choose(Side.LEFT, "D-002");
        model.useExemplar(model.exemplars().get(0));
        assertThat(bench.notice()).isEqualTo("The case on the left is the exemplar itself");
    }

    @Test
    void aCaseIsNamedAsAnExemplar() {
        chooseBoth();
        model.name("D-001", "TRUTH", "steady hands", "", "A1", false);
        assertThat(model.exemplars())
                .extracting(e -> e.caseCode() + " " + e.title())
                .containsExactly("D-001 steady hands");
        assertThat(Objects.requireNonNull(comparison().left().exemplar()).namedBy())
                .isEqualTo("A1");
        model.name("D-001", "TRUTH", " ", "", "A1", false);
        assertThat(bench.notice()).contains("title");
    }

    /** A voice of two seconds over a standing picture, 20.8 s; after a second an arrow, after one and a half another frame. */
    @Test
    void whatWasSpokenOverTheExemplarIsHeardWithItsPictureAndTheOtherGoesAlong() throws Exception {
        DrawnMark arrow = DrawnMark.of(
                DrawnMark.Kind.ARROW,
                MarkColour.GREEN,
                List.of(new PicturePoint(0.2, 0.3), new PicturePoint(0.6, 0.7)));
        speak(new SeenTrack(List.of(
                new SeenEvent.Stand(0, MediaTime.ofMicros(20_800_000)),
                new SeenEvent.Drawn(1_000_000, arrow),
                new SeenEvent.Stand(1_500_000, MediaTime.ofMicros(28_400_000)))));
        chooseBoth();
        assertThat(comparison().left().narration()).isEmpty();
        Comparison.Narrated spoken = comparison().right().narration().get(0);

        model.hear(Side.RIGHT, spoken);
        assertThat(model.narrator().playingProperty().get()).isEqualTo(spoken.comment());
        assertThat(pair.leaderProperty().get()).isEqualTo(Side.RIGHT);
        assertThat(frame(Side.RIGHT)).isEqualTo(25 * 208 / 10);
        assertThat(frame(Side.LEFT)).as("its rhexis begins too").isEqualTo(25 * 184 / 10);
        assertThat(model.drawing(Side.RIGHT).marks()).isEmpty();

        opened();
        heardUs.set(1_100_000);
        model.narrator().tick();
        assertThat(model.drawing(Side.RIGHT).marks()).containsExactly(arrow);
        heardUs.set(1_600_000);
        model.narrator().tick();
        assertThat(frame(Side.RIGHT)).isEqualTo(25 * 284 / 10);

        // whoever takes the transport ends it
        pair.seek(Side.RIGHT, MediaTime.ZERO);
        assertThat(model.narrator().playingProperty().get()).isNull();
        assertThat(model.drawing(Side.RIGHT).marks()).isEmpty();
        assertThat(frame(Side.RIGHT)).isZero();
    }

    /** The voice's thread has opened the way out. */
    private void opened() throws InterruptedException {
        assertThat(open.await(20, TimeUnit.SECONDS)).isTrue();
    }

    private void speak(SeenTrack seen) {
        VoiceKeeping keeping = new VoiceKeeping(bench.workspace);
        Path part = keeping.begin("k-1");
        try (VoiceWriter writer = VoiceWriter.create(part)) {
            short[] sound = new short[2 * VoiceWriter.RATE];
            for (int i = 0; i < sound.length; i++) {
                sound[i] = (short) (9000 * Math.sin(2 * Math.PI * 300 * i / VoiceWriter.RATE));
            }
            writer.write(sound, sound.length);
            writer.finish();
        }
        Comment comment = keeping.finish(part, "k-1", "A1", seen, MediaTime.ofMicros(80_000_000));
        bench.workspace.change(s -> s.comments().save("D-002", comment));
    }

    @Test
    void typingNarrowsTheCases() {
        assertThat(model.search("d-002")).hasSize(1);
        assertThat(model.search("T02")).hasSize(2);
        assertThat(model.search("zz")).isEmpty();
    }

    @Test
    void stepsCanBeAddedUpUnderTheirPhase() {
        chooseBoth();
        model.levelProperty().set(Level.PHASE);
        assertThat(comparison().rows())
                .extracting(Comparison.Row::id)
                .contains("nucleus_division")
                .doesNotContain("rhexis");
    }

    @Test
    void casesAreStackedByTrainee() {
        StackViewModel stacking =
                new StackViewModel(new StackCases(bench.workspace), bench.work, bench.notices, bench.settings);
        stacking.offer(model.candidates(), null);
        assertThat(stacking.groups()).containsExactly(new StackViewModel.Group("T02", "phaco"));
        assertThat(Objects.requireNonNull(stacking.stackProperty().get()).bars())
                .hasSize(2);
        stacking.anchorProperty()
                .set(Objects.requireNonNull(stacking.stackProperty().get())
                        .terms()
                        .get(0));
        stacking.onlyAnchorProperty().set(true);
        // in phases there is no such step any more
        stacking.levelProperty().set(Level.PHASE);
        assertThat(stacking.anchorProperty().get()).isNull();
        assertThat(stacking.onlyAnchorProperty().get()).isFalse();
    }
}
