package org.sideport.workflow.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.CancellationException;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.demo.FrameStamp;
import org.sideport.media.VideoOptions;
import org.sideport.media.VideoWriter;
import org.sideport.media.WrittenVideo;
import org.sideport.media.voice.VoiceWriter;
import org.sideport.model.Comment;
import org.sideport.model.CommentTone;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentRuling;
import org.sideport.model.ConsentSituation;
import org.sideport.model.ConsentState;
import org.sideport.model.DrawnMark;
import org.sideport.model.MarkColour;
import org.sideport.model.MaskArea;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PicturePoint;
import org.sideport.model.Progress;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.model.Voice;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.ImportRecording;

/**
 * A recording whose pictures carry their number at known, uneven times, and a voice that beeps from 0.8 to 1.2 s while the
 * picture stands for a second and then runs at half its pace: the film is decoded and everything compared with that truth.
 */
class MakeFilmTest {

    private static final int WIDTH = 320;
    private static final int HEIGHT = 180;
    private static final int CLOCK = 90_000;
    private static final int GREY = 0xFF707070;

    private static final DrawnMark RING = DrawnMark.of(
            DrawnMark.Kind.ELLIPSE,
            MarkColour.YELLOW,
            List.of(new PicturePoint(0.25, 0.25), new PicturePoint(0.75, 0.75)));
    private static final DrawnMark WORD = DrawnMark.words(MarkColour.SKY_BLUE, new PicturePoint(0.1, 0.5), "EDGE");

    @TempDir
    Path folder;

    private Workspace workspace;
    private long[] ticks;

    private static MediaTime s(double seconds) {
        return MediaTime.ofSeconds(seconds);
    }

