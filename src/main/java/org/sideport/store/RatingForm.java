package org.sideport.store;

import java.math.BigDecimal;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Rating;
import org.sideport.model.RatingSeal;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import tools.jackson.core.json.JsonFactory;
import tools.jackson.core.json.JsonWriteFeature;
import tools.jackson.databind.json.JsonMapper;

/**
 * The text that is digested when a rating is signed: JSON in the canonical form of RFC 8785 (keys in order, no blanks,
 * UTF-8), so that any program can make it again. It holds whole numbers, texts, true, false and null only; what was counted
 * or measured stands as the exact decimal of its IEEE 754 double. No text is normalised.
 *
 * <p>{@value #RATING}: {@code actions} [text], {@code amends} digest or null, {@code assessor}, {@code blind},
 * {@code case} code, {@code comment}, {@code form}, {@code items} by id [{@code comment}, {@code evidence_us} [µs],
 * {@code item}, {@code not_applicable} or null, {@code points} or null, {@code value} or null], {@code procedure},
 * {@code reason} or null, {@code recordings} [SHA-256], {@code rubric} {{@code id}, {@code sha256} of its text,
 * {@code version}}, {@code self}, {@code signed_at} ISO 8601 UTC, {@code tagging} null or {{@code annotator},
 * {@code sha256}}, {@code trainee}.
 *
 * <p>{@value #TAGGING}: {@code events} by time, kind, severity and note [{@code at_us}, {@code kind}, {@code note},
 * {@code severity} or null], {@code form}, {@code phases} by start [{@code end_us} or null, {@code operator} or null,
 * {@code phase}, {@code start_us}], {@code style}.
 */
final class RatingForm {

    static final String RATING = "sideport-rating-1";
    static final String TAGGING = "sideport-tagging-1";

    private static final JsonMapper JSON = JsonMapper.builder(JsonFactory.builder()
                    .disable(JsonWriteFeature.ESCAPE_FORWARD_SLASHES)
                    .disable(JsonWriteFeature.ESCAPE_NON_ASCII)
                    .disable(JsonWriteFeature.WRITE_HEX_UPPER_CASE)
                    .build())
            .build();

    private RatingForm() {}

    /** Of whom and of what a rating is. */
    record Subject(String caseCode, String trainee, String procedure) {}

    /** @param seal all of it but its digest is used */
    static String rating(
            Subject subject, Rating rating, @Nullable String reason, @Nullable Instant signedAt, RatingSeal seal) {
        Map<String, @Nullable Object> form = new TreeMap<>();
        form.put("form", seal.form());
        form.put("case", subject.caseCode());
        form.put("trainee", subject.trainee());
        form.put("procedure", subject.procedure());
        form.put("assessor", rating.assessor());
        form.put("self", rating.self());
        form.put("blind", rating.blind());
        form.put(
                "rubric",
                object("id", rating.rubric(), "version", rating.rubricVersion(), "sha256", seal.rubricSha256()));
        form.put(
                "items",
                rating.scores().stream()
                        .sorted(Comparator.comparing(ItemScore::item))
                        .map(RatingForm::item)
                        .toList());
        form.put("comment", rating.comment());
        form.put("actions", rating.actions());
        form.put(
                "tagging",
                seal.taggingOf().isEmpty()
                        ? null
                        : object("annotator", seal.taggingOf(), "sha256", seal.taggingSha256()));
        form.put("recordings", seal.recordings());
        form.put("amends", seal.amendsDigest().isEmpty() ? null : seal.amendsDigest());
        form.put("reason", reason);
        form.put("signed_at", signedAt == null ? null : signedAt.toString());
        return JSON.writeValueAsString(form);
    }

    private static Map<String, @Nullable Object> item(ItemScore score) {
        Double value = score instanceof ItemScore.Marked marked ? marked.value() : null;
        return object(
                "item",
                score.item(),
                "points",
                score.pointsOrNull(),
                "not_applicable",
                score instanceof ItemScore.Excused excused ? excused.reason().id() : null,
                "value",
                value == null ? null : exact(value),
                "comment",
                score.comment(),
                "evidence_us",
                score.evidence().stream().map(MediaTime::micros).toList());
    }

    /** All digits of the double, no exponent: what Java's own text of a double is has changed between its versions. */
    private static String exact(double value) {
        BigDecimal exact = new BigDecimal(value);
        return exact.signum() == 0 ? "0" : exact.stripTrailingZeros().toPlainString();
    }

    static String tagging(Tagging tagging) {
        List<Map<String, @Nullable Object>> phases = new ArrayList<>();
        for (PhaseSpan span : tagging.spans()) {
            MediaTime end = span.end();
            Operator operator = span.operator();
            phases.add(object(
                    "phase",
                    span.phase(),
                    "start_us",
                    span.start().micros(),
                    "end_us",
                    end == null ? null : end.micros(),
                    "operator",
                    operator == null ? null : operator.id()));
        }
        List<Map<String, @Nullable Object>> events = new ArrayList<>();
        tagging.events().stream()
                .sorted(Comparator.comparing(PointEvent::at)
                        .thenComparing(PointEvent::kind)
                        .thenComparing(RatingForm::severity)
                        .thenComparing(PointEvent::note))
                .forEach(event -> {
                    String severity = severity(event);
                    events.add(object(
                            "kind",
                            event.kind(),
                            "at_us",
                            event.at().micros(),
                            "severity",
                            severity.isEmpty() ? null : severity,
                            "note",
                            event.note()));
                });
        Map<String, @Nullable Object> form =
                object("form", TAGGING, "style", tagging.style().id(), "phases", phases, "events", events);
        return JSON.writeValueAsString(form);
    }

    private static String severity(PointEvent event) {
        Severity severity = event.severity();
        return severity == null ? "" : severity.id();
    }

    private static Map<String, @Nullable Object> object(@Nullable Object... keysAndValues) {
        Map<String, @Nullable Object> object = new TreeMap<>();
        for (int i = 0; i < keysAndValues.length; i += 2) {
            object.put(Objects.toString(keysAndValues[i]), keysAndValues[i + 1]);
        }
        return object;
    }
}
