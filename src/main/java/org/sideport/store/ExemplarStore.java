package org.sideport.store;

import java.time.Instant;
import java.util.List;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.RowMapper;
import org.sideport.model.Exemplar;

/** Exemplars, the usual one of a procedure first. */
public final class ExemplarStore {

    private static final RowMapper<Exemplar> EXEMPLAR = (row, context) -> new Exemplar(
            row.getString("code"),
            row.getString("annotator"),
            row.getString("procedure_id"),
            row.getString("title"),
            row.getString("why"),
            row.getString("named_by"),
            Instant.parse(row.getString("named_at")),
            row.getBoolean("usual"));

    private final Handle handle;
    private final Veil veil;
    private final AuditStore audit;

    ExemplarStore(Handle handle, Veil veil, AuditStore audit) {
        this.handle = handle;
        this.veil = veil;
        this.audit = audit;
    }

    /** All exemplars that the caller may know, by procedure, the usual one first, then by when they were named. */
    public List<Exemplar> all() {
        record Row(long caseId, Exemplar exemplar) {}
        return handle.createQuery(
                        "select c.code, e.* from exemplar e join surgical_case c on c.id = e.case_id where c.consent"
                                + " <> 'withdrawn' order by e.procedure_id, e.usual desc, e.named_at, c.code, e.annotator")
                .map((row, context) -> new Row(row.getLong("case_id"), EXEMPLAR.map(row, context)))
                .filter(row -> veil.over(row.caseId()) == null)
                .map(Row::exemplar)
                .list();
    }

    public List<Exemplar> of(String procedure) {
        return all().stream().filter(e -> e.procedure().equals(procedure)).toList();
    }

    /**
     * Keeps an exemplar, in the place of one of the same case and annotator. If it is the usual one, no other of its
     * procedure is any longer.
     *
     * @throws org.sideport.model.InputException if there is no such case
     */
    public void save(Exemplar exemplar) {
        long caseId = veil.caseId(exemplar.caseCode());
        if (exemplar.usual()) {
            handle.execute("update exemplar set usual = false where procedure_id = ?", exemplar.procedure());
        }
        handle.createUpdate("insert into exemplar (case_id, annotator, procedure_id, title, why, named_by, named_at,"
                        + " usual) values (:id, :annotator, :procedure, :title, :why, :by, :at, :usual)"
                        + " on conflict (case_id, annotator) do update set procedure_id = excluded.procedure_id,"
                        + " title = excluded.title, why = excluded.why, named_by = excluded.named_by,"
                        + " named_at = excluded.named_at, usual = excluded.usual")
                .bind("id", caseId)
                .bind("annotator", exemplar.annotator())
                .bind("procedure", exemplar.procedure())
                .bind("title", exemplar.title())
                .bind("why", exemplar.why())
                .bind("by", exemplar.namedBy())
                .bind("at", exemplar.namedAt().toString())
                .bind("usual", exemplar.usual())
                .execute();
        audit.add(
                "exemplar.name",
                exemplar.caseCode(),
                "",
                "tags of " + exemplar.annotator() + ", by " + exemplar.namedBy()
                        + (exemplar.usual() ? ", the usual one" : ""));
    }

    /** @return false if there was none */
    public boolean remove(String caseCode, String annotator) {
        boolean removed = handle.execute(
                        "delete from exemplar where case_id = ? and annotator = ?", veil.caseId(caseCode), annotator)
                > 0;
        if (removed) {
            audit.add("exemplar.remove", caseCode, "tags of " + annotator, "");
        }
        return removed;
    }
}
