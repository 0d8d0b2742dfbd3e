package org.sideport.app.timeline;

import java.util.List;
import java.util.Set;
import org.sideport.app.Formats;
import org.sideport.app.Texts;
import org.sideport.model.MediaTime;

/** What is said of the items: in tooltips, and to a screen reader. */
final class ItemTexts {

    private final TimelineView view;
    private final Texts texts;

    ItemTexts(TimelineView view) {
        this.view = view;
        this.texts = view.texts();
    }

    private static String clock(long us) {
        return Formats.clock(MediaTime.ofMicros(us));
    }

    /** Exact times, length and percentile, one a line. */
    String of(Lane.Span span) {
        StringBuilder text = new StringBuilder(span.name());
        text.append('\n');
        text.append(
                span.open()
                        ? texts.get("timeline.span.open", clock(span.startUs()))
                        : texts.get(
                                "timeline.span",
                                clock(span.startUs()),
                                clock(span.endUs()),
                                clock(span.endUs() - span.startUs())));
        LengthNote note = view.lengthNoteProperty().get();
        String compared = note == null || span.open() ? "" : note.of(span);
        if (!compared.isEmpty()) {
            text.append('\n').append(compared);
        }
        if (span.doubtful()) {
            text.append('\n').append(texts.get("timeline.doubtful"));
        }
        return withNote(text, span.note());
    }

    String of(Lane.Point point) {
        return withNote(new StringBuilder(point.name()).append('\n').append(clock(point.atUs())), point.note());
    }

    private static String withNote(StringBuilder text, String note) {
        return note.isEmpty() ? text.toString() : text.append('\n').append(note).toString();
    }

    String of(Lane.BandPart part) {
        return withNote(new StringBuilder(part.name()), part.note());
    }

    /** The curve's value at a time; empty where it is not known. */
    String of(Lane.Curve curve, long us) {
        int i = (int) ((us - curve.startUs()) / curve.stepUs());
        if (i < 0 || i >= curve.values().size() || Float.isNaN(curve.values().value(i))) {
            return "";
        }
        return texts.get(
                "timeline.curve",
                curve.name(),
                clock(us),
                String.format("%.3g", curve.values().value(i)));
    }

    String border(long us) {
        return texts.get("timeline.border", clock(us));
    }

    String gap(Stretch gap) {
        return texts.get("timeline.gap", clock(gap.startUs()), clock(gap.endUs()));
    }

    String doubt(Stretch doubt) {
        return texts.get("timeline.doubt", clock(doubt.startUs()), clock(doubt.endUs()));
    }

    /** Where the playhead stands, what runs there and what is selected. */
    String spoken() {
        long at = view.playheadProperty().get().micros();
        TimelineIndex index = view.index();
        StringBuilder text = new StringBuilder(clock(at));
        for (int lane = 0; lane < index.layout().size(); lane++) {
            SpanIndex spans = index.spans(lane);
            for (int row = 0; spans != null && row < spans.rowCount(); row++) {
                Lane.Span span = spans.at(at, row, 0);
                if (span != null && at >= span.startUs() && at < span.endUs()) {
                    text.append(", ")
                            .append(index.lane(lane).name())
                            .append(": ")
                            .append(span.name());
                }
            }
        }
        Set<Object> selected = view.selectionProperty().get();
        List<Lane.Span> spans = index.spansOf(selected);
        List<Lane.Point> points = index.pointsOf(selected);
        if (spans.size() + points.size() > 1) {
            text.append(". ").append(texts.get("timeline.selected.several", spans.size() + points.size()));
        } else if (!spans.isEmpty()) {
            text.append(". ")
                    .append(texts.get("timeline.selected.one", of(spans.get(0)).replace("\n", ", ")));
        } else if (!points.isEmpty()) {
            text.append(". ")
                    .append(texts.get("timeline.selected.one", of(points.get(0)).replace("\n", ", ")));
        }
        return text.toString();
    }
}
