package org.sideport.app.cohort;

/** The ways to look at a cohort. */
enum Section {
    MATRIX,
    WORK,
    PLAN,
    COMPLICATIONS,
    TIMES,
    ASSESSORS
}
