package org.sideport.cli.compare;

import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.model.Comment;
import org.sideport.model.Exemplar;
import org.sideport.model.MediaTime;
import org.sideport.model.Voice;
import org.sideport.stats.Interval;
import org.sideport.timing.PublishedDurations;
import org.sideport.timing.TimeMap;
import org.sideport.workflow.Comparison;
import org.sideport.workflow.Comparison.Orientation;
import org.sideport.workflow.Comparison.Row;
import org.sideport.workflow.Comparison.Side;
import org.sideport.workflow.Comparison.Standing;
import org.sideport.workflow.Comparison.Time;

/** Comparisons and exemplars as JSON. */
final class CompareViews {

    private CompareViews() {}

    static Map<String, @Nullable Object> of(Comparison found) {
        return Json.object(
                "procedure", found.procedure().id(),
                "left", side(found.left()),
                "right", side(found.right()),
                "matched", found.aligned().matched(),
                "phases", found.rows().stream().map(CompareViews::row).toList(),
                "totals", found.totals().stream().map(CompareViews::row).toList(),
                "time_map",
                        found.aligned().pieces().stream()
                                .map(CompareViews::piece)
                                .toList(),
                "published_note", found.published().note(),
                "caution", "speed is not competence");
    }

    private static Map<String, @Nullable Object> side(Side side) {
        Exemplar exemplar = side.exemplar();
        return Json.object(
                "case", side.code(),
                "trainee", side.surgicalCase().traineeOrNull(),
                "date",
                        side.surgicalCase().dateOrNull() == null
                                ? null
                                : side.surgicalCase().date().toString(),
                "annotator", side.annotator(),
                "style", side.timing().style().id(),
                "end_us", side.end().micros(),
                "exemplar", exemplar == null ? null : exemplar.title(),
                "narration",
                        side.narration().stream().map(CompareViews::narrated).toList());
    }

    private static Map<String, @Nullable Object> narrated(Comparison.Narrated narrated) {
        Comment comment = narrated.comment();
        MediaTime to = comment.to();
        Voice voice = comment.voice();
        return Json.object(
                "id", comment.id(),
                "author", comment.author(),
                "from_us", comment.from().micros(),
                "to_us", to == null ? null : to.micros(),
                "length_us", voice == null ? null : voice.lengthUs(),
                "text", comment.text());
    }

    private static Map<String, @Nullable Object> row(Row row) {
        Standing standing = row.standing();
        return Json.object(
                "phase", row.id(),
                "left", time(row.left()),
                "right", time(row.right()),
                "difference_us", row.differenceUs(),
                "ratio", row.ratio(),
                "unsure", row.unsure(),
                "exemplars", standing == null ? null : standing(standing),
                "published",
                        row.orientation().stream()
                                .map(CompareViews::orientation)
                                .toList());
    }

    private static @Nullable Map<String, @Nullable Object> time(@Nullable Time time) {
        return time == null ? null : Json.object("us", time.us(), "unsure", time.unsure(), "episodes", time.episodes());
    }

    private static Map<String, @Nullable Object> standing(Standing standing) {
        Interval limits = standing.rank().limits();
        return Json.object(
                "n", standing.n(),
                "shorter", standing.shorter(),
                "longer", standing.longer(),
                "share_below", standing.rank().value(),
                "lower", limits == null ? null : limits.lower(),
                "upper", limits == null ? null : limits.upper(),
                "level", limits == null ? null : limits.level(),
                "warnings", standing.rank().warnings());
    }

    private static Map<String, @Nullable Object> orientation(Orientation one) {
        PublishedDurations.Spread spread = one.row().spread();
        PublishedDurations.Place place = one.place();
        return Json.object(
                "group", one.group().id(),
                "n", one.group().n(),
                "mean_us", Math.round(one.row().meanSeconds() * 1e6),
                "median_us", spread == null ? null : Math.round(spread.median() * 1e6),
                "above_percentile", place == null ? null : place.above(),
                "not_above_percentile", place == null ? null : place.notAbove(),
                "source", one.group().source(),
                "caveat", one.group().caveat());
    }

    private static Map<String, @Nullable Object> piece(TimeMap.Piece piece) {
        return Json.object(
                "kind", piece.kind().name().toLowerCase(Locale.ROOT),
                "phase", piece.label(),
                "left_start_us", piece.leftStartUs(),
                "left_end_us", piece.leftEndUs(),
                "right_start_us", piece.rightStartUs(),
                "right_end_us", piece.rightEndUs());
    }

    static List<Map<String, @Nullable Object>> of(List<Exemplar> exemplars) {
        return exemplars.stream().map(CompareViews::of).toList();
    }

    static Map<String, @Nullable Object> of(Exemplar exemplar) {
        return Json.object(
                "case", exemplar.caseCode(),
                "annotator", exemplar.annotator(),
                "procedure", exemplar.procedure(),
                "title", exemplar.title(),
                "why", exemplar.why(),
                "named_by", exemplar.namedBy(),
                "named_at", exemplar.namedAt().toString(),
                "usual", exemplar.usual());
    }

    /** One exemplar in one line. */
    static String line(Exemplar exemplar) {
        return exemplar.procedure() + (exemplar.usual() ? " * " : "   ") + exemplar.caseCode() + ", tags of "
                + exemplar.annotator() + ": " + exemplar.title()
                + (exemplar.why().isEmpty() ? "" : " (" + exemplar.why() + ")") + "; named by " + exemplar.namedBy();
    }
}
