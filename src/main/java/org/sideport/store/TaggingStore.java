package org.sideport.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;
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
    private final Veil veil;

    TaggingStore(Handle handle, Veil veil) {
        this.handle = handle;
        this.veil = veil;
    }

    /** Who tagged what. */
    public record Key(String caseCode, String annotator) {}

    /**
     * Codes of the annotators of a case, alphabetical. Of a case that is marked blind all but its assessor have a number
     * instead, which {@link #find} understands.
     */
    public List<String> annotators(String caseCode) {
        List<String> codes = annotators(veil.caseId(caseCode));
        return veil.through(caseCode)
                .map(a -> Veil.taggers(a, codes).values().stream().sorted().toList())
                .orElse(codes);
    }

    private List<String> annotators(long caseId) {
        return handle.createQuery("select annotator from tagging where case_id = :id order by annotator")
                .bind("id", caseId)
                .mapTo(String.class)
                .list();
    }

    /** From what an annotator is called to the caller to the code. */
    private String annotator(String caseCode, String called) {
        Assignment through = veil.through(caseCode).orElse(null);
        if (through == null || called.equals(through.assessor())) {
            return called;
        }
        return Veil.taggers(through, annotators(veil.caseId(caseCode))).entrySet().stream()
                .filter(name -> name.getValue().equals(called))
                .map(Map.Entry::getKey)
                .findFirst()
                // the code of somebody else is unknown here, not empty by chance
                .orElse("");
    }

    private List<Key> keys(CaseReach reach, String further) {
        record Row(long caseId, String code, String annotator) {}
        List<Key> keys = new ArrayList<>();
        List<Key> veiled = new ArrayList<>();
        Map<Long, Map<String, String>> names = new HashMap<>();
        reach.bind(handle.createQuery("select c.id, c.code, t.annotator from tagging t join surgical_case c on c.id ="
                        + " t.case_id where " + reach.condition() + further
                        + " order by c.operated_on, c.code, t.annotator"))
                .map((row, context) -> new Row(row.getLong("id"), row.getString("code"), row.getString("annotator")))
                .forEach(row -> {
                    Assignment hiding = veil.over(row.caseId());
                    if (hiding == null) {
                        keys.add(new Key(row.code(), row.annotator()));
                    } else {
                        veiled.add(new Key(
                                hiding.label(),
                                names.computeIfAbsent(row.caseId(), id -> Veil.taggers(hiding, annotators(id)))
                                        .getOrDefault(row.annotator(), "")));
                    }
                });
        veiled.sort(Comparator.comparing(Key::caseCode).thenComparing(Key::annotator));
        keys.addAll(veiled);
        return keys;
    }

    /** All taggings by case date, code and annotator. */
    public List<Key> all() {
        return all(CaseReach.ALL);
    }

    /** As {@link #all()}, of the cases that are reached. */
    public List<Key> all(CaseReach reach) {
        return keys(reach, "");
    }

    /** Those that hold at least one phase, by case date, code and annotator. */
    public List<Key> withPhases() {
        return keys(CaseReach.ALL, " and exists (select 1 from phase_span p where p.tagging_id = t.id)");
    }

    /**
     * Every tagging of the cases that are reached, by case, then annotator, both as the caller may know them: for views of a
     * whole unit.
     */
    public Map<String, Map<String, Tagging>> byCase(CaseReach reach) {
        Map<Long, Map<String, Tagging>> all = new TaggingRows(handle).all();
        Map<String, Map<String, Tagging>> byCase = new LinkedHashMap<>();
        record Row(long id, String code) {}
        reach.bind(handle.createQuery("select c.id, c.code from surgical_case c where " + reach.condition()
                        + " order by c.operated_on, c.code"))
                .map((row, context) -> new Row(row.getLong(1), row.getString(2)))
                .forEach(row -> {
                    Map<String, Tagging> of = all.get(row.id());
                    if (of != null) {
                        Assignment hiding = veil.over(row.id());
                        byCase.put(
                                hiding == null ? row.code() : hiding.label(), hiding == null ? of : veiled(of, hiding));
                    }
                });
        return byCase;
    }

    private static Map<String, Tagging> veiled(Map<String, Tagging> of, Assignment hiding) {
        Map<String, String> names =
                Veil.taggers(hiding, of.keySet().stream().sorted().toList());
        Map<String, Tagging> veiled = new LinkedHashMap<>();
        of.forEach((annotator, tagging) -> veiled.put(
                names.getOrDefault(annotator, ""),
                hiding.hides(Hidden.COMPLICATIONS) && !annotator.equals(hiding.assessor())
                        ? new Tagging(tagging.style(), tagging.spans(), List.of())
                        : tagging));
        return veiled;
    }

    public Optional<Tagging> find(String caseCode, String annotator) {
        record Head(long id, TaggingStyle style) {}
        boolean noEvents = veil.through(caseCode)
                .filter(a -> a.hides(Hidden.COMPLICATIONS) && !a.assessor().equals(annotator))
                .isPresent();
        return handle.createQuery("select id, style from tagging where case_id = :id and annotator = :annotator")
                .bind("id", veil.caseId(caseCode))
                .bind("annotator", annotator(caseCode, annotator))
                .map((row, context) -> new Head(
                        row.getLong("id"),
                        TaggingStyle.valueOf(row.getString("style").toUpperCase(Locale.ROOT))))
                .findOne()
                .map(head -> new Tagging(head.style(), spans(head.id()), noEvents ? List.of() : events(head.id())));
    }

    /** Which boundaries of the tagging are confirmed; none where there is no tagging. */
    public Set<Boundary> confirmed(String caseCode, String annotator) {
        return Set.copyOf(handle.createQuery("select b.kind, b.at_us from confirmed_boundary b"
                        + " join tagging t on t.id = b.tagging_id where t.case_id = :id and t.annotator = :annotator")
                .bind("id", veil.caseId(caseCode))
                .bind("annotator", annotator(caseCode, annotator))
                .map((row, context) -> new Boundary(
                        Boundary.Kind.valueOf(row.getString("kind").toUpperCase(Locale.ROOT)),
                        MediaTime.ofMicros(row.getLong("at_us"))))
                .list());
    }

    /** Puts the tagging in the place of what this annotator had for the case, with nothing of it confirmed. */
    public void save(String caseCode, String annotator, Tagging tagging) {
        save(caseCode, annotator, tagging, Set.of(), Set.of());
    }

    /**
     * As {@link #save(String, String, Tagging)}.
     *
     * @param confirmed boundaries of the tagging; what it does not have is left out
     * @param seen what the caller knows to be stored, in one of these forms, the empty tagging for nothing; no form at all to
     *     replace whatever is there
     * @throws ConflictException if something else is stored by now; nothing is changed then
     */
    public void save(String caseCode, String annotator, Tagging tagging, Set<Boundary> confirmed, Set<Tagging> seen) {
        veil.requireAssessor(caseCode, annotator);
        long caseId = veil.caseId(caseCode);
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
        if (!seen.isEmpty() && !isOneOf(seen, spans(id), events(id))) {
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

    private static boolean isOneOf(Set<Tagging> seen, List<PhaseSpan> spans, List<PointEvent> events) {
        return seen.stream()
                .anyMatch(one -> one.spans().equals(spans) && one.events().equals(events));
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
