package org.sideport.cli;

import java.nio.file.Files;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
import org.sideport.model.CaseChange;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.workflow.CaseOverview;
import org.sideport.workflow.CaseOverview.RatingOverview;

/** Cases as JSON and in short. */
final class CaseViews {

    private CaseViews() {}

    static Map<String, @Nullable Object> of(CaseOverview overview) {
        SurgicalCase one = overview.surgicalCase();
        Recording recording = one.recording();
        return Json.object(
                "case",
                one.code(),
                "trainee",
                one.traineeOrNull(),
                "date",
                one.dateOrNull() == null ? null : one.date().toString(),
                "procedure",
                one.procedure(),
                "descriptors",
                one.descriptors(),
                "duration_us",
                recording == null ? null : recording.duration().micros(),
                "files",
                recording == null
                        ? null
                        : recording.segments().stream()
                                .map(s -> Json.object(
                                        "file", s.file().toString(),
                                        "sha256", s.sha256(),
                                        "size", s.size(),
                                        "duration_us", s.durationUs(),
                                        "frames", s.frames(),
                                        "found", Files.isRegularFile(s.file())))
                                .toList(),
                "consent",
                consent(one.consent()),
                "review_by",
                one.reviewBy() == null ? null : one.reviewBy().toString(),
                "annotators",
                overview.annotators(),
                "ratings",
                overview.ratings().stream().map(CaseViews::rating).toList());
    }

    /** The sheet of a case without its recording. */
    static Map<String, @Nullable Object> sheet(SurgicalCase one) {
        return Json.object(
                "case", one.code(),
                "trainee", one.traineeOrNull(),
                "date", one.dateOrNull() == null ? null : one.date().toString(),
                "procedure", one.procedure(),
                "descriptors", one.descriptors(),
                "duration_us",
                        one.recording() == null
                                ? null
                                : one.recording().duration().micros(),
                "consent", consent(one.consent()),
                "review_by", one.reviewBy() == null ? null : one.reviewBy().toString());
    }

    private static Map<String, @Nullable Object> consent(Consent consent) {
        return Json.object(
                "state",
                consent.state().id(),
                "purposes",
                consent.purposes().stream().map(ConsentPurpose::id).toList(),
                "recorded_by",
                consent.recordedBy().isEmpty() ? null : consent.recordedBy(),
                "recorded_on",
                consent.recordedOn() == null ? null : consent.recordedOn().toString(),
                "warning",
                consent.warning());
    }

    static Map<String, @Nullable Object> change(CaseChange change) {
        return Json.object(
                "at", change.at().toString(),
                "by", change.by(),
                "field", change.field(),
                "before", change.before().isEmpty() ? null : change.before(),
                "after", change.after().isEmpty() ? null : change.after());
    }

    private static Map<String, @Nullable Object> rating(RatingOverview r) {
        return Json.object(
                "id", r.id(),
                "rubric", r.rubric(),
                "version", r.rubricVersion(),
                "assessor", r.assessor(),
                "self", r.self(),
                "blind", r.blind(),
                "state", r.state().id(),
                "signed_at", r.signedAt(),
                "amends", r.amends(),
                "reason", r.reason(),
                "digest", r.digest(),
                "share", r.score().share(),
                "applicable_items", r.score().marked(),
                "complete", r.score().complete(),
                "critical_failures", r.score().criticalFailures());
    }

    /** "A1 82 % (signed)". */
    static String brief(RatingOverview r) {
        return r.assessor() + (r.self() ? " (self)" : "") + " "
                + Words.percent(r.score().share()) + " " + r.state().id();
    }
}
