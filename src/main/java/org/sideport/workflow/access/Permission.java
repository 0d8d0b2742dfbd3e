package org.sideport.workflow.access;

import org.sideport.model.Role;

/** What a person may do: the one table. What does not stand here nobody may do. Columns: trainee, assessor, director. */
public enum Permission {
    SEE_CASE(Reach.OWN, Reach.GIVEN, Reach.ALL),
    ADD_CASE(Reach.OWN, Reach.ALL, Reach.ALL),
    EDIT_CASE(Reach.OWN, Reach.GIVEN, Reach.ALL),
    TAG(Reach.OWN, Reach.GIVEN, Reach.ALL),
    COMMENT(Reach.OWN, Reach.GIVEN, Reach.ALL),
    MEASURE(Reach.OWN, Reach.GIVEN, Reach.ALL),
    MARK_ONESELF(Reach.OWN, Reach.NONE, Reach.NONE),
    MARK(Reach.NONE, Reach.GIVEN, Reach.NONE),
    SEE_MARKS(Reach.OWN, Reach.GIVEN, Reach.ALL),
    NAME_EXEMPLAR(Reach.NONE, Reach.GIVEN, Reach.ALL),
    SEE_EXEMPLAR(Reach.ALL, Reach.ALL, Reach.ALL),
    SEE_COHORT(Reach.NONE, Reach.NONE, Reach.ALL),
    ASSIGN(Reach.NONE, Reach.NONE, Reach.ALL),
    ADJUDICATE(Reach.NONE, Reach.NONE, Reach.ALL),
    JUDGE_STANDARD(Reach.NONE, Reach.ALL, Reach.ALL),
    SET_STANDARD(Reach.NONE, Reach.NONE, Reach.ALL),
    RECORD_DECISION(Reach.NONE, Reach.NONE, Reach.ALL),
    EDIT_RUBRIC(Reach.NONE, Reach.ALL, Reach.ALL),
    RECORD_CONSENT(Reach.OWN, Reach.GIVEN, Reach.ALL),
    DELETE_CASE(Reach.NONE, Reach.NONE, Reach.ALL),
    EXPORT_CASE(Reach.OWN, Reach.GIVEN, Reach.ALL),
    IMPORT_BUNDLE(Reach.NONE, Reach.ALL, Reach.ALL),
    MANAGE_PEOPLE(Reach.NONE, Reach.NONE, Reach.ALL),
    SEE_AUDIT(Reach.NONE, Reach.NONE, Reach.ALL),
    KEEP_STORE(Reach.NONE, Reach.NONE, Reach.ALL);

    private final Reach trainee;
    private final Reach assessor;
    private final Reach director;

    Permission(Reach trainee, Reach assessor, Reach director) {
        this.trainee = trainee;
        this.assessor = assessor;
        this.director = director;
    }

    /** How far it goes for a role. */
    public Reach reach(Role role) {
        return switch (role) {
            case TRAINEE -> trainee;
            case ASSESSOR -> assessor;
            case DIRECTOR -> director;
        };
    }
}
