package org.sideport.store;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.mapper.RowMapper;
import org.sideport.model.Assignment;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.CutState;
import org.sideport.model.MediaTime;

/** The cuts of recordings, with what people decided about them. */
public final class CutStore {

    private static final RowMapper<Cut> CUT = (row, context) -> new Cut(
            MediaTime.ofMicros(row.getLong("from_us")),
            MediaTime.ofMicros(row.getLong("to_us")),
            CutKind.valueOf(row.getString("kind").toUpperCase(Locale.ROOT)),
            CutState.valueOf(row.getString("state").toUpperCase(Locale.ROOT)),
            row.getString("evidence"),
            row.getString("decided_by"));

    /** Stands for the code of whoever decided, where it would tell too much. */
    private static final String ANOTHER = "another";

    private final Handle handle;
    private final Veil veil;
    private final AuditStore audit;

    CutStore(Handle handle, Veil veil, AuditStore audit) {
        this.handle = handle;
        this.veil = veil;
        this.audit = audit;
    }

    /**
     * The cuts of a case in the order of time.
     *
     * @throws org.sideport.model.InputException if there is no such case
     */
    public List<Cut> of(String caseCode) {
        Assignment through = veil.through(caseCode).orElse(null);
        return handle.createQuery("select * from recording_cut where case_id = :id order by from_us, kind")
                .bind("id", veil.caseId(caseCode))
                .map(CUT)
                .map(cut -> through == null ? cut : veiled(cut, through))
                .list();
    }

    /** Empty for what a program proposed and nobody has decided. */
    private static String decision(Cut cut) {
        return cut.state() == CutState.PROPOSED
                ? ""
                : cut.state().id() + " by " + cut.decidedBy() + " at "
                        + cut.from().micros() + " us";
    }

    /** The evidence may tell names of files and the time of day. */
    private static Cut veiled(Cut cut, Assignment through) {
        boolean own = cut.decidedBy().equals(through.assessor());
        return new Cut(
                cut.from(),
                cut.to(),
                cut.kind(),
                cut.state(),
                "",
                own || cut.decidedBy().isEmpty() ? cut.decidedBy() : ANOTHER);
    }

    /** The cuts of all cases, by code. */
    public Map<String, List<Cut>> all() {
        Map<String, List<Cut>> byCase = new LinkedHashMap<>();
        handle.createQuery("select c.id as the_case, c.code, r.* from recording_cut r join surgical_case c on c.id ="
                        + " r.case_id where c.consent <> 'withdrawn' order by c.code, r.from_us, r.kind")
                .map((row, context) -> {
                    long caseId = row.getLong("the_case");
                    Assignment hiding = veil.over(caseId);
                    Cut cut = CUT.map(row, context);
                    return Map.entry(
                            veil.shown(caseId, row.getString("code")), hiding == null ? cut : veiled(cut, hiding));
                })
                .forEach(one -> byCase.computeIfAbsent(one.getKey(), code -> new ArrayList<>())
                        .add(one.getValue()));
        return byCase;
    }

    /** Keeps a cut, in the place of one of the same kind that starts at the same time. */
    public void save(String caseCode, Cut cut) {
        if (!cut.decidedBy().isEmpty()) {
            veil.requireAssessor(caseCode, cut.decidedBy());
        }
        String before = of(caseCode).stream()
                .filter(c -> c.from().equals(cut.from()) && c.kind() == cut.kind())
                .map(CutStore::decision)
                .findFirst()
                .orElse("");
        if (!before.equals(decision(cut))) {
            audit.add("cut.decide", caseCode, before, decision(cut));
        }
        handle.createUpdate("insert into recording_cut (case_id, from_us, to_us, kind, state, evidence, decided_by)"
                        + " values (:id, :from, :to, :kind, :state, :evidence, :by) on conflict (case_id, from_us, kind) do update"
                        + " set to_us = excluded.to_us, state = excluded.state, evidence = excluded.evidence, decided_by ="
                        + " excluded.decided_by")
                .bind("id", veil.caseId(caseCode))
                .bind("from", cut.from().micros())
                .bind("to", cut.to().micros())
                .bind("kind", cut.kind().id())
                .bind("state", cut.state().id())
                .bind("evidence", cut.evidence())
                .bind("by", cut.decidedBy())
                .execute();
    }
}
