package org.sideport.store;

import java.util.ArrayList;
import java.util.List;
import org.jdbi.v3.core.statement.SqlStatement;

/**
 * Which cases somebody reaches, as a condition of a query. Cases whose consent was withdrawn are reached by nobody, but for
 * deleting them.
 *
 * @param all true for all cases
 * @param own code of the trainee whose cases are reached; empty for nobody's
 * @param given code of the assessor whose given and taken in cases are reached; empty for nobody's
 * @param evenWithdrawn true for deleting only
 */
public record CaseReach(boolean all, String own, String given, boolean evenWithdrawn) {

    public static final CaseReach ALL = new CaseReach(true, "", "");
    public static final CaseReach NONE = new CaseReach(false, "", "");
    static final CaseReach EVEN_WITHDRAWN = new CaseReach(true, "", "", true);

    public CaseReach(boolean all, String own, String given) {
        this(all, own, given, false);
    }

    /** On rows of surgical_case that are called {@code c} in the query. */
    String condition() {
        String standing = evenWithdrawn ? "1 = 1" : "c.consent <> 'withdrawn'";
        if (all) {
            return standing;
        }
        List<String> ways = new ArrayList<>();
        if (!own.isEmpty()) {
            ways.add("c.trainee = :reachOwn");
        }
        if (!given.isEmpty()) {
            ways.add("c.added_by = :reachGiven");
            ways.add("c.id in (select g.case_id from assignment g"
                    + " where g.assessor = :reachGiven and g.state <> 'withdrawn')");
        }
        // nothing but the ways stands in the brackets: with a constant beside them SQLite would use no index
        return standing + " and (" + (ways.isEmpty() ? "1 = 0" : String.join(" or ", ways)) + ")";
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
