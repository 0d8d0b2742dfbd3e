package org.sideport.store;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.CaseChange;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.InputException;
import org.sideport.model.MaskArea;
import org.sideport.model.Plural;
import org.sideport.model.Recording;
import org.sideport.model.Segment;
import org.sideport.model.SurgicalCase;

/** Cases with their descriptors and recordings. */
public final class CaseStore {

    private final Handle handle;
    private final SegmentRows segments;
    private final Veil veil;
    private final AuditStore audit;

    CaseStore(Handle handle, Veil veil, AuditStore audit) {
        this.handle = handle;
        this.veil = veil;
        this.audit = audit;
        this.segments = new SegmentRows(handle, veil.dir());
    }

    /**
     * @throws InputException if the code is taken
     */
    public void add(SurgicalCase added) {
        if (exists(added.code())) {
            throw new InputException(
                    "there is a case " + added.code() + " already", null, "give this one a code of its own");
        }
        addNew(added);
    }

    private void addNew(SurgicalCase added) {
        Consent consent = added.consent();
        long id = handle.createUpdate("insert into surgical_case (code, trainee, operated_on, procedure_id, consent,"
                        + " consent_purposes, consent_by, consent_on, review_by, added_by) values (:code, :trainee, :date,"
                        + " :procedure, :consent, :purposes, :by, :on, :review, :addedBy)")
                .bind("code", added.code())
                .bind("trainee", added.trainee())
                .bind("date", added.date().toString())
                .bind("procedure", added.procedure())
                .bind("consent", consent.state().id())
                .bind("purposes", consent.purposesText())
                .bind("by", consent.recordedBy())
                .bind("on", text(consent.recordedOn()))
                .bind("review", text(added.reviewBy()))
                .bind("addedBy", veil.caller().code())
                .executeAndReturnGeneratedKeys("id")
                .mapTo(Long.class)
                .one();
        insertDescriptors(id, added.descriptors());
        Recording recording = added.recording();
        if (recording != null) {
            segments.insert(id, recording.segments());
        }
        audit.add(
                "case.add",
                added.code(),
                "",
                added.procedure() + ", "
                        + Plural.of(recording == null ? 0 : recording.segments().size(), "file") + ", consent "
                        + consent.state().id());
    }

    private void insertDescriptors(long id, Map<String, String> descriptors) {
        if (descriptors.isEmpty()) {
            return;
        }
        PreparedBatch batch =
                handle.prepareBatch("insert into case_descriptor (case_id, name, value) values (?, ?, ?)");
        descriptors.forEach((name, value) -> batch.add(id, name, value));
        batch.execute();
    }

    private static @Nullable String text(@Nullable LocalDate day) {
        return day == null ? null : day.toString();
    }

    /**
     * Puts another sheet in the place of a case's; its code and its recording stay.
     *
     * @param changes what is different, for the history
     * @throws InputException if there is no such case
     */
    public void update(SurgicalCase changed, List<CaseChange> changes) {
        if (veil.through(changed.code()).isPresent()) {
            throw new InputException(
                    changed.code() + " is marked blind: what is hidden cannot be changed",
                    null,
                    "let somebody who is not blinded change it");
        }
        long id = veil.evenWithdrawn(changed.code());
        Consent consent = changed.consent();
        auditUpdate(changed, changes);
        handle.createUpdate("update surgical_case set trainee = :trainee, operated_on = :date, consent = :consent,"
                        + " consent_purposes = :purposes, consent_by = :by, consent_on = :on, review_by = :review"
                        + " where id = :id")
                .bind("trainee", changed.trainee())
                .bind("date", changed.date().toString())
                .bind("consent", consent.state().id())
                .bind("purposes", consent.purposesText())
                .bind("by", consent.recordedBy())
                .bind("on", text(consent.recordedOn()))
                .bind("review", text(changed.reviewBy()))
                .bind("id", id)
                .execute();
        handle.execute("delete from case_descriptor where case_id = ?", id);
        insertDescriptors(id, changed.descriptors());
        for (CaseChange change : changes) {
            handle.execute(
                    "insert into case_change (case_id, changed_at, changed_by, field, before, after)"
                            + " values (?, ?, ?, ?, ?, ?)",
                    id,
                    change.at().toString(),
                    change.by(),
                    change.field(),
                    change.before(),
                    change.after());
        }
    }

