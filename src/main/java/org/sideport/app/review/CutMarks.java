package org.sideport.app.review;

import java.util.List;
import org.sideport.app.timeline.Lane;
import org.sideport.app.timeline.Stretch;
import org.sideport.model.Cut;
import org.sideport.model.CutState;
import org.sideport.model.MediaTime;

/** What the known cuts of a recording change in its timeline: spans across an accepted one are drawn as doubtful. */
record CutMarks(List<Cut> cuts) {

    CutMarks {
        cuts = cuts.stream().filter(cut -> cut.state() != CutState.DISMISSED).toList();
    }

    /** Where boundaries may snap to. */
    List<Long> places() {
        return cuts.stream().map(cut -> cut.to().micros()).toList();
    }

    /** Accepted cuts that have a length. */
    List<Stretch> stretches() {
        return cuts.stream()
                .filter(cut -> cut.state() == CutState.ACCEPTED && cut.from().isBefore(cut.to()))
                .map(cut -> new Stretch(cut.from().micros(), cut.to().micros()))
                .toList();
    }

    Lane on(Lane lane) {
        return lane instanceof Lane.Spans spans
                ? new Lane.Spans(
                        spans.id(),
                        spans.name(),
                        spans.editable(),
                        spans.idleHatched(),
                        spans.spans().stream().map(this::on).toList())
                : lane;
    }

    private Lane.Span on(Lane.Span span) {
        boolean unsure = cuts.stream()
                .anyMatch(cut -> cut.state() == CutState.ACCEPTED
                        && cut.isInside(MediaTime.ofMicros(span.startUs()), MediaTime.ofMicros(span.endUs())));
        return unsure
                ? new Lane.Span(
                        span.key(),
                        span.startUs(),
                        span.endUs(),
                        span.open(),
                        true,
                        span.shortName(),
                        span.name(),
                        span.tint(),
                        span.note())
                : span;
    }
}
