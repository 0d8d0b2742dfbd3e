package org.sideport.store;

import java.time.Instant;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.timing.Boundary;

/** Taggings: one for each case and annotator. */
public final class TaggingStore {

    private final Handle handle;

    TaggingStore(Handle handle) {
        this.handle = handle;
    }

    /** Who tagged what. */
    public record Key(String caseCode, String annotator) {}

    /** Codes of the annotators of a case, alphabetical. */
    public List<String> annotators(String caseCode) {
        return handle.createQuery("select annotator from tagging where case_id = :id order by annotator")
                .bind("id", CaseKey.of(handle, caseCode))
                .mapTo(String.class)
                .list();
    }

    /** All taggings by case date, code and annotator. */
    public List<Key> all() {
        return handle.createQuery("select c.code, t.annotator from tagging t join surgical_case c on c.id = t.case_id"
                        + " order by c.operated_on, c.code, t.annotator")
                .map((row, context) -> new Key(row.getString("code"), row.getString("annotator")))
                .list();
    }

    /** Those that hold at least one phase, by case date, code and annotator. */
    public List<Key> withPhases() {
        return handle.createQuery("select c.code, t.annotator from tagging t join surgical_case c on c.id = t.case_id"
                        + " where exists (select 1 from phase_span p where p.tagging_id = t.id)"
                        + " order by c.operated_on, c.code, t.annotator")
                .map((row, context) -> new Key(row.getString("code"), row.getString("annotator")))
                .list();
    }

    public Optional<Tagging> find(String caseCode, String annotator) {
        record Head(long id, TaggingStyle style) {}
        return handle.createQuery("select id, style from tagging where case_id = :id and annotator = :annotator")
                .bind("id", CaseKey.of(handle, caseCode))
                .bind("annotator", annotator)
                .map((row, context) -> new Head(
                        row.getLong("id"),
                        TaggingStyle.valueOf(row.getString("style").toUpperCase(Locale.ROOT))))
                .findOne()
                .map(head -> new Tagging(head.style(), spans(head.id()), events(head.id())));
    }

    /** Which boundaries of the tagging are confirmed; none where there is no tagging. */
    public Set<Boundary> confirmed(String caseCode, String annotator) {
        return Set.copyOf(handle.createQuery("select b.kind, b.at_us from confirmed_boundary b"
                        + " join tagging t on t.id = b.tagging_id where t.case_id = :id and t.annotator = :annotator")
                .bind("id", CaseKey.of(handle, caseCode))
                .bind("annotator", annotator)
                .map((row, context) -> new Boundary(
                        Boundary.Kind.valueOf(row.getString("kind").toUpperCase(Locale.ROOT)),
                        MediaTime.ofMicros(row.getLong("at_us"))))
                .list());
    }

    /** Puts the tagging in the place of what this annotator had for the case, with nothing of it confirmed. */
    public void save(String caseCode, String annotator, Tagging tagging) {
        save(caseCode, annotator, tagging, Set.of(), null);
    }

    /**
     * As {@link #save(String, String, Tagging)}.
     *
     * @param confirmed boundaries of the tagging; what it does not have is left out
     * @param seen what the caller knows to be stored, empty if nothing; {@code null} to replace whatever is there
     * @throws ConflictException if something else is stored by now; nothing is changed then
     */
    public void save(
            String caseCode, String annotator, Tagging tagging, Set<Boundary> confirmed, @Nullable Tagging seen) {
        long caseId = CaseKey.of(handle, caseCode);
        long id = handle.createQuery("insert into tagging (case_id, annotator, style, changed_at)"
                        + " values (:caseId, :annotator, :style, :now) on conflict (case_id, annotator)"
                        + " do update set style = excluded.style, changed_at = :now returning id")
                .bind("caseId", caseId)
                .bind("annotator", annotator)
                .bind("style", tagging.style().id())
                .bind("now", Instant.now().toString())
                .mapTo(Long.class)
                .one();
        // the row is locked from here on, so that what is compared is what is replaced
        if (seen != null && !(spans(id).equals(seen.spans()) && events(id).equals(seen.events()))) {
            throw new ConflictException(
                    "the tags of " + caseCode + " by " + annotator + " were changed in another window meanwhile",
                    "open the case again: it shows the others' edits; then repeat your last one");
        }
        handle.execute("delete from phase_span where tagging_id = ?", id);
        handle.execute("delete from point_event where tagging_id = ?", id);
        var spans = handle.prepareBatch(
                "insert into phase_span (tagging_id, phase, start_us, end_us, operator)" + " values (?, ?, ?, ?, ?)");
        for (PhaseSpan span : tagging.spans()) {
            MediaTime end = span.end();
            Operator operator = span.operator();
            spans.add(
                    id,
                    span.phase(),
                    span.start().micros(),
                    end == null ? null : (Object) end.micros(),
                    operator == null ? null : operator.id());
        }
        if (spans.size() > 0) {
            spans.execute();
        }
        handle.execute("delete from confirmed_boundary where tagging_id = ?", id);
        var boundaries =
                handle.prepareBatch("insert into confirmed_boundary (tagging_id, kind, at_us) values (?, ?, ?)");
        for (Boundary boundary : Boundary.kept(confirmed, tagging)) {
            boundaries.add(id, boundary.kind().id(), boundary.at().micros());
        }
        if (boundaries.size() > 0) {
            boundaries.execute();
        }
        for (PointEvent event : tagging.events()) {
            Severity severity = event.severity();
            handle.execute(
                    "insert into point_event (tagging_id, kind, at_us, severity, note) values (?, ?, ?, ?, ?)",
                    id,
                    event.kind(),
                    event.at().micros(),
                    severity == null ? null : severity.id(),
                    event.note());
        }
    }

    private List<PhaseSpan> spans(long id) {
        return handle.createQuery(
                        "select phase, start_us, end_us, operator from phase_span where tagging_id = :id order by"
                                + " start_us")
                .bind("id", id)
                .map((row, context) -> new PhaseSpan(
                        row.getString("phase"),
                        MediaTime.ofMicros(row.getLong("start_us")),
                        row.getObject("end_us") == null ? null : MediaTime.ofMicros(row.getLong("end_us")),
                        operator(row.getString("operator"))))
                .list();
    }

    private static @Nullable Operator operator(@Nullable String stored) {
        return stored == null ? null : Operator.parse(stored);
    }

    private List<PointEvent> events(long id) {
        return handle.createQuery(
                        "select kind, at_us, severity, note from point_event where tagging_id = :id order by at_us, id")
                .bind("id", id)
                .map((row, context) -> new PointEvent(
                        row.getString("kind"),
                        MediaTime.ofMicros(row.getLong("at_us")),
                        severity(row.getString("severity")),
                        row.getString("note")))
                .list();
    }

    private static @Nullable Severity severity(@Nullable String stored) {
        return stored == null ? null : Severity.parse(stored);
    }
}