    /** Which fields were changed; what they were stands in the history of the case. */
    private void auditUpdate(SurgicalCase changed, List<CaseChange> changes) {
        String before = ofCase("consent", changed.code());
        String after = changed.consent().state().id();
        List<String> fields = changes.stream().map(CaseChange::field).toList();
        String by = changes.isEmpty() ? "" : changes.get(0).by();
        if (!before.equals(after) || fields.contains("consent")) {
            audit.add("case.consent", changed.code(), before, after + " by " + by);
        }
        List<String> others = fields.stream().filter(f -> !f.equals("consent")).toList();
        if (!others.isEmpty()) {
            audit.add("case.edit", changed.code(), "", String.join(", ", others) + " by " + by);
        }
    }

    /** The changes of a case's sheet, oldest first; none of a case that is marked blind. */
    public List<CaseChange> history(String code) {
        if (veil.through(code).isPresent()) {
            return List.of();
        }
        return handle.createQuery("select changed_at, changed_by, field, before, after from case_change"
                        + " where case_id = :id order by id")
                .bind("id", veil.caseId(code))
                .map((row, context) -> new CaseChange(
                        Instant.parse(row.getString("changed_at")),
                        row.getString("changed_by"),
                        row.getString("field"),
                        row.getString("before"),
                        row.getString("after")))
                .list();
    }

    public boolean exists(String code) {
        return handle.createQuery("select (select count(*) from surgical_case where code = :code)"
                                + " + (select count(*) from assignment where label = :code)")
                        .bind("code", code)
                        .mapTo(Integer.class)
                        .one()
                > 0;
    }

    /**
     * @throws InputException if there is no such case, or its consent was withdrawn
     */
    public SurgicalCase get(String code) {
        long id = veil.caseId(code);
        return find(id, code);
    }

    /** Empty also where consent was withdrawn. */
    public Optional<SurgicalCase> find(String code) {
        return veil.find(code).filter(id -> !veil.isWithdrawn(id)).map(id -> find(id, code));
    }

    private SurgicalCase find(long id, String code) {
        return load(CaseReach.ALL, " and c.id = " + id, id, veil.through(code).orElse(null))
                .get(0);
    }

    /**
     * Also where consent was withdrawn: for deleting only.
     *
     * @throws InputException if there is no such case
     */
    public SurgicalCase evenWithdrawn(String code) {
        long id = veil.evenWithdrawn(code);
        return load(CaseReach.EVEN_WITHDRAWN, " and c.id = " + id, id, null).get(0);
    }

    /** Cases whose consent was withdrawn and that wait to be deleted, by date, then code. */
    public List<SurgicalCase> withdrawn() {
        return load(CaseReach.EVEN_WITHDRAWN, " and c.consent = 'withdrawn'", null, null);
    }

    /** Cases that had to be looked at again by this day or before, longest overdue first. */
    public List<SurgicalCase> reviewDue(LocalDate today) {
        return load(CaseReach.ALL, " and c.review_by <= '" + today + "'", null, null).stream()
                .sorted(Comparator.comparing(
                        SurgicalCase::reviewBy, Comparator.nullsLast(Comparator.<LocalDate>naturalOrder())))
                .toList();
    }

    /**
     * Whose case it is.
     *
     * @throws InputException if there is no such case
     */
    public String trainee(String code) {
        return ofCase("trainee", code);
    }

    /**
     * Who took the case in; empty for cases of before, and where nobody signs in.
     *
     * @throws InputException if there is no such case
     */
    public String addedBy(String code) {
        return ofCase("added_by", code);
    }

    private String ofCase(String column, String code) {
        return handle.createQuery("select " + column + " from surgical_case where id = :id")
                .bind("id", veil.evenWithdrawn(code))
                .mapTo(String.class)
                .one();
    }

    /** All cases by date, then code, but those whose consent was withdrawn. */
    public List<SurgicalCase> all() {
        return all(CaseReach.ALL);
    }

    /** Those that are reached, by date, then code. */
    public List<SurgicalCase> all(CaseReach reach) {
        return load(reach, "", null, null);
    }

    /** As {@link #all()}, for views of a whole unit: without descriptors and recordings, which are not read. */
    public List<SurgicalCase> bare() {
        return bare(CaseReach.ALL);
    }

    /** As {@link #bare()}, those that are reached. */
    public List<SurgicalCase> bare(CaseReach reach) {
        return load(reach, "", null, Map.of(), Map.of());
    }

