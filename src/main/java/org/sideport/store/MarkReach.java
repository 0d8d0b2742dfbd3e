package org.sideport.store;

import org.jdbi.v3.core.statement.SqlStatement;

/**
 * Whose marks of a case a person is shown: on the case itself, in every list and in what is handed out of single cases, the same.
 * It holds for one case and for many, being a condition of the query; {@link MarkSight} beside it knows who looks at what through
 * a label, and is all there is to figures over many cases, which a director makes of all marks whatever he has still to mark
 * himself: else the same figures would differ from one director to another.
 *
 * <p>All of one's own; those of others
 *
 * <ul>
 *   <li>as director, but of a case that one has still to mark oneself (given and open, or begun) only those with a rubric that
 *       one has signed: marks shall be independent, whoever makes them;
 *   <li>as assessor, signed ones of cases that one has been given or took in, once one has signed there oneself; with a rubric
 *       that one has not signed, none of the trainee's own, and none at all while the case is given and open;
 *   <li>as trainee, signed ones of one's own cases with a rubric that one has signed, where the unit wants own marks first.
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
    private static final String GIVEN_TO_ME =
            "select g.case_id from assignment g where g.assessor = :markPerson and g.state = 'open'";
    private static final String STILL_TO_MARK = "select m.case_id from rating m where m.assessor = :markPerson"
            + " and m.self = :markByOthers and m.state = 'draft' and m.amends is null union all " + GIVEN_TO_ME;
    private static final String SAME_SIGNED_BY_ME = "exists (select 1 from rating m where m.case_id = r.case_id and"
            + " m.rubric = r.rubric and m.assessor = :markPerson and m.self = :markByOthers and m.state <> 'draft')";
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
            parts.append(" or r.case_id not in (" + STILL_TO_MARK + ") or " + SAME_SIGNED_BY_ME);
        }
        if (assessor) {
            parts.append(" or (r.state <> 'draft' and r.case_id in (" + SIGNED_BY_ME + ") and (" + SAME_SIGNED_BY_ME
                    + " or r.self = :markByOthers and r.case_id not in (" + GIVEN_TO_ME + ")) and "
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
