package org.sideport.report.bundle;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Locale;
import java.util.Objects;
import java.util.Set;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Comment;
import org.sideport.model.CommentReply;
import org.sideport.model.CommentThread;
import org.sideport.model.CommentTone;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.CutState;
import org.sideport.model.DrawnMark;
import org.sideport.model.ItemLink;
import org.sideport.model.MarkColour;
import org.sideport.model.MaskArea;
import org.sideport.model.MeasuredShape;
import org.sideport.model.MeasuredValue;
import org.sideport.model.Measurement;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PicturePoint;
import org.sideport.model.PointEvent;
import org.sideport.model.Segment;
import org.sideport.model.Severity;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.model.Voice;
import org.sideport.model.WhiteToWhite;
import org.sideport.rubric.RatingWriter;
import org.sideport.store.StoredRating;
import org.sideport.store.VoiceJson;
import org.sideport.timing.Boundary;
import tools.jackson.databind.JsonNode;

/**
 * From the program's records to the parts of a bundle and back. Back, each throws {@link IllegalArgumentException} or {@link
 * org.sideport.model.InputException} where a part fits the schema but cannot be.
 */
public final class Parts {

    private Parts() {}

    // ---- sheet and recording

    public static CaseContent.Sheet of(SurgicalCase one) {
        Consent consent = one.consent();
        return new CaseContent.Sheet(
                one.code(),
                one.trainee(),
                one.date().toString(),
                one.procedure(),
                one.descriptors(),
                new CaseContent.ConsentPart(
                        consent.state().id(),
                        consent.purposes().stream().map(ConsentPurpose::id).toList(),
                        consent.recordedBy(),
                        text(consent.recordedOn())),
                text(one.reviewBy()));
    }

    public static Consent consent(CaseContent.ConsentPart part) {
        return new Consent(
                ConsentState.parse(part.state()),
                ConsentPurpose.parseAll(String.join(",", part.purposes())),
                part.recordedBy(),
                day(part.recordedOn()));
    }

    private static @Nullable String text(@Nullable LocalDate day) {
        return day == null ? null : day.toString();
    }

    public static @Nullable LocalDate day(@Nullable String text) {
        return text == null ? null : LocalDate.parse(text);
    }

    public static CaseContent.File of(Segment s) {
        return new CaseContent.File(
                ending(s.file()),
                s.sha256(),
                s.size(),
                s.durationUs(),
                s.frames(),
                s.firstUs(),
                s.fpsNum(),
                s.fpsDen(),
                s.variableRate(),
                s.codec(),
                s.width(),
                s.height(),
                s.sampleAspect(),
                s.rotation(),
                s.interlaced(),
                s.audio());
    }

    private static String ending(Path file) {
        String name = String.valueOf(file.getFileName()).toLowerCase(Locale.ROOT);
        String ending = name.substring(name.lastIndexOf('.') + 1);
        return ending.matches("[a-z0-9]{1,5}") && !ending.equals(name) ? ending : "bin";
    }

    /** @param file where it is, or will be looked for */
    public static Segment segment(CaseContent.File f, Path file) {
        return new Segment(
                file,
                f.sha256(),
                f.size(),
                f.durationUs(),
                f.frames(),
                f.firstUs(),
                f.fpsNum(),
                f.fpsDen(),
                f.variableRate(),
                f.codec(),
                f.width(),
                f.height(),
                f.sampleAspect(),
                f.rotation(),
                f.interlaced(),
                f.audio(),
                List.of());
    }

    public static CaseContent.AreaPart of(MaskArea area) {
        MediaTime to = area.to();
        return new CaseContent.AreaPart(
                area.x(),
                area.y(),
                area.width(),
                area.height(),
                area.from().micros(),
                to == null ? null : (Long) to.micros());
    }

    public static MaskArea area(CaseContent.AreaPart part) {
        Long to = part.toUs();
        return new MaskArea(
                part.x(),
                part.y(),
                part.width(),
                part.height(),
                MediaTime.ofMicros(part.fromUs()),
                to == null ? null : MediaTime.ofMicros(to));
    }