    /** Codes of the cases that already use a file of this content; their labels where the caller may not know more. */
    public List<String> usingContent(String sha256) {
        return handle.createQuery("select distinct c.id, c.code from segment s join surgical_case c on c.id = s.case_id"
                        + " where s.sha256 = :sha order by c.code")
                .bind("sha", sha256)
                .map((row, context) -> veil.shown(row.getLong(1), row.getString(2)))
                .list();
    }

    /** Makes the names under which a case marked blind finds its files, where they are not there. */
    public void nameNeutrally(String code) {
        NeutralNames.make(handle, veil.dir(), veil.caseId(code));
    }

    /** Records where the files of a case are now. */
    public void moveSegments(String code, List<Segment> found) {
        long id = veil.caseId(code);
        segments.updatePaths(id, found);
        NeutralNames.make(handle, veil.dir(), id);
    }

    private List<SurgicalCase> load(
            CaseReach reach, String further, @Nullable Long only, @Nullable Assignment through) {
        return load(reach, further, through, descriptors(only), segments.load(only));
    }

    private List<SurgicalCase> load(
            CaseReach reach,
            String further,
            @Nullable Assignment through,
            Map<Long, Map<String, String>> descriptors,
            Map<Long, List<Segment>> files) {
        var query = reach.bind(
                handle.createQuery("select c.id, c.code, c.trainee, c.operated_on, c.procedure_id, c.consent,"
                        + " c.consent_purposes, c.consent_by, c.consent_on, c.review_by from surgical_case c where "
                        + reach.condition() + further + " order by c.operated_on, c.code"));
        Map<Long, SurgicalCase> bare = new LinkedHashMap<>();
        query.map((row, context) -> Map.entry(
                        row.getLong("id"),
                        new SurgicalCase(
                                row.getString("code"),
                                row.getString("trainee"),
                                LocalDate.parse(row.getString("operated_on")),
                                row.getString("procedure_id"),
                                Map.of(),
                                null,
                                new Consent(
                                        ConsentState.parse(row.getString("consent")),
                                        ConsentPurpose.parseAll(row.getString("consent_purposes")),
                                        row.getString("consent_by"),
                                        day(row.getString("consent_on"))),
                                day(row.getString("review_by")))))
                .forEach(entry -> bare.put(entry.getKey(), entry.getValue()));
        Map<Long, Assignment> hidings = new HashMap<>();
        bare.keySet().forEach(id -> {
            Assignment hiding = through == null ? veil.over(id) : through;
            if (hiding != null) {
                hidings.put(id, hiding);
            }
        });
        Map<Long, List<MaskArea>> areas = hidings.isEmpty() || files.isEmpty()
                ? Map.of()
                : HiddenAreaStore.byCase(
                        handle,
                        hidings.size() == 1 ? hidings.keySet().iterator().next() : null);
        List<SurgicalCase> cases = new ArrayList<>();
        List<SurgicalCase> veiled = new ArrayList<>();
        bare.forEach((id, one) -> {
            List<Segment> own = files.getOrDefault(id, List.of());
            SurgicalCase whole = new SurgicalCase(
                    one.code(),
                    one.trainee(),
                    one.date(),
                    one.procedure(),
                    descriptors.getOrDefault(id, Map.of()),
                    own.isEmpty() ? null : new Recording(own),
                    one.consent(),
                    one.reviewBy());
            Assignment hiding = hidings.get(id);
            if (hiding == null) {
                cases.add(whole);
            } else {
                veiled.add(BlindMask.of(whole, hiding, veil.dir(), areas.getOrDefault(id, List.of())));
            }
        });
        // by label, after all others: a place among dates would tell the date
        veiled.sort(Comparator.comparing(SurgicalCase::code));
        cases.addAll(veiled);
        return cases;
    }

    private static @Nullable LocalDate day(@Nullable String text) {
        return text == null ? null : LocalDate.parse(text);
    }

    private Map<Long, Map<String, String>> descriptors(@Nullable Long only) {
        Map<Long, Map<String, String>> byCase = new LinkedHashMap<>();
        handle.createQuery("select case_id, name, value from case_descriptor"
                        + (only == null ? "" : " where case_id = " + only))
                .map((row, context) ->
                        new String[] {row.getString("case_id"), row.getString("name"), row.getString("value")})
                .forEach(row -> byCase.computeIfAbsent(Long.valueOf(row[0]), id -> new LinkedHashMap<>())
                        .put(row[1], row[2]));
        return byCase;
    }
}
