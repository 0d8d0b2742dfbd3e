package org.sideport.app.cohort;

/** The ways to look at a cohort. */
public enum Section {
    MATRIX,
    WORK,
    PLAN,
    COMPLICATIONS,
    TIMES,
    ASSESSORS
}
