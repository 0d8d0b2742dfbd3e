package org.sideport.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.jdbi.v3.core.statement.Query;
import org.sideport.model.AngoffRound;

/** Rounds of judges. A closed one is frozen by the database itself. */
public final class AngoffStore {

    private static final String SELECT = "select * from angoff_round ";

    private final Handle handle;

    AngoffStore(Handle handle) {
        this.handle = handle;
    }

    /** Keeps a new, open round. */
    public void add(AngoffRound round) {
        handle.createUpdate("insert into angoff_round (id, rubric, rubric_version, number, state, note, opened_by,"
                        + " opened_at, closed_by, closed_at) values (:id, :rubric, :version, :number, 'open', :note, :by, :at, '',"
                        + " null)")
                .bind("id", round.id())
                .bind("rubric", round.rubric())
                .bind("version", round.rubricVersion())
                .bind("number", round.number())
                .bind("note", round.note())
                .bind("by", round.openedBy())
                .bind("at", round.openedAt().toString())
                .execute();
        PreparedBatch judges =
                handle.prepareBatch("insert into angoff_judge (round_id, judge, ordinal, counted) values (?, ?, ?, ?)");
        for (int i = 0; i < round.judges().size(); i++) {
            judges.add(round.id(), round.judges().get(i), i, true);
        }
        judges.execute();
    }

    /** All rounds by rubric, version and number. */
    public List<AngoffRound> all() {
        return list(handle.createQuery(SELECT + "order by rubric, rubric_version, number"));
    }

    public Optional<AngoffRound> find(String id) {
        return list(handle.createQuery(SELECT + "where id = :id").bind("id", id)).stream()
                .findFirst();
    }

    /** Puts a judge's points in the place of earlier ones. */
    public void save(String round, String judge, Map<String, Double> points) {
        handle.execute("delete from angoff_value where round_id = ? and judge = ?", round, judge);
        if (points.isEmpty()) {
            return;
        }
        PreparedBatch values =
                handle.prepareBatch("insert into angoff_value (round_id, judge, item, points) values (?, ?, ?, ?)");
        points.forEach((item, value) -> values.add(round, judge, item, value));
        values.execute();
    }

    /** Points by judge, then by item; judges without any are absent. */
    public Map<String, Map<String, Double>> values(String round) {
        Map<String, Map<String, Double>> values = new LinkedHashMap<>();
        handle.createQuery("select v.judge, v.item, v.points from angoff_value v join angoff_judge j"
                        + " on j.round_id = v.round_id and j.judge = v.judge where v.round_id = :round"
                        + " order by j.ordinal, v.item")
                .bind("round", round)
                .map((row, context) -> values.computeIfAbsent(row.getString("judge"), j -> new LinkedHashMap<>())
                        .put(row.getString("item"), row.getDouble("points")))
                .list();
        return values;
    }

    /** Closes a round; from now on it cannot be changed. */
    public void close(String round, List<String> leftOut, String note, String by, Instant at) {
        for (String judge : leftOut) {
            handle.execute("update angoff_judge set counted = ? where round_id = ? and judge = ?", false, round, judge);
        }
        handle.execute(
                "update angoff_round set state = 'closed', note = ?, closed_by = ?, closed_at = ? where id = ?",
                note,
                by,
                at.toString(),
                round);
    }

    private List<AngoffRound> list(Query query) {
        record Judge(String round, String code, boolean counted) {}
        List<Judge> judges = handle.createQuery("select * from angoff_judge order by round_id, ordinal")
                .map((row, context) ->
                        new Judge(row.getString("round_id"), row.getString("judge"), row.getBoolean("counted")))
                .list();
        return query.map((row, context) -> {
                    String id = row.getString("id");
                    List<String> asked = new ArrayList<>();
                    List<String> leftOut = new ArrayList<>();
                    for (Judge judge : judges) {
                        if (judge.round().equals(id)) {
                            asked.add(judge.code());
                            if (!judge.counted()) {
                                leftOut.add(judge.code());
                            }
                        }
                    }
                    String closed = row.getString("closed_at");
                    return new AngoffRound(
                            id,
                            row.getString("rubric"),
                            row.getString("rubric_version"),
                            row.getInt("number"),
                            asked,
                            leftOut,
                            row.getString("note"),
                            row.getString("opened_by"),
                            Instant.parse(row.getString("opened_at")),
                            row.getString("closed_by"),
                            closed == null ? null : Instant.parse(closed));
                })
                .list();
    }
}
