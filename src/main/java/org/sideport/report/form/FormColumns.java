package org.sideport.report.form;

import org.sideport.model.Rubric;

/** Where things stand on a form: id (hidden), number, item, one column a level, mark, reason, comment. */
record FormColumns(int levels) {

    static final int ID = 0;
    static final int NUMBER = 1;
    static final int ITEM = 2;
    static final int FIRST_LEVEL = 3;

    /** Keys in the id column of rows that are no items. */
    static final String OVERALL = "#comment";

    static final String ACTION = "#action";

    static FormColumns of(Rubric rubric) {
        return new FormColumns(Math.max(1, rubric.levels().size()));
    }

    int mark() {
        return FIRST_LEVEL + levels;
    }

    int reason() {
        return mark() + 1;
    }

    int comment() {
        return mark() + 2;
    }
}
