package org.sideport.stats.monitoring;

/** What a signal says. */
public enum SignalKind {
    /** Evidence of a worse rate than acceptable. */
    ALARM,
    /** Evidence of an acceptable rate, or of competence. */
    ACCEPTED,
    /** Evidence of a better rate than before. */
    IMPROVED,
    /** A measured value, or what is made of it, lies above its upper limit. */
    HIGH,
    /** The same below its lower limit. */
    LOW
}
