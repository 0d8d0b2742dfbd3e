package org.sideport.store;

import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import org.jdbi.v3.core.Handle;
import org.sideport.model.Assignment;
import org.sideport.model.Hidden;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rating;

/**
 * The assessors' signed marks of all cases in two queries, for views of a whole unit: neither rubrics' texts nor comments are
 * read, and the marks of a rating come as one row.
 */
final class SignedRows {

    private static final String SIGNED = " r.state = 'signed' and r.self = :self and r.rubric = :rubric";

    private final Handle handle;
    private final Veil veil;

    SignedRows(Handle handle, Veil veil) {
        this.handle = handle;
        this.veil = veil;
    }

    /** For who may see all marks; of cases that are marked blind what {@link MarkSight} leaves, under their labels. */
    List<SignedRating> of(String rubric) {
        Map<Long, List<ItemScore>> scores = scores(rubric);
        List<SignedRating> all = new ArrayList<>();
        handle.createQuery("select r.id, c.id, c.code, r.rubric_version, r.assessor, r.blind, r.comment, r.signed_at"
                        + " from rating r join surgical_case c on c.id = r.case_id where" + SIGNED
                        + " order by c.operated_on, c.code, r.id")
                .bind("self", false)
                .bind("rubric", rubric)
                .map((row, context) -> {
                    String signedAt = row.getString(8);
                    Assignment hiding = veil.over(row.getLong(2));
                    String assessor = row.getString(5);
                    if (hiding != null && hiding.hides(Hidden.EARLIER_MARKS) && !assessor.equals(hiding.assessor())) {
                        return List.<SignedRating>of();
                    }
                    return List.of(new SignedRating(
                            row.getLong(1),
                            hiding == null ? row.getString(3) : hiding.label(),
                            new Rating(
                                    rubric,
                                    row.getString(4),
                                    assessor,
                                    false,
                                    row.getBoolean(6),
                                    scores.getOrDefault(row.getLong(1), List.of()),
                                    row.getString(7)),
                            signedAt == null ? null : Instant.parse(signedAt)));
                })
                .forEach(all::addAll);
        return all;
    }

    private Map<Long, List<ItemScore>> scores(String rubric) {
        Map<Long, List<ItemScore>> scores = new HashMap<>();
        // ids of items hold neither blanks nor commas
        Map<String, ItemScore> known = new HashMap<>();
        handle.createQuery("select s.rating_id, string_agg(s.item || ' ' || coalesce(s.not_applicable,"
                        + " cast(s.points as text)), ',') from item_score s join rating r on r.id = s.rating_id where"
                        + SIGNED + " group by s.rating_id")
                .bind("self", false)
                .bind("rubric", rubric)
                .map((row, context) -> Map.entry(row.getLong(1), row.getString(2)))
                .forEach(row -> scores.put(row.getKey(), parsed(row.getValue(), known)));
        return scores;
    }

    private static List<ItemScore> parsed(String text, Map<String, ItemScore> known) {
        List<ItemScore> all = new ArrayList<>();
        int from = 0;
        while (from < text.length()) {
            int comma = text.indexOf(',', from);
            int to = comma < 0 ? text.length() : comma;
            all.add(known.computeIfAbsent(text.substring(from, to), SignedRows::score));
            from = to + 1;
        }
        return all;
    }

    private static ItemScore score(String text) {
        int blank = text.lastIndexOf(' ');
        String item = text.substring(0, blank);
        String mark = text.substring(blank + 1);
        char first = mark.charAt(0);
        return first == '-' || (first >= '0' && first <= '9')
                ? new ItemScore.Marked(item, Integer.parseInt(mark), "")
                : new ItemScore.Excused(item, NotApplicable.parse(mark), "");
    }
}
