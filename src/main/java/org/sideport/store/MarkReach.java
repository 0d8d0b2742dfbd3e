package org.sideport.store;

import org.jdbi.v3.core.statement.SqlStatement;

/**
 * What of {@link MarkSight}'s rule a query of many cases applies already, so that what nobody may see is not read: all of one's
 * own; those of others, narrower than there in that an assessor or director who has still to mark a case sees none
 *
 * <ul>
 *   <li>as director, but for cases that one has still to mark oneself;
 *   <li>as assessor, signed ones of cases that one has been given and has signed oneself;
 *   <li>as trainee, signed ones of one's own cases, unless one's self-rating is begun and not signed.
 * </ul>
 *
 * @param all true where nobody signs in: all ratings
 * @param person code of who looks
 */
public record MarkReach(boolean all, String person, boolean trainee, boolean assessor, boolean director) {

    public static final MarkReach ALL = new MarkReach(true, "", false, false, false);
    public static final MarkReach NONE = new MarkReach(false, "", false, false, false);

    private static final String SIGNED_BY_ME = "select m.case_id from rating m where m.assessor = :markPerson"
            + " and m.self = :markByOthers and m.state = 'signed'";
    private static final String STILL_TO_MARK = "select m.case_id from rating m where m.assessor = :markPerson"
            + " and m.self = :markByOthers and m.state = 'draft' union all select g.case_id from assignment g"
            + " where g.assessor = :markPerson and g.state = 'open'";
    /** Own marks first, on the same rubric, where the unit wants it so. */
    private static final String SELF_SIGNED = "(exists (select 1 from rating m where m.case_id = r.case_id"
            + " and m.rubric = r.rubric and m.assessor = :markPerson and m.self = :markSelf and m.state <> 'draft')"
            + " or exists (select 1 from marking_rule u where u.name = 'self_first' and u.value = 'false'))";

    /** On rows of rating called {@code r} of cases called {@code c}. */
    String condition() {
        if (all) {
            return "1 = 1";
        }
        if (person.isEmpty()) {
            return "1 = 0";
        }
        StringBuilder parts = new StringBuilder("(r.assessor = :markPerson");
        if (director) {
            parts.append(" or (r.case_id not in (" + STILL_TO_MARK + ") or r.case_id in (" + SIGNED_BY_ME + "))");
        }
        if (assessor) {
            parts.append(" or (r.state <> 'draft' and r.case_id in (" + SIGNED_BY_ME + ") and "
                    + new CaseReach(false, "", person).condition().replace(":reachGiven", ":markPerson") + ")");
        }
        if (trainee) {
            parts.append(" or (r.state <> 'draft' and c.trainee = :markPerson and " + SELF_SIGNED + ")");
        }
        return parts.append(")").toString();
    }

    /** Fills in the condition's names. */
    <S extends SqlStatement<S>> S bind(S statement) {
        if (all || person.isEmpty()) {
            return statement;
        }
        statement.bind("markPerson", person);
        if (director || assessor) {
            statement.bind("markByOthers", false);
        }
        if (trainee) {
            statement.bind("markSelf", true);
        }
        return statement;
    }
}
