package org.sideport.stats.mixed;

/** What is minimised. */
public enum Criterion {
    /** Restricted maximum likelihood: variance components free of the bias of the estimated fixed effects. */
    REML,
    /** Maximum likelihood: for comparing models that differ in their fixed effects. */
    ML
}
