package org.sideport.chart;

/** The shape of a point. Each differs from the others without its colour. */
public enum Mark {
    DISC,
    RING,
    TRIANGLE,
    SQUARE,
    DIAMOND,
    CROSS
}
