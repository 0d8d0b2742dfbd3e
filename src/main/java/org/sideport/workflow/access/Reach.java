package org.sideport.workflow.access;

/** To which cases a permission reaches. */
public enum Reach {
    /** To none. */
    NONE,
    /** To the cases that the caller operated on. */
    OWN,
    /** To the cases that the caller was given to mark, or took in. */
    GIVEN,
    /** To all. */
    ALL
}
