package org.sideport.store;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jdbi.v3.core.Handle;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

/** All taggings in three queries, for views of a whole unit. */
final class TaggingRows {

    private final Handle handle;

    TaggingRows(Handle handle) {
        this.handle = handle;
    }

    /** By case id, then annotator. */
    Map<Long, Map<String, Tagging>> all() {
        Map<Long, List<PhaseSpan>> spans = spans();
        Map<Long, List<PointEvent>> events = events();
        Map<Long, Map<String, Tagging>> all = new HashMap<>();
        handle.createQuery("select id, case_id, annotator, style from tagging order by annotator")
                .map((row, context) -> {
                    long id = row.getLong(1);
                    all.computeIfAbsent(row.getLong(2), c -> new java.util.LinkedHashMap<>())
                            .put(
                                    row.getString(3),
                                    new Tagging(
                                            TaggingStyle.valueOf(
                                                    row.getString(4).toUpperCase(Locale.ROOT)),
                                            spans.getOrDefault(id, List.of()),
                                            events.getOrDefault(id, List.of())));
                    return id;
                })
                .list();
        return all;
    }

    private Map<Long, List<PhaseSpan>> spans() {
        Map<Long, List<PhaseSpan>> spans = new HashMap<>();
        handle.createQuery("select tagging_id, phase, start_us, end_us, operator from phase_span"
                        + " order by tagging_id, start_us")
                .map((row, context) -> {
                    long end = row.getLong(4);
                    boolean open = row.wasNull();
                    String operator = row.getString(5);
                    return Map.entry(
                            row.getLong(1),
                            new PhaseSpan(
                                    row.getString(2),
                                    MediaTime.ofMicros(row.getLong(3)),
                                    open ? null : MediaTime.ofMicros(end),
                                    operator == null ? null : Operator.parse(operator)));
                })
                .forEach(entry -> spans.computeIfAbsent(entry.getKey(), id -> new ArrayList<>())
                        .add(entry.getValue()));
        return spans;
    }

    private Map<Long, List<PointEvent>> events() {
        Map<Long, List<PointEvent>> events = new HashMap<>();
        handle.createQuery("select tagging_id, kind, at_us, severity, note from point_event"
                        + " order by tagging_id, at_us, id")
                .map((row, context) -> {
                    String severity = row.getString(4);
                    return Map.entry(
                            row.getLong(1),
                            new PointEvent(
                                    row.getString(2),
                                    MediaTime.ofMicros(row.getLong(3)),
                                    severity == null ? null : Severity.parse(severity),
                                    row.getString(5)));
                })
                .forEach(entry -> events.computeIfAbsent(entry.getKey(), id -> new ArrayList<>())
                        .add(entry.getValue()));
        return events;
    }
}
