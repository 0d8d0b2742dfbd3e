package org.sideport.cli.bench;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.media.measure.LongVideo;
import org.sideport.model.Comment;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemScore;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;
import org.sideport.model.PicturePoint;
import org.sideport.model.Progress;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.Workspace;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CommentSession;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.handout.WriteFeedback;

/**
 * How soon the feedback page of a long case opens, and answers a click on a comment: until the picture of its frame is
 * there with its drawing, as a still first, then in the player. In Chromium without a window, from the disk.
 */
final class PageClick {

    private static final String CODE = "BENCH-1";
    private static final int COMMENTS = 120;
    private static final int CLIP_SECONDS = 10;

    private static final String OPENED = """
        new Promise(done => {
          const look = () => {
            const video = document.getElementById("video");
            if (video && video.readyState >= 2) done(performance.now());
            else setTimeout(look, 5);
          };
          look();
        })\
        """;

    private PageClick() {}

    /**
     * Milliseconds, medians.
     *
     * @param openMs from the start of loading until the first picture is there
     * @param clickMs from the click until picture and drawing are there, as a still or in the player
     * @param videoMs until they are there in the player
     */
    record Found(double openMs, double clickMs, double videoMs) {}

    /**
     * @param folder empty; what is made in it stays
     * @param minutes of the recording, 1080p
     * @return {@code null} where there is no Chromium
     */
    static @Nullable Found measure(Path folder, int minutes, int clicks, Progress progress)
            throws IOException, InterruptedException {
        Path page = page(folder, minutes, progress.part(0, 0.9));
        try (HeadlessChromium chromium = HeadlessChromium.start(Files.createDirectory(folder.resolve("profile")))) {
            if (chromium == null) {
                return null;
            }
            double[] opens = new double[3];
            for (int i = 0; i < opens.length; i++) {
                chromium.open(page);
                opens[i] = chromium.await(OPENED);
            }
            double[] answers = new double[clicks];
            double[] videos = new double[clicks];
            for (int i = 0; i < clicks; i++) {
                // 37 is prime to the number of comments: all over the recording
                answers[i] = chromium.await(click((2 * i + 1) * 37 % COMMENTS, false));
                videos[i] = chromium.await(click((2 * i + 2) * 37 % COMMENTS, true));
            }
            return new Found(Stopwatch.median(opens), Stopwatch.median(answers), Stopwatch.median(videos));
        }
    }

    /** @param inPlayer true to wait for the player whatever the still shows */
    private static String click(int comment, boolean inPlayer) {
        return String.format(Locale.ROOT, """
            new Promise((done, failed) => {
              const video = document.getElementById("video");
              const button = document.querySelectorAll(".comment .jump")[%d];
              const wanted = Number(button.dataset.at);
              setTimeout(() => failed("no answer"), 60000);
              let started = 0;
              const hold = document.getElementById("hold");
              const look = () => {
                const still = !%b && !hold.hidden && hold.complete && hold.naturalWidth > 0;
                const there = still || !video.seeking && Math.abs(video.currentTime - wanted) < 0.001 && video.readyState >= 2
                    && document.querySelectorAll("#drawing .line").length === 1;
                if (there) done(performance.now() - started);
                else requestAnimationFrame(look);
              };
              // what an earlier click began must have ended
              const begin = () => {
                if (video.seeking) {
                  setTimeout(begin, 5);
                  return;
                }
                started = performance.now();
                button.click();
                requestAnimationFrame(look);
              };
              begin();
            })\
            """, comment, inPlayer);
    }

    private static Path page(Path folder, int minutes, Progress progress) throws IOException {
        Path film = folder.resolve("long.mp4");
        LongVideo.write(film, 1920, 1080, CLIP_SECONDS, minutes * 60, progress.part(0, 0.3));
        Path page = folder.resolve("page.html");
        try (Workspace workspace = Workspace.create(folder.resolve("workspace"))) {
            ImportRecording intake = new ImportRecording(workspace);
            intake.addCase(
                    new NewCase(CODE, "T01", LocalDate.of(2026, 3, 9), "phaco", Map.of()),
                    intake.preview(List.of(film), progress.part(0.3, 0.5)));
            comments(workspace, minutes);
            Rubric rubric = ShippedRubrics.phacoCompetency();
            MarkCase marks = new MarkCase(workspace);
            marks.rate(
                    CODE,
                    new Rating(
                            rubric.id(),
                            rubric.version(),
                            "A1",
                            false,
                            false,
                            rubric.items().stream()
                                    .<ItemScore>map(item -> new ItemScore.Marked(item.id(), 3, ""))
                                    .toList(),
                            ""));
            marks.sign(CODE, rubric.id(), "A1", false);
            new WriteFeedback(workspace).write(WriteFeedback.Wanted.of(CODE, "en"), page, progress.part(0.5, 1));
        }
        return page;
    }

    private static void comments(Workspace workspace, int minutes) {
        CommentSession session = new CommentCase(workspace).open(CODE, "A1");
        DrawnMark arrow = DrawnMark.of(
                DrawnMark.Kind.ARROW,
                MarkColour.YELLOW,
                List.of(new PicturePoint(0.2, 0.2), new PicturePoint(0.5, 0.5)));
        for (int i = 0; i < COMMENTS; i++) {
            session.save(new Comment(
                    CommentSession.newId(),
                    "A1",
                    CommentTone.IMPROVE,
                    "comment " + (i + 1),
                    null,
                    MediaTime.ofSeconds((i + 0.5) * minutes * 60 / COMMENTS),
                    null,
                    List.of(arrow)));
        }
    }
}