    public static CaseContent.CutPart of(Cut cut) {
        return new CaseContent.CutPart(
                cut.from().micros(),
                cut.to().micros(),
                cut.kind().id(),
                cut.state().name().toLowerCase(Locale.ROOT),
                cut.evidence(),
                cut.decidedBy());
    }

    public static Cut cut(CaseContent.CutPart part, String decidedBy) {
        return new Cut(
                MediaTime.ofMicros(part.fromUs()),
                MediaTime.ofMicros(part.toUs()),
                CutKind.valueOf(part.kind().toUpperCase(Locale.ROOT)),
                CutState.valueOf(part.state().toUpperCase(Locale.ROOT)),
                part.evidence(),
                decidedBy);
    }

    // ---- taggings

    public static CaseContent.TaggingPart of(String annotator, Tagging tagging, Set<Boundary> confirmed) {
        return new CaseContent.TaggingPart(
                annotator,
                tagging.style().id(),
                tagging.spans().stream()
                        .map(s -> new CaseContent.SpanPart(
                                s.phase(), s.start().micros(), micros(s.end()), id(s.operator())))
                        .toList(),
                tagging.events().stream()
                        .map(e -> new CaseContent.EventPart(
                                e.kind(), e.at().micros(), severityId(e.severity()), e.note()))
                        .toList(),
                confirmed.stream()
                        .sorted()
                        .map(b -> new CaseContent.BoundaryPart(b.kind().id(), b.at().micros()))
                        .toList());
    }

    public static Tagging tagging(CaseContent.TaggingPart part) {
        return new Tagging(
                TaggingStyle.valueOf(part.style().toUpperCase(Locale.ROOT)),
                part.spans().stream()
                        .map(s -> new PhaseSpan(
                                s.phase(), MediaTime.ofMicros(s.startUs()), time(s.endUs()), operator(s.operator())))
                        .toList(),
                part.events().stream()
                        .map(e -> new PointEvent(
                                e.kind(), MediaTime.ofMicros(e.atUs()), severity(e.severity()), e.note()))
                        .toList());
    }

    public static Set<Boundary> confirmed(CaseContent.TaggingPart part) {
        return part.confirmed().stream()
                .map(b -> new Boundary(
                        Boundary.Kind.valueOf(b.kind().toUpperCase(Locale.ROOT)), MediaTime.ofMicros(b.atUs())))
                .collect(Collectors.toSet());
    }

    private static @Nullable String id(@Nullable Operator operator) {
        return operator == null ? null : operator.id();
    }

    private static @Nullable Operator operator(@Nullable String id) {
        return id == null ? null : Operator.parse(id);
    }

    private static @Nullable String severityId(@Nullable Severity severity) {
        return severity == null ? null : severity.id();
    }

    private static @Nullable Severity severity(@Nullable String id) {
        return id == null ? null : Severity.parse(id);
    }

    private static @Nullable Long micros(@Nullable MediaTime time) {
        return time == null ? null : (Long) time.micros();
    }

    private static @Nullable MediaTime time(@Nullable Long micros) {
        return micros == null ? null : MediaTime.ofMicros(micros);
    }

    // ---- comments

    public static CaseContent.CommentPart of(CommentThread thread) {
        Comment c = thread.comment();
        ItemLink item = c.item();
        Voice voice = c.voice();
        return new CaseContent.CommentPart(
                c.id(),
                c.author(),
                c.tone().id(),
                c.text(),
                item == null ? null : item.rubric(),
                item == null ? null : item.item(),
                c.from().micros(),
                micros(c.to()),
                c.drawing().stream().map(Parts::of).toList(),
                voice == null
                        ? null
                        : new CaseContent.VoicePart(
                                voice.sha256(),
                                voice.lengthUs(),
                                BundleJson.tree(VoiceJson.write(voice.seen())),
                                BundleJson.tree(VoiceJson.write(voice.captions()))),
                thread.replies().stream()
                        .map(r -> new CaseContent.ReplyPart(r.id(), r.author(), r.text()))
                        .toList());
    }

