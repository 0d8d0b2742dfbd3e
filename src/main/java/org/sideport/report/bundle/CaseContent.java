package org.sideport.report.bundle;

import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import tools.jackson.databind.JsonNode;

/**
 * What a bundle tells of its case, as {@code content.json} has it ({@code rubrics/case-content.schema.json}): names of its
 * parts are those of the records in lower case with underscores; times in microseconds.
 */
public record CaseContent(
        Sheet sheet,
        List<File> files,
        List<AreaPart> hiddenAreas,
        List<CutPart> cuts,
        List<TaggingPart> taggings,
        List<CommentPart> comments,
        List<MeasurementPart> measurements,
        List<RatingPart> ratings) {

    @SuppressWarnings("ConstantValue") // not in bundles of form 1
    public CaseContent {
        hiddenAreas = hiddenAreas == null ? List.of() : List.copyOf(hiddenAreas);
    }

    /** @param date ISO */
    public record Sheet(
            String code,
            String trainee,
            String date,
            String procedure,
            Map<String, String> descriptors,
            ConsentPart consent,
            @Nullable String reviewBy) {}

    public record ConsentPart(
            String state,
            List<String> purposes,
            String recordedBy,
            @Nullable String recordedOn) {}

    /** A file of the recording as measured; {@code ending} is that of its name, without the dot. */
    public record File(
            String ending,
            String sha256,
            long size,
            long durationUs,
            long frames,
            long firstUs,
            long fpsNum,
            long fpsDen,
            boolean variableRate,
            String codec,
            int width,
            int height,
            String sampleAspect,
            int rotation,
            boolean interlaced,
            boolean audio) {}

    /** A rectangle of the picture that nothing handed out may show, in display pixels. */
    public record AreaPart(
            int x,
            int y,
            int width,
            int height,
            long fromUs,
            @Nullable Long toUs) {}

    public record CutPart(long fromUs, long toUs, String kind, String state, String evidence, String decidedBy) {}

    public record TaggingPart(
            String annotator,
            String style,
            List<SpanPart> spans,
            List<EventPart> events,
            List<BoundaryPart> confirmed) {}

    public record SpanPart(
            String phase,
            long startUs,
            @Nullable Long endUs,
            @Nullable String operator) {}

    public record EventPart(
            String kind, long atUs, @Nullable String severity, String note) {}

    public record BoundaryPart(String kind, long atUs) {}

    public record CommentPart(
            String id,
            String author,
            String tone,
            String text,
            @Nullable String rubric,
            @Nullable String item,
            long fromUs,
            @Nullable Long toUs,
            List<MarkPart> drawing,
            @Nullable VoicePart voice,
            List<ReplyPart> replies) {}

    /** @param points x and y as shares of the picture */
    public record MarkPart(String kind, String colour, List<List<Double>> points, String words) {}

    /** @param seen as {@link org.sideport.store.VoiceJson} writes it */
    public record VoicePart(String sha256, long lengthUs, JsonNode seen, JsonNode captions) {}

    public record ReplyPart(String id, String author, String text) {}

    public record MeasurementPart(
            String id,
            String author,
            long atUs,
            double displayWidth,
            double displayHeight,
            String shape,
            List<List<Double>> points,
            @Nullable Double widthMm,
            @Nullable Double widthSdMm,
            @Nullable Boolean widthOwn,
            List<ValuePart> values,
            String method,
            List<String> warnings) {}

    public record ValuePart(
            String name,
            String unit,
            double value,
            @Nullable Double se,
            @Nullable Double lower,
            @Nullable Double upper) {}

    /**
     * @param number of the rating within the bundle
     * @param marks as {@link org.sideport.rubric.RatingWriter} writes them
     * @param amends number of the rating that it replaces
     * @param digest see {@link RatingDigest}
     */
    public record RatingPart(
            int number,
            JsonNode marks,
            String state,
            @Nullable String signedAt,
            @Nullable Integer amends,
            @Nullable String reason,
            String digest) {}
}