    @BeforeEach
    void aCaseWithASpokenComment() throws IOException {
        ticks = new long[60];
        int[] steps = {3600, 1800, 7200, 3600, 5400};
        for (int i = 1; i < ticks.length; i++) {
            ticks[i] = ticks[i - 1] + steps[i % steps.length];
        }
        Path file = folder.resolve("rec.mp4");
        try (VideoWriter writer = VideoWriter.open(file, VideoOptions.silent(WIDTH, HEIGHT, CLOCK, 3600, 16))) {
            for (int i = 0; i < ticks.length; i++) {
                int[] argb = new int[WIDTH * HEIGHT];
                Arrays.fill(argb, GREY);
                FrameStamp.write(argb, WIDTH, HEIGHT, i);
                writer.frame(argb, ticks[i]);
            }
            writer.finish();
        }
        workspace = FreshWorkspace.in(folder.resolve("unit"));
        Path said = workspace.voices().begin("said");
        try (VoiceWriter writer = VoiceWriter.create(said)) {
            short[] samples = new short[2 * VoiceWriter.RATE];
            for (int i = (int) (0.8 * VoiceWriter.RATE); i < 1.2 * VoiceWriter.RATE; i++) {
                samples[i] = (short) (25_000 * Math.sin(2 * Math.PI * 1000 * i / VoiceWriter.RATE));
            }
            writer.write(samples, samples.length);
            writer.finish();
        }
        String voice = workspace.voices().keep(said);
        Consent consent =
                new Consent(ConsentState.GIVEN, Set.of(ConsentPurpose.TEACHING), "A1", LocalDate.of(2026, 3, 9));
        SeenTrack seen = new SeenTrack(List.of(
                new SeenEvent.Stand(0, s(1)),
                new SeenEvent.Drawn(400_000, RING),
                new SeenEvent.Run(1_000_000, s(1), 0.5),
                new SeenEvent.Removed(1_400_000, RING)));
        var recording = ImportRecording.probe(List.of(file), Progress.NONE).recording();
        workspace.change(stores -> {
            stores.cases()
                    .add(new SurgicalCase(
                            "D-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), recording, consent, null));
            stores.taggings()
                    .save(
                            "D-1",
                            "A1",
                            new Tagging(
                                    TaggingStyle.START_AND_END,
                                    List.of(
                                            new PhaseSpan("incision", s(0), s(0.7), null),
                                            new PhaseSpan("rhexis", s(0.7), s(1.3), null)),
                                    List.of()));
            stores.comments()
                    .save(
                            "D-1",
                            new Comment(
                                    "c-1",
                                    "A1",
                                    CommentTone.PRAISE,
                                    "A steady hand",
                                    null,
                                    s(0.6),
                                    s(0.8),
                                    List.of(WORD)));
            stores.comments()
                    .save(
                            "D-1",
                            new Comment(
                                    "c-2",
                                    "A1",
                                    CommentTone.IMPROVE,
                                    "",
                                    null,
                                    s(1),
                                    null,
                                    List.of(),
                                    new Voice(voice, 2_000_000, seen, List.of())));
        });
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static MakeFilm.Wanted wanted(MaskArea... masks) {
        return new MakeFilm.Wanted(
                "D-1", null, List.of(new MakeFilm.Part(s(0.4), s(1.6))), List.of(), false, true, List.of(masks));
    }

    private double start(int frame) {
        return ticks[frame] / (double) CLOCK;
    }

    private int frameAt(double time) {
        int frame = 0;
        while (frame + 1 < ticks.length && start(frame + 1) <= time + 1e-9) {
            frame++;
        }
        return frame;
    }

    private record Shown(double at, int number) {}

    /** By the definitions: 0.4 to 1 s; then two seconds of the comment; then 1 to 1.6 s. */
    private List<Shown> truth() {
        List<Shown> all = new ArrayList<>();
        run(all, 0, 0.4, 0.6, 1);
        for (int i = 0; i < 25; i++) {
            all.add(new Shown(0.6 + i * 0.04, frameAt(1)));
        }
        run(all, 1.6, 1, 1, 0.5);
        run(all, 2.6, 1, 0.6, 1);
        // the drawing goes 1.4 s into the comment, between two frames: the one on the screen is shown anew
        double gone = 0.6 + 1.4;
        if (all.stream().noneMatch(x -> Math.abs(x.at() - gone) < 1e-6)) {
            all.add(new Shown(gone, frameAt(1.2)));
            all.sort(java.util.Comparator.comparingDouble(Shown::at));
        }
        return all;
    }

    private void run(List<Shown> all, double film, double from, double length, double rate) {
        all.add(new Shown(film, frameAt(from)));
        for (int i = frameAt(from) + 1; i < ticks.length && (start(i) - from) / rate < length - 1e-6; i++) {
            all.add(new Shown(film + (start(i) - from) / rate, i));
        }
    }

    @Test
    void theFilmShowsWhatWasSeenAndSaysWhatWasSaid() throws IOException {
        Path out = folder.resolve("film.mp4");
        Files.writeString(folder.resolve("film.de.vtt"), "WEBVTT\n\n00:00.200 --> 00:00.400\nEine ruhige Hand\n");
        MakeFilm.Made made = new MakeFilm(workspace).film(wanted(), out, false, Progress.NONE);
        assertThat(made.lengthUs()).isEqualTo(3_200_000);
        assertThat(made.shots()).isEqualTo(3);
        assertThat(made.languages()).containsExactly("de");

        WrittenVideo film = WrittenVideo.read(out);
        List<Shown> truth = truth();
        assertThat(film.frames()).hasSameSizeAs(truth);
        for (int i = 0; i < truth.size(); i++) {
            WrittenVideo.Frame frame = film.frames().get(i);
            assertThat(frame.micros() / 1e6)
                    .as("picture %d", i)
                    .isCloseTo(truth.get(i).at(), within(2e-6));
            assertThat(FrameStamp.read(frame.argb(), WIDTH, HEIGHT).orElse(-1))
                    .as("picture %d", i)
                    .isEqualTo(truth.get(i).number());
            assertThat(frame.bidirectional()).isFalse();
            double at = truth.get(i).at();
            // drawn from 0.4 to 1.4 s of the comment, which starts 0.6 s into the film
            boolean ring = at > 1.0 - 1e-6 && at < 2.0 - 1e-6;
            // its right end; and a place inside, where nothing is drawn
            assertThat(differs(frame.argb(), 240, 90)).as("ring at %f", at).isEqualTo(ring);
            assertThat(differs(frame.argb(), 160, 130)).isFalse();
            // the written comment's word stands on 0.6 to 0.8 s of the recording
            double seen = start(truth.get(i).number());
            if (at < 0.6 && (seen < 0.55 || seen > 0.85)) {
                assertThat(differs(frame.argb(), 40, 85)).isFalse();
            } else if (at < 0.6 && seen > 0.6 && seen < 0.75) {
                assertThat(differs(frame.argb(), 40, 85)).isTrue();
            }
        }

        FilmSound heard = FilmSound.of(out);
        // 0.6 s of film before the voice; half an AAC frame (1024 samples) of pre-echo and Opus' run-up at most
        assertThat(heard.loudFromS()).isCloseTo(0.6 + 0.8, within(0.015));
        assertThat(heard.loudUntilS()).isCloseTo(0.6 + 1.2, within(0.015));
        assertThat(heard.languages()).containsExactly("und", "deu");
        // a frame lasts 80 ms at most, and a caption starts and ends with one
        assertThat(heard.texts()).singleElement().satisfies(t -> {
            assertThat(t.text()).isEqualTo("A steady hand");
            assertThat(t.fromS()).isCloseTo(0.2, within(0.081));
            assertThat(t.toS()).isCloseTo(0.4, within(0.081));
        });
        assertThat(Files.readString(folder.resolve("film.vtt"))).contains("A steady hand");

        assertThat(heard.chapters())
                .extracting(FilmSound.Text::text)
                .containsExactly("Incision", "Rhexis", "–", "Rhexis", "–");
        double[] starts = {0, 0.3, 2.2, 2.6, 2.9};
        for (int i = 0; i < starts.length; i++) {
            // at half pace a frame lasts 160 ms
            assertThat(heard.chapters().get(i).fromS()).isCloseTo(starts[i], within(0.161));
        }
        assertThat(String.join(" ", film.tags())).doesNotContain("T03", "A1", "D-1");
    }

    /** Anything but the grey of the recording near a place. */
    private static boolean differs(int[] argb, int x, int y) {
        int most = 0;
        for (int dy = -3; dy <= 3; dy++) {
            for (int dx = -3; dx <= 3; dx++) {
                int pixel = argb[(y + dy) * WIDTH + x + dx];
                int green = pixel >> 8 & 0xFF;
                most = Math.max(most, Math.abs(green - 0x70));
            }
        }
        return most > 24;
    }

    @Test
    void masksHideAndNothingIsLeftWhenCancelledOrRefused() throws IOException {
        Path out = folder.resolve("masked.mp4");
        MakeFilm job = new MakeFilm(workspace);
        MakeFilm.Wanted small = new MakeFilm.Wanted(
                "D-1",
                "A1",
                List.of(new MakeFilm.Part(s(0), s(0.3))),
                List.of(),
                false,
                false,
                List.of(new MaskArea(200, 20, 60, 40)));
        job.film(small, out, false, Progress.NONE);
        for (WrittenVideo.Frame frame : WrittenVideo.read(out).frames()) {
            assertThat(frame.argb()[40 * WIDTH + 230] & 0xFF).isLessThan(30);
        }
        assertThat(FilmSound.of(out).loudFromS()).isEqualTo(-1);

        Progress cancelled = new Progress() {
            @Override
            public void report(double fraction, String message) {}

            @Override
            public boolean isCancelled() {
                return true;
            }
        };
        Path none = folder.resolve("none.mp4");
        assertThatThrownBy(() -> job.film(wanted(), none, false, cancelled)).isInstanceOf(CancellationException.class);
        assertThatThrownBy(() -> job.film(
                        new MakeFilm.Wanted(
                                "D-1",
                                null,
                                List.of(new MakeFilm.Part(s(1), s(99))),
                                List.of(),
                                false,
                                true,
                                List.of()),
                        none,
                        false,
                        Progress.NONE))
                .hasMessageContaining("no stretch");
        workspace.change(stores -> {
            stores.consents().rule(ConsentSituation.OTHER_PURPOSE, ConsentRuling.REFUSE);
            SurgicalCase one = stores.cases().get("D-1");
            Consent other =
                    new Consent(ConsentState.GIVEN, Set.of(ConsentPurpose.ASSESSMENT), "A1", LocalDate.of(2026, 3, 9));
            stores.cases()
                    .update(
                            new SurgicalCase("D-1", "T03", one.date(), "phaco", Map.of(), one.recording(), other, null),
                            List.of());
        });
        assertThatThrownBy(() -> job.film(wanted(), none, false, Progress.NONE)).hasMessageContaining("teaching");
        try (var files = Files.list(folder)) {
            assertThat(files.map(f -> f.getFileName().toString()))
                    .containsExactlyInAnyOrder("rec.mp4", "unit", "masked.mp4");
        }
    }

    @Test
    void stillsShowTheFrameWithItsDrawingAndAList() throws IOException {
        Path slides = folder.resolve("slides");
        assertThat(new MakeFilm(workspace).stills(wanted(), slides, Progress.NONE))
                .isEqualTo(2);
        var picture = ImageIO.read(slides.resolve("D-1_01.png").toFile());
        int[] argb = picture.getRGB(0, 0, WIDTH, HEIGHT, null, 0, WIDTH);
        assertThat(FrameStamp.read(argb, WIDTH, HEIGHT)).hasValue(frameAt(0.6));
        assertThat(differs(argb, 40, 85)).isTrue();
        assertThat(Files.readAllLines(slides.resolve("index.csv")))
                .containsExactly(
                        "file,case,time,phase,caption",
                        "D-1_01.png,D-1,0.6,Incision,A steady hand",
                        "D-1_02.png,D-1,1,Rhexis,");
        assertThatThrownBy(() -> new MakeFilm(workspace).stills(wanted(), slides, Progress.NONE))
                .hasMessageContaining("not empty");
    }
}
