package org.sideport.cli;

import java.nio.file.Files;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.cli.console.Json;
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
                one.trainee(),
                "date",
                one.date().toString(),
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
                "annotators",
                overview.annotators(),
                "ratings",
                overview.ratings().stream().map(CaseViews::rating).toList());
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
