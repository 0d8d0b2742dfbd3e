package org.sideport.workflow.handout;

import java.awt.image.BufferedImage;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import org.sideport.demo.FrameStamp;
import org.sideport.media.voice.VoiceWriter;
import org.sideport.model.Caption;
import org.sideport.model.Comment;
import org.sideport.model.CommentTone;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.ItemScore;
import org.sideport.model.MarkColour;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PicturePoint;
import org.sideport.model.PointEvent;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.model.Voice;
import org.sideport.player.DemoRecordings;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.Workspace;
import org.sideport.workflow.CommentCase;
import org.sideport.workflow.CommentSession;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.VoiceKeeping;

/** A drawn operation of the demo (D-002), tagged, commented in writing, drawing and voice, marked and signed. */
public final class HandoutCase {

    static final String CODE = "D-002";
    static final String TRAINEE = "T04";
    static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();

    /** Frames of the recording: 25 a second, so that frame n begins at n / 25 s (demo-data/README.md). */
    static final int RATE = 25;

    /** The drawing's frame. */
    static final int DRAWN_FRAME = 612;

    static final int EVIDENCE_FRAME = 900;

    static final DrawnMark ARROW = DrawnMark.of(
            DrawnMark.Kind.ARROW, MarkColour.YELLOW, List.of(new PicturePoint(0.25, 0.25), new PicturePoint(0.5, 0.5)));

    static final DrawnMark RING = DrawnMark.of(
            DrawnMark.Kind.ELLIPSE,
            MarkColour.SKY_BLUE,
            List.of(new PicturePoint(0.3, 0.3), new PicturePoint(0.7, 0.7)));

    /** Stands at 22 s for a second, with a ring from 0.4 s to 2.4 s, then runs at half speed, then stands at 30 s. */
    static final SeenTrack SEEN = new SeenTrack(List.of(
            new SeenEvent.Stand(0, MediaTime.ofSeconds(22)),
            new SeenEvent.Drawn(400_000, RING),
            new SeenEvent.Run(1_000_000, MediaTime.ofSeconds(22), 0.5),
            new SeenEvent.Removed(2_400_000, RING),
            new SeenEvent.Stand(3_000_000, MediaTime.ofSeconds(30))));

    static final long VOICE_US = 4_000_000;

    private HandoutCase() {}

    /** The number in a picture of the demo; -1 if there is none. */
    static int stamp(BufferedImage picture) {
        int width = picture.getWidth();
        int height = picture.getHeight();
        return FrameStamp.read(picture.getRGB(0, 0, width, height, null, 0, width), width, height)
                .orElse(-1);
    }

    static MediaTime frame(int number) {
        return MediaTime.ofMicros(number * 1_000_000L / RATE);
    }

    /** @param text of every comment and remark: whatever people may write */
    static void into(Workspace workspace, String text) {
        ImportRecording intake = new ImportRecording(workspace);
        intake.addCase(
                new NewCase(CODE, TRAINEE, LocalDate.of(2026, 3, 4), "phaco", Map.of("nuclear_grade", "2.5")),
                DemoRecordings.preview(DemoRecordings.D002));
        workspace.change(stores -> stores.taggings().save(CODE, "A1", tagging(text)));
        comments(workspace, text);
        MarkCase marks = new MarkCase(workspace);
        marks.rate(CODE, rating("A1", false, text));
        marks.sign(CODE, RUBRIC.id(), "A1", false);
    }

    /** As the trainee marks oneself. */
    static void markOneself(Workspace workspace) {
        MarkCase marks = new MarkCase(workspace);
        marks.rate(CODE, rating(TRAINEE, true, "my own view"));
        marks.sign(CODE, RUBRIC.id(), TRAINEE, true);
    }

    /** Steps of demo-data/truth-phases.csv. */
    private static Tagging tagging(String text) {
        return new Tagging(
                TaggingStyle.START_AND_END,
                List.of(
                        span("side_port", 5.8, 8.4),
                        span("main_incision", 17, 20),
                        span("rhexis", 20.8, 28.4),
                        span("hydrodissection", 29.2, 33.2),
                        span("sculpting", 34.4, 40.4),
                        span("division", 40.4, 44),
                        span("fragment_removal", 44, 51.2),
                        span("cortex_aspiration", 52, 58),
                        span("lens_insertion", 66.2, 70.4)),
                List.of(new PointEvent("iris_prolapse", MediaTime.ofSeconds(31.8), Severity.MODERATE, text)));
    }

    private static PhaseSpan span(String phase, double from, double to) {
        return new PhaseSpan(phase, MediaTime.ofSeconds(from), MediaTime.ofSeconds(to), null);
    }

    private static void comments(Workspace workspace, String text) {
        CommentSession session = new CommentCase(workspace).open(CODE, "A1");
        session.save(new Comment(
                CommentSession.newId(),
                "A1",
                CommentTone.IMPROVE,
                text,
                new ItemLink(RUBRIC.id(), RUBRIC.items().get(3).id()),
                frame(DRAWN_FRAME),
                null,
                List.of(ARROW, DrawnMark.words(MarkColour.GREEN, new PicturePoint(0.2, 0.2), "here " + cut(text)))));
        Comment question = new Comment(
                CommentSession.newId(),
                "A1",
                CommentTone.QUESTION,
                text,
                null,
                MediaTime.ofSeconds(45),
                MediaTime.ofSeconds(48),
                List.of());
        session.save(question);
        session.answer(question, text);
        VoiceKeeping keeping = new VoiceKeeping(workspace);
        String id = CommentSession.newId();
        Path part = keeping.begin(id);
        try (VoiceWriter writer = VoiceWriter.create(part)) {
            short[] sound = new short[(int) (VOICE_US / 1_000_000) * VoiceWriter.RATE];
            for (int i = 0; i < sound.length; i++) {
                sound[i] = (short) (6000 * Math.sin(2 * Math.PI * 300 * i / VoiceWriter.RATE));
            }
            writer.write(sound, sound.length);
            writer.finish();
        }
        Comment spoken = keeping.finish(part, id, "A1", SEEN, MediaTime.ofSeconds(87));
        Voice voice = spoken.voice();
        session.save(
                voice == null
                        ? spoken
                        : spoken.withTone(CommentTone.PRAISE)
                                .withVoice(voice.withCaptions(List.of(new Caption(100_000, 1_500_000, text)))));
    }

    private static String cut(String text) {
        return text.substring(0, Math.min(text.length(), 100));
    }

    static Rating rating(String assessor, boolean self, String text) {
        List<ItemScore> scores = new ArrayList<>();
        for (Rubric.Item item : RUBRIC.items()) {
            int place = scores.size();
            List<MediaTime> evidence = place == 2 ? List.of(frame(EVIDENCE_FRAME), frame(1000)) : List.of();
            if (place == 5 && item.notApplicable().contains(NotApplicable.DONE_BY_TRAINER)) {
                scores.add(new ItemScore.Excused(item.id(), NotApplicable.DONE_BY_TRAINER, text, evidence));
            } else {
                scores.add(new ItemScore.Marked(item.id(), 1 + place % 4, null, place % 3 == 0 ? text : "", evidence));
            }
        }
        return new Rating(
                RUBRIC.id(), RUBRIC.version(), assessor, self, false, scores, text, List.of(text, "Slow down"));
    }
}
