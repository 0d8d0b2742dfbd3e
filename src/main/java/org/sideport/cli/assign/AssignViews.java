package org.sideport.cli.assign;

import java.time.LocalDate;
import java.util.Locale;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.model.AgreedMark;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;
import org.sideport.rubric.Score;
import org.sideport.stats.Estimate;
import org.sideport.workflow.assign.MarkGap;

/** Assignments, gaps and agreed marks as JSON and in short. */
final class AssignViews {

    private AssignViews() {}

    /** @param code what the reader may call the case */
    static Map<String, @Nullable Object> of(Assignment one, String code, LocalDate today) {
        LocalDate due = one.dueOn();
        return Json.object(
                "id", one.id(),
                "case", code,
                "assessor", one.assessor(),
                "purpose", one.purpose().id(),
                "label", one.isBlinded() ? one.label() : null,
                "hidden",
                        java.util.Arrays.stream(Hidden.values())
                                .filter(one::hides)
                                .map(Hidden::id)
                                .toList(),
                "state", one.state().id(),
                "due", due == null ? null : due.toString(),
                "late", one.isLate(today),
                "assigned_by", one.assignedBy().isEmpty() ? null : one.assignedBy(),
                "assigned_at", one.assignedAt().toString(),
                "done_at", one.doneAt() == null ? null : one.doneAt().toString());
    }

    static Map<String, @Nullable Object> of(MarkGap.ItemGap item, String first, String second) {
        return Json.object(
                "item",
                item.item(),
                first,
                item.first(),
                second,
                item.second(),
                "gap",
                item.gap(),
                "levels",
                item.levels());
    }

    static Map<String, @Nullable Object> of(AgreedMark mark, Score score, @Nullable String standing) {
        return Json.object(
                "id", mark.id(),
                "case", mark.caseCode(),
                "rubric", mark.rubric(),
                "version", mark.rubricVersion(),
                "purpose", mark.purpose().id(),
                "stands", standing,
                "agreed_by", mark.agreedBy(),
                "reason", mark.reason(),
                "agreed_at", mark.agreedAt().toString(),
                "share", score.share(),
                "applicable_items", score.marked());
    }

    static @Nullable Map<String, @Nullable Object> of(@Nullable Estimate estimate) {
        if (estimate == null) {
            return null;
        }
        var limits = estimate.limits();
        return Json.object(
                "estimate",
                estimate.value(),
                "se",
                estimate.se(),
                "lower",
                limits == null ? null : limits.lower(),
                "upper",
                limits == null ? null : limits.upper(),
                "level",
                limits == null ? null : limits.level(),
                "n",
                estimate.n());
    }

    /** "+0.12 (0.03 to 0.21, n 12)". */
    static String text(Estimate estimate) {
        var limits = estimate.limits();
        return signed(estimate.value())
                + (limits == null ? "" : " (" + signed(limits.lower()) + " to " + signed(limits.upper()) + ", ")
                + (limits == null ? " (" : "") + "n " + estimate.n() + ")";
    }

    static String signed(@Nullable Double value) {
        return value == null ? "–" : String.format(Locale.ROOT, "%+.3f", value).replace('-', '−');
    }

    static String points(@Nullable Integer points) {
        return points == null ? "–" : points.toString();
    }
}
