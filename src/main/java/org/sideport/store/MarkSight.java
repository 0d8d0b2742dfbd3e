package org.sideport.store;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.stream.Collectors;
import org.jdbi.v3.core.Handle;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Assignment;
import org.sideport.model.Caller;
import org.sideport.model.Hidden;
import org.sideport.model.RatingState;
import org.sideport.model.Role;

/**
 * Whose marks a person may see now, applied to all that is read: the widest that anything is made of. What is shown of cases,
 * one by one or in lists, is asked for with {@link MarkReach} and narrower for who has still to mark a case; for persons with a
 * login of a shared database its own rules of rows come before both.
 *
 * <p>One's own always, and a director all of them. Else nobody's drafts; and
 *
 * <ul>
 *   <li>a trainee sees the assessors' marks of an own case once the own marks are signed, unless the unit does without;
 *   <li>an assessor sees the trainee's own marks once he has signed his;
 *   <li>an assessor to whom the case is given sees no other marks before he has signed his.
 * </ul>
 */
final class MarkSight {

    private final Handle handle;
    private final Veil veil;
    private @Nullable Boolean selfFirst;

    MarkSight(Handle handle, Veil veil) {
        this.handle = handle;
        this.veil = veil;
    }

    /** @param all the ratings of one case */
    List<StoredRating> of(List<StoredRating> all, @Nullable Assignment through, long caseId) {
        if (through != null) {
            return all.stream().filter(r -> throughLabel(r, through)).toList();
        }
        if (!(veil.caller() instanceof Caller.Person person) || person.roles().contains(Role.DIRECTOR)) {
            return all;
        }
        boolean given = AssignmentRows.ofCase(handle, caseId).stream()
                .anyMatch(a -> a.assessor().equals(person.code()) && a.state() == Assignment.State.OPEN);
        String trainee = handle.createQuery("select trainee from surgical_case where id = :id")
                .bind("id", caseId)
                .mapTo(String.class)
                .one();
        return visible(all, person.code(), trainee.equals(person.code()), given);
    }

    /** @param all the ratings of all cases */
    List<StoredRating> of(List<StoredRating> all) {
        if (!(veil.caller() instanceof Caller.Person person)) {
            return all;
        }
        boolean director = person.roles().contains(Role.DIRECTOR);
        if (director && !veil.isAny()) {
            return all;
        }
        Map<String, Long> ids = new HashMap<>();
        Set<String> own = new HashSet<>();
        record Row(long id, String code, String trainee) {}
        handle.createQuery("select id, code, trainee from surgical_case")
                .map((row, context) -> new Row(row.getLong(1), row.getString(2), row.getString(3)))
                .forEach(row -> {
                    ids.put(row.code(), row.id());
                    if (person.code().equals(row.trainee())) {
                        own.add(row.code());
                    }
                });
        Set<String> given = AssignmentRows.of(handle, person.code()).stream()
                .filter(a -> a.state() == Assignment.State.OPEN)
                .map(Assignment::caseCode)
                .collect(Collectors.toSet());
        List<StoredRating> seen = new ArrayList<>();
        List<StoredRating> veiled = new ArrayList<>();
        all.stream()
                .collect(Collectors.groupingBy(
                        StoredRating::caseCode, java.util.LinkedHashMap::new, Collectors.toList()))
                .forEach((code, ratings) -> {
                    Assignment hiding = veil.over(ids.getOrDefault(code, -1L));
                    if (hiding != null) {
                        ratings.stream()
                                .filter(r -> throughLabel(r, hiding))
                                .forEach(r -> veiled.add(r.of(hiding.label())));
                    } else if (director) {
                        seen.addAll(ratings);
                    } else {
                        seen.addAll(visible(ratings, person.code(), own.contains(code), given.contains(code)));
                    }
                });
        veiled.sort(Comparator.comparing(StoredRating::caseCode));
        seen.addAll(veiled);
        return seen;
    }

    /** A rating of a case whose own code the caller may not know, under the label. */
    StoredRating named(StoredRating one) {
        return veil.labelOf(one.caseCode()).map(one::of).orElse(one);
    }

    private static boolean throughLabel(StoredRating one, Assignment through) {
        boolean own = one.rating().assessor().equals(through.assessor());
        // a trainee's own marks would tell whose case it is
        return own || (!through.hides(Hidden.EARLIER_MARKS) && !one.rating().self() && !isDraft(one));
    }

    private List<StoredRating> visible(List<StoredRating> ofCase, String who, boolean ownCase, boolean given) {
        Set<String> signed = ofCase.stream()
                .filter(r -> r.rating().assessor().equals(who) && !isDraft(r))
                .map(r -> r.rating().rubric())
                .collect(Collectors.toSet());
        return ofCase.stream()
                .filter(r -> {
                    if (r.rating().assessor().equals(who)) {
                        return true;
                    }
                    boolean after = signed.contains(r.rating().rubric());
                    boolean may = ownCase
                            ? after || !selfFirst()
                            : after || (!r.rating().self() && !given);
                    return may && !isDraft(r);
                })
                .toList();
    }

    private boolean selfFirst() {
        Boolean known = selfFirst;
        if (known == null) {
            known = new RuleStore(handle).rules().selfFirst();
            selfFirst = known;
        }
        return known;
    }

    private static boolean isDraft(StoredRating one) {
        return one.state() == RatingState.DRAFT;
    }
}
