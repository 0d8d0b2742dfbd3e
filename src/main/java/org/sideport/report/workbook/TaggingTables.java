package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Function;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Severity;
import org.sideport.report.workbook.Column.Kind;
import org.sideport.report.workbook.WorkbookData.CaseTagging;

/** The sheets "Phases" (a row for each span) and "Events" (a row for each event). */
final class TaggingTables {

    record SpanRow(
            CaseTagging of,
            PhaseSpan span,
            Procedure.@Nullable Term term,
            @Nullable MediaTime end) {

        @Nullable
        Long durationUs() {
            return end == null ? null : (Long) (end.micros() - span.start().micros());
        }
    }

    record EventRow(CaseTagging of, PointEvent event, Procedure.@Nullable EventKind kind) {}

    private final WorkbookData data;
    private final Lookup lookup;

    TaggingTables(WorkbookData data, Lookup lookup) {
        this.data = data;
        this.lookup = lookup;
    }

    private <R> Tables<R> start(Function<R, CaseTagging> tagging) {
        return new Tables<R>("store: tags")
                .add(
                        "Case",
                        Kind.TEXT,
                        "code of the case",
                        r -> tagging.apply(r).caseCode())
                .add(
                        "Date",
                        Kind.DATE,
                        "day of the operation",
                        r -> lookup.date(tagging.apply(r).caseCode()))
                .add(
                        "Trainee",
                        Kind.TEXT,
                        "code of the person whose operation it is",
                        r -> lookup.trainee(tagging.apply(r).caseCode()))
                .add(
                        "Annotator",
                        Kind.TEXT,
                        "code of the person who tagged",
                        r -> tagging.apply(r).annotator());
    }

    Table<SpanRow> phases() {
        List<SpanRow> rows = new ArrayList<>();
        for (CaseTagging of : data.taggings()) {
            for (PhaseSpan span : of.tagging().spans()) {
                MediaTime end = span.end() != null ? span.end() : of.recordingEnd();
                boolean known = end != null && end.isAfter(span.start());
                rows.add(new SpanRow(of, span, lookup.term(of.caseCode(), span.phase()), known ? end : null));
            }
        }
        Tables<SpanRow> tables = start(SpanRow::of);
        tables.add(
                        "Style",
                        Kind.TEXT,
                        "starts_only: a phase lasts until the next one, pauses are hidden in it; start_and_end: what"
                                + " lies between phases is idle",
                        r -> r.of().tagging().style().id())
                .add(
                        "Phase",
                        Kind.TEXT,
                        "id of the phase",
                        r -> r.term() == null
                                ? r.span().phase()
                                : r.term().phase().id())
                .add(
                        "Phase name",
                        Kind.TEXT,
                        "its name; blank if no procedure file knows it",
                        r -> r.term() == null ? null : r.term().phase().name())
                .add("Step", Kind.TEXT, "id of the step, if a step of the phase was tagged", r -> step(r, true))
                .add("Step name", Kind.TEXT, "its name", r -> step(r, false))
                .add(
                        "Start (s)",
                        Kind.SECONDS,
                        "from the first frame of the recording",
                        r -> r.span().start().seconds())
                .add(
                        "End (s)",
                        Kind.SECONDS,
                        "likewise; blank if the phase was left open and the end of the recording is not known",
                        r -> r.end() == null ? null : r.end().seconds())
                .add("Duration", Kind.CLOCK, "end less start, h:mm:ss", SpanRow::durationUs)
                .add("Duration (s)", Kind.SECONDS, "the same in seconds", r -> Tables.seconds(r.durationUs()))
                .add("Operator", Kind.TEXT, "trainee, trainer or assisted; blank if not recorded", r -> {
                    Operator operator = r.span().operator();
                    return operator == null ? null : operator.id();
                });
        return tables.table("Phases", "One row for each tagged stretch of a phase or step, by start.", rows);
    }

    private static @Nullable String step(SpanRow row, boolean id) {
        Procedure.Term term = row.term();
        return term == null || !term.isStep() ? null : id ? term.id() : term.name();
    }

    Table<EventRow> events() {
        List<EventRow> rows = new ArrayList<>();
        for (CaseTagging of : data.taggings()) {
            for (PointEvent event : of.tagging().events()) {
                rows.add(new EventRow(of, event, lookup.event(of.caseCode(), event.kind())));
            }
        }
        Tables<EventRow> tables = start(EventRow::of);
        tables.add("Event", Kind.TEXT, "id of the kind of event", r -> r.event().kind())
                .add(
                        "Event name",
                        Kind.TEXT,
                        "its name; blank if no procedure file knows it",
                        r -> r.kind() == null ? null : r.kind().name())
                .add(
                        "Complication",
                        Kind.TEXT,
                        "yes if the procedure file counts it as one; blank if it does not know the event",
                        r -> r.kind() == null ? null : r.kind().complication())
                .add(
                        "Time",
                        Kind.CLOCK,
                        "from the first frame of the recording, h:mm:ss",
                        r -> r.event().at().micros())
                .add(
                        "Time (s)",
                        Kind.SECONDS,
                        "the same in seconds",
                        r -> r.event().at().seconds())
                .add("Severity", Kind.TEXT, "minor, moderate or major in the eyes of the annotator", r -> {
                    Severity severity = r.event().severity();
                    return severity == null ? null : severity.id();
                })
                .add("Note", Kind.PROSE, "the annotator's note", r -> r.event().note());
        return tables.table("Events", "One row for each complication or notable moment.", rows);
    }
}
