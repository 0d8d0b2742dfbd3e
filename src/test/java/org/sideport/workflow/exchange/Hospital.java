package org.sideport.workflow.exchange;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.sideport.media.FileDigest;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentTone;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.CutState;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.ItemScore;
import org.sideport.model.MarkColour;
import org.sideport.model.MeasuredShape;
import org.sideport.model.MeasuredValue;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PicturePoint;
import org.sideport.model.PointEvent;
import org.sideport.model.Progress;
import org.sideport.model.Rating;
import org.sideport.model.Recording;
import org.sideport.model.Rubric;
import org.sideport.model.SeenEvent;
import org.sideport.model.SeenTrack;
import org.sideport.model.Segment;
import org.sideport.model.Severity;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.model.Voice;
import org.sideport.model.WhiteToWhite;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.Workspace;
import org.sideport.timing.Boundary;

/** A unit with one case, D-017 of T03, that has something of everything a bundle carries. */
public final class Hospital {

    static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();
    static final String RUBRIC_TEXT = ShippedRubrics.text("phaco-competency.json");
    static final Instant SIGNED = Instant.parse("2026-03-10T08:15:00.123456Z");
    public static final Consent CONSENT =
            new Consent(ConsentState.GIVEN, Set.of(ConsentPurpose.ASSESSMENT), "A1", LocalDate.of(2026, 3, 9));

    private Hospital() {}

    static MediaTime at(double seconds) {
        return MediaTime.ofMicros(Math.round(seconds * 1e6));
    }

    /** The case with a recording of two files, 40 s and 20 s long as far as the store knows. */
    public static void fill(Workspace workspace, Path shelf) throws IOException {
        Path first = Files.writeString(Files.createDirectories(shelf).resolve("first.mp4"), "one ".repeat(9000));
        Path second = Files.writeString(shelf.resolve("second.mp4"), "two ".repeat(5000));
        Recording recording = new Recording(List.of(segment(first, 40), segment(second, 20)));
        Path part = workspace.voices().begin("said");
        Files.writeString(part, "not a real sound, but bytes all the same");
        String voice = workspace.voices().keep(part);
        workspace.change(s -> {
            s.cases()
                    .add(new SurgicalCase(
                            "D-017",
                            "T03",
                            LocalDate.of(2026, 3, 9),
                            "phaco",
                            Map.of("eye", "left", "nuclear_grade", "2.5"),
                            recording,
                            CONSENT,
                            LocalDate.of(2027, 3, 9)));
            s.cuts().save("D-017", new Cut(at(40), at(40), CutKind.BETWEEN_FILES, CutState.ACCEPTED, "a gap", "A1"));
            Tagging tagging = new Tagging(
                    TaggingStyle.START_AND_END,
                    List.of(
                            new PhaseSpan("incision", at(1), at(5.04), Operator.TRAINEE),
                            new PhaseSpan("rhexis", at(6), at(30), null)),
                    List.of(new PointEvent("take_over", at(12.5), Severity.MINOR, "shown once, then \"=1+1\"")));
            s.taggings().save("D-017", "A1", tagging, Set.of(new Boundary(Boundary.Kind.PHASE, at(6))), Set.of());
            s.comments().save("D-017", comment("c-1", "A1", "Slower here.", null));
            s.comments()
                    .save(
                            "D-017",
                            comment(
                                    "c-2",
                                    "A1",
                                    "",
                                    new Voice(
                                            voice,
                                            2_000_000,
                                            new SeenTrack(List.of(new SeenEvent.Stand(0, at(7)))),
                                            List.of())));
            s.comments().save("D-017", new CommentReply("r-1", "c-1", "T03", "I will."));
            s.measurements().add("D-017", measurement("m-1"));
            s.ratings().keepRubric(RUBRIC.id(), RUBRIC.version(), RUBRIC_TEXT);
            long first1 = s.ratings().addDraft("D-017", rating("A1", false, 2), null, null);
            s.ratings().sign(first1, SIGNED);
            long amended = s.ratings().addDraft("D-017", rating("A1", false, 3), first1, "saw it again at full size");
            s.ratings().sign(amended, SIGNED.plusSeconds(3600));
            long own = s.ratings().addDraft("D-017", rating("T03", true, 4), null, null);
            s.ratings().sign(own, SIGNED.plusSeconds(60));
            s.ratings().addDraft("D-017", rating("A2", false, 1), null, null);
        });
    }

    static Segment segment(Path file, long seconds) throws IOException {
        return new Segment(
                file,
                FileDigest.sha256(file, Progress.NONE),
                Files.size(file),
                seconds * 1_000_000,
                seconds * 25,
                33_367,
                25,
                1,
                true,
                "h264",
                720,
                576,
                "16:15",
                90,
                true,
                false,
                List.of());
    }

    static Comment comment(String id, String author, String text, @org.jspecify.annotations.Nullable Voice voice) {
        return new Comment(
                id,
                author,
                CommentTone.IMPROVE,
                text,
                new ItemLink(RUBRIC.id(), RUBRIC.items().get(0).id()),
                at(7),
                at(9.5),
                List.of(DrawnMark.of(
                        DrawnMark.Kind.LINE,
                        MarkColour.SKY_BLUE,
                        List.of(new PicturePoint(1 / 3.0, 0.25), new PicturePoint(0.1, 0.7)))),
                voice);
    }

    static Measurement measurement(String id) {
        return new Measurement(
                id,
                "A1",
                at(20),
                768,
                576,
                MeasuredShape.LIMBUS,
                List.of(
                        new PicturePoint(0.1, 0.5),
                        new PicturePoint(0.9, 0.5),
                        new PicturePoint(0.5, 0.1),
                        new PicturePoint(0.5, 0.9),
                        new PicturePoint(1 / 7.0, 0.3)),
                WhiteToWhite.POPULATION,
                List.of(new MeasuredValue("diameter", "mm", 11.71, 0.42, 10.9, 12.5)),
                "ellipse",
                List.of("four points only"));
    }

    /** The same level for each item, the last left out for a reason; comments, evidence, actions. */
    static Rating rating(String assessor, boolean self, int level) {
        List<ItemScore> scores = new ArrayList<>();
        for (Rubric.Item item : RUBRIC.items()) {
            if (scores.isEmpty() && item.notApplicable().contains(NotApplicable.NOT_VISIBLE)) {
                scores.add(new ItemScore.Excused(item.id(), NotApplicable.NOT_VISIBLE, "covered", List.of()));
            } else {
                scores.add(new ItemScore.Marked(item.id(), level, null, "=SUM(A1)", List.of(at(3), at(1.000001))));
            }
        }
        return new Rating(
                RUBRIC.id(),
                RUBRIC.version(),
                assessor,
                self,
                true,
                scores,
                "Ümläut, \"quotes\"\nand lines",
                List.of("wider wound"));
    }
}
