package org.sideport.store;

import org.jdbi.v3.core.statement.SqlStatement;

/**
 * Which cases somebody reaches, as a condition of a query.
 *
 * @param all true for all cases
 * @param own code of the trainee whose cases are reached; empty for nobody's
 * @param given code of the assessor whose given and taken in cases are reached; empty for nobody's
 */
public record CaseReach(boolean all, String own, String given) {

    public static final CaseReach ALL = new CaseReach(true, "", "");
    public static final CaseReach NONE = new CaseReach(false, "", "");

    /** On rows of surgical_case that are called {@code c} in the query. */
    String condition() {
        if (all) {
            return "1 = 1";
        }
        StringBuilder parts = new StringBuilder("(1 = 0");
        if (!own.isEmpty()) {
            parts.append(" or c.trainee = :reachOwn");
        }
        if (!given.isEmpty()) {
            parts.append(" or c.added_by = :reachGiven or c.id in (select g.case_id from assignment g"
                    + " where g.assessor = :reachGiven and g.state <> 'withdrawn')");
        }
        return parts.append(")").toString();
    }

    /** Fills in the condition's names. */
    <S extends SqlStatement<S>> S bind(S statement) {
        if (!all && !own.isEmpty()) {
            statement.bind("reachOwn", own);
        }
        if (!all && !given.isEmpty()) {
            statement.bind("reachGiven", given);
        }
        return statement;
    }
}
