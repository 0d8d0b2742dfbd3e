package org.sideport.timing;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Procedure;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

/**
 * Reads tagging CSV files: {@code case,annotator,phase,start,end,operator} or {@code case,annotator,event,at,severity,note}.
 * Times are seconds or h:mm:ss.sss. An empty end means: until the next start, or the end of the recording (the
 * starts-only style). Case codes are the same however they are written in capitals and small letters.
 */
public final class TagCsvReader {

    private static final Set<String> OWN_COLUMNS =
            Set.of("case", "annotator", "phase", "start", "end", "operator", "event", "at", "severity", "note");

    private final @Nullable Procedure procedure;

    /** @param procedure the vocabulary that names must belong to, or {@code null} to take any */
    public TagCsvReader(@Nullable Procedure procedure) {
        this.procedure = procedure;
    }

    /**
     * @throws InputException naming file, line and remedy at the first fault
     */
    public TagTable read(Path file) {
        CsvTable table = CsvTable.read(file);
        require(table, "case");
        if (table.has("phase")) {
            require(table, "start");
            return new TagTable(TagTable.Kind.PHASES, entries(table, true));
        }
        if (table.has("event")) {
            require(table, "at");
            return new TagTable(TagTable.Kind.EVENTS, entries(table, false));
        }
        throw new InputException(
                "there is neither a column phase nor a column event",
                file + ", line 1",
                "the first row is case,annotator,phase,start,end,operator or case,annotator,event,at,severity,note");
    }

    private static void require(CsvTable table, String column) {
        if (!table.has(column)) {
            throw new InputException(
                    "there is no column " + column, table.file() + ", line 1", "name it in the first row");
        }
    }

    private record Who(String caseCode, @Nullable String annotator) {}

    private record At<T>(T value, CsvTable.Row row) {}

    private List<TagTable.Entry> entries(CsvTable table, boolean phases) {
        Map<Who, List<CsvTable.Row>> byWho = new LinkedHashMap<>();
        Map<String, String> firstWritten = new HashMap<>();
        for (CsvTable.Row row : table.rows()) {
            String written = row.required("case");
            String code = firstWritten.computeIfAbsent(written.toLowerCase(Locale.ROOT), lower -> written);
            byWho.computeIfAbsent(new Who(code, row.orNull("annotator")), w -> new ArrayList<>())
                    .add(row);
        }
        List<TagTable.Entry> entries = new ArrayList<>();
        byWho.forEach((who, rows) -> entries.add(phases ? phaseEntry(who, rows) : eventEntry(who, rows)));
        return entries;
    }

    private TagTable.Entry eventEntry(Who who, List<CsvTable.Row> rows) {
        List<At<PointEvent>> events = new ArrayList<>();
        for (CsvTable.Row row : rows) {
            String severity = row.orNull("severity");
            events.add(new At<>(
                    new PointEvent(
                            eventId(row),
                            time(row, "at"),
                            severity == null ? null : atRow(row, () -> Severity.parse(severity)),
                            row.text("note")),
                    row));
        }
        events.sort(Comparator.comparing(e -> e.value().at()));
        Tagging tagging =
                Tagging.EMPTY.withEvents(events.stream().map(At::value).toList());
        return entry(
                who, rows, tagging, events.stream().map(e -> e.row().line()).toList());
    }

    private String eventId(CsvTable.Row row) {
        String name = row.required("event");
        if (procedure == null) {
            return name;
        }
        return procedure
                .findEvent(name)
                .map(Procedure.EventKind::id)
                .orElseThrow(() -> row.fault(
                        "unknown event \"" + name + "\"",
                        "known are: "
                                + String.join(
                                        ", ",
                                        procedure.events().stream()
                                                .map(Procedure.EventKind::id)
                                                .toList())));
    }

    private record Raw(
            String phase,
            MediaTime start,
            @Nullable MediaTime end,
            @Nullable Operator operator) {}

    private TagTable.Entry phaseEntry(Who who, List<CsvTable.Row> rows) {
        List<At<Raw>> raws = new ArrayList<>();
        boolean endsGiven = false;
        for (CsvTable.Row row : rows) {
            String operator = row.orNull("operator");
            MediaTime start = time(row, "start");
            MediaTime end = row.orNull("end") == null ? null : time(row, "end");
            if (end != null && !start.isBefore(end)) {
                throw row.fault(
                        "the end (" + end.toSecondsText() + " s) is not after the start (" + start.toSecondsText()
                                + " s)",
                        "correct one of them");
            }
            endsGiven |= end != null;
            raws.add(new At<>(
                    new Raw(
                            phaseId(row),
                            start,
                            end,
                            operator == null ? null : atRow(row, () -> Operator.parse(operator))),
                    row));
        }
        raws.sort(Comparator.comparing(r -> r.value().start()));
        List<PhaseSpan> spans = new ArrayList<>();
        for (int i = 0; i < raws.size(); i++) {
            Raw raw = raws.get(i).value();
            At<Raw> next = i + 1 < raws.size() ? raws.get(i + 1) : null;
            MediaTime end = raw.end();
            if (next != null) {
                MediaTime limit = next.value().start();
                if (end == null) {
                    end = limit;
                }
                if (end.isAfter(limit) || !raw.start().isBefore(limit)) {
                    throw next.row()
                            .fault(
                                    next.value().phase() + " starts at " + limit.toSecondsText() + " s, while "
                                            + raw.phase() + " (line "
                                            + raws.get(i).row().line() + ") runs from "
                                            + raw.start().toSecondsText() + " s to " + end.toSecondsText() + " s",
                                    "phases of one annotator must not overlap: end the first where the second starts");
                }
            }
            spans.add(new PhaseSpan(raw.phase(), raw.start(), end, raw.operator()));
        }
        boolean startsOnly = raws.stream()
                .limit(Math.max(1, raws.size() - 1))
                .noneMatch(r -> r.value().end() != null);
        TaggingStyle style =
                startsOnly && (raws.size() > 1 || !endsGiven) ? TaggingStyle.STARTS_ONLY : TaggingStyle.START_AND_END;
        Tagging tagging = new Tagging(style, spans, List.of());
        return entry(who, rows, tagging, raws.stream().map(r -> r.row().line()).toList());
    }

    private String phaseId(CsvTable.Row row) {
        String name = row.required("phase");
        if (procedure == null) {
            return name;
        }
        return procedure
                .find(name)
                .map(Procedure.Term::id)
                .orElseThrow(() -> row.fault(
                        "unknown phase \"" + name + "\"",
                        "known are: "
                                + String.join(
                                        ", ",
                                        procedure.terms().stream()
                                                .map(Procedure.Term::id)
                                                .toList())));
    }

    private static MediaTime time(CsvTable.Row row, String column) {
        String text = row.required(column);
        return atRow(row, () -> MediaTime.parse(text));
    }

    private static <T> T atRow(CsvTable.Row row, java.util.function.Supplier<T> parse) {
        try {
            return parse.get();
        } catch (InputException e) {
            throw e.at(row.place());
        }
    }

    private static TagTable.Entry entry(Who who, List<CsvTable.Row> rows, Tagging tagging, List<Integer> lines) {
        Map<String, String> groups = new LinkedHashMap<>(rows.get(0).cells());
        groups.keySet().removeAll(OWN_COLUMNS);
        return new TagTable.Entry(who.caseCode(), who.annotator(), rows.get(0).line(), tagging, lines, groups);
    }
}
