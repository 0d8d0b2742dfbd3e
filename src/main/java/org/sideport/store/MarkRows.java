package org.sideport.store;

import java.sql.ResultSet;
import java.sql.SQLException;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jdbi.v3.core.statement.PreparedBatch;
import org.jspecify.annotations.Nullable;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;

/** Rows of the marks of ratings, with their evidence and what was agreed. */
final class MarkRows {

    private final Handle handle;

    MarkRows(Handle handle) {
        this.handle = handle;
    }

    /** Puts the rows of a rating in the place of those of another; where only some marks differ, only these are touched. */
    void replace(long id, Rating old, Rating rating) {
        List<ItemScore> kept =
                old.scores().stream().filter(rating.scores()::contains).toList();
        List<ItemScore> changed =
                rating.scores().stream().filter(s -> !kept.contains(s)).toList();
        List<ItemScore> inOrder = new ArrayList<>(kept);
        inOrder.addAll(changed);
        if (!inOrder.equals(rating.scores()) || !old.actions().equals(rating.actions())) {
            delete(id);
            insert(id, rating);
            return;
        }
        for (ItemScore gone : old.scores()) {
            if (!kept.contains(gone)) {
                handle.execute("delete from item_score where rating_id = ? and item = ?", id, gone.item());
                if (!gone.evidence().isEmpty()) {
                    handle.execute("delete from item_evidence where rating_id = ? and item = ?", id, gone.item());
                }
            }
        }
        insert(id, rating.withScores(changed).withActions(List.of()));
    }

    void insert(long id, Rating rating) {
        PreparedBatch scores = handle.prepareBatch("insert into item_score"
                + " (rating_id, item, points, value, not_applicable, comment) values (?, ?, ?, ?, ?, ?)");
        PreparedBatch evidence =
                handle.prepareBatch("insert into item_evidence (rating_id, item, at_us, ordinal) values (?, ?, ?, ?)");
        for (ItemScore score : rating.scores()) {
            scores.add(
                    id,
                    score.item(),
                    score.pointsOrNull(),
                    score instanceof ItemScore.Marked marked ? marked.value() : null,
                    score instanceof ItemScore.Excused excused
                            ? excused.reason().id()
                            : null,
                    score.comment());
            for (int i = 0; i < score.evidence().size(); i++) {
                evidence.add(id, score.item(), score.evidence().get(i).micros(), i);
            }
        }
        PreparedBatch actions =
                handle.prepareBatch("insert into rating_action (rating_id, ordinal, action) values (?, ?, ?)");
        for (int i = 0; i < rating.actions().size(); i++) {
            actions.add(id, i, rating.actions().get(i));
        }
        for (PreparedBatch batch : List.of(scores, evidence, actions)) {
            if (batch.size() > 0) {
                batch.execute();
            }
        }
    }

    void delete(long id) {
        handle.execute("delete from item_score where rating_id = ?", id);
        handle.execute("delete from item_evidence where rating_id = ?", id);
        handle.execute("delete from rating_action where rating_id = ?", id);
    }

    /** @param only ids of ratings, or {@code null} for all */
    Map<Long, List<ItemScore>> scores(@Nullable List<Long> only) {
        Map<String, List<MediaTime>> evidence = evidence(only);
        Map<Long, List<ItemScore>> scores = new LinkedHashMap<>();
        handle.createQuery("select * from item_score" + where(only) + " order by rating_id, rowid")
                .map((row, context) -> Map.entry(row.getLong("rating_id"), score(row, evidence)))
                .forEach(entry -> scores.computeIfAbsent(entry.getKey(), id -> new ArrayList<>())
                        .add(entry.getValue()));
        return scores;
    }

    /** @param only ids of ratings, or {@code null} for all */
    Map<Long, List<String>> actions(@Nullable List<Long> only) {
        Map<Long, List<String>> actions = new LinkedHashMap<>();
        handle.createQuery("select * from rating_action" + where(only) + " order by rating_id, ordinal")
                .map((row, context) -> Map.entry(row.getLong("rating_id"), row.getString("action")))
                .forEach(entry -> actions.computeIfAbsent(entry.getKey(), id -> new ArrayList<>())
                        .add(entry.getValue()));
        return actions;
    }

    private static String where(@Nullable List<Long> only) {
        return only == null
                ? ""
                : only.stream().map(String::valueOf).collect(Collectors.joining(", ", " where rating_id in (", ")"));
    }

    private Map<String, List<MediaTime>> evidence(@Nullable List<Long> only) {
        Map<String, List<MediaTime>> evidence = new LinkedHashMap<>();
        handle.createQuery("select * from item_evidence" + where(only) + " order by rating_id, item, ordinal")
                .map((row, context) -> Map.entry(
                        key(row.getLong("rating_id"), row.getString("item")), MediaTime.ofMicros(row.getLong("at_us"))))
                .forEach(entry -> evidence.computeIfAbsent(entry.getKey(), k -> new ArrayList<>())
                        .add(entry.getValue()));
        return evidence;
    }

    private static String key(long rating, String item) {
        return rating + " " + item;
    }

    private static ItemScore score(ResultSet row, Map<String, List<MediaTime>> evidence) throws SQLException {
        String item = row.getString("item");
        List<MediaTime> moments = evidence.getOrDefault(key(row.getLong("rating_id"), item), List.of());
        String reason = row.getString("not_applicable");
        if (reason != null) {
            return new ItemScore.Excused(item, NotApplicable.parse(reason), row.getString("comment"), moments);
        }
        Number value = (Number) row.getObject("value");
        return new ItemScore.Marked(
                item,
                row.getInt("points"),
                value == null ? null : (Double) value.doubleValue(),
                row.getString("comment"),
                moments);
    }
}