    private static CaseContent.MarkPart of(DrawnMark mark) {
        return new CaseContent.MarkPart(mark.kind().id(), mark.colour().id(), pairs(mark.points()), mark.words());
    }

    /** @param author the code that the author has here */
    public static Comment comment(CaseContent.CommentPart part, String author) {
        String rubric = part.rubric();
        String item = part.item();
        CaseContent.VoicePart voice = part.voice();
        return new Comment(
                part.id(),
                author,
                CommentTone.parse(part.tone()),
                part.text(),
                rubric == null || item == null ? null : new ItemLink(rubric, item),
                MediaTime.ofMicros(part.fromUs()),
                time(part.toUs()),
                part.drawing().stream()
                        .map(m -> new DrawnMark(
                                DrawnMark.Kind.valueOf(m.kind().toUpperCase(Locale.ROOT)),
                                MarkColour.parse(m.colour()),
                                points(m.points()),
                                m.words()))
                        .toList(),
                voice == null
                        ? null
                        : new Voice(
                                voice.sha256(),
                                voice.lengthUs(),
                                VoiceJson.readSeen(voice.seen().toString()),
                                VoiceJson.readCaptions(voice.captions().toString())));
    }

    public static CommentReply reply(CaseContent.ReplyPart part, String comment, String author) {
        return new CommentReply(part.id(), comment, author, part.text());
    }

    private static List<List<Double>> pairs(List<PicturePoint> points) {
        return points.stream().map(p -> List.of(p.x(), p.y())).toList();
    }

    private static List<PicturePoint> points(List<List<Double>> pairs) {
        return pairs.stream().map(p -> new PicturePoint(p.get(0), p.get(1))).toList();
    }

    // ---- measurements

    public static CaseContent.MeasurementPart of(Measurement m) {
        WhiteToWhite width = m.scale();
        return new CaseContent.MeasurementPart(
                m.id(),
                m.author(),
                m.frame().micros(),
                m.displayWidth(),
                m.displayHeight(),
                m.shape().id(),
                pairs(m.points()),
                width == null ? null : (Double) width.mm(),
                width == null ? null : (Double) width.sdMm(),
                width == null ? null : (Boolean) width.own(),
                m.values().stream()
                        .map(v ->
                                new CaseContent.ValuePart(v.name(), v.unit(), v.value(), v.se(), v.lower(), v.upper()))
                        .toList(),
                m.method(),
                m.warnings());
    }

    /** @param author the code that the author has here */
    public static Measurement measurement(CaseContent.MeasurementPart part, String author) {
        Double mm = part.widthMm();
        return new Measurement(
                part.id(),
                author,
                MediaTime.ofMicros(part.atUs()),
                part.displayWidth(),
                part.displayHeight(),
                MeasuredShape.parse(part.shape()),
                points(part.points()),
                mm == null
                        ? null
                        : new WhiteToWhite(
                                mm,
                                Objects.requireNonNullElse(part.widthSdMm(), 0.0),
                                Objects.requireNonNullElse(part.widthOwn(), false)),
                part.values().stream()
                        .map(v -> new MeasuredValue(v.name(), v.unit(), v.value(), v.se(), v.lower(), v.upper()))
                        .toList(),
                part.method(),
                part.warnings());
    }

    // ---- ratings

    /**
     * @param number of the rating within the bundle
     * @param amends number of the one that it replaces, or {@code null}
     */
    public static CaseContent.RatingPart of(StoredRating stored, int number, @Nullable Integer amends) {
        String signedAt = stored.signedAt() == null ? null : String.valueOf(stored.signedAt());
        return new CaseContent.RatingPart(
                number,
                BundleJson.tree(RatingWriter.write(stored.rating())),
                stored.state().id(),
                signedAt,
                amends,
                stored.reason(),
                RatingDigest.of(stored.rating(), stored.rubricJson(), signedAt, stored.reason()));
    }

    /** The marks as a text that {@link org.sideport.rubric.RatingReader} reads. */
    public static String marks(JsonNode marks) {
        return marks.toString();
    }
}
