package org.sideport.stats.casemix;

/** How the coefficients of a logistic model are estimated. */
public enum LogisticMethod {
    /** Maximum likelihood, by iteratively reweighted least squares. */
    MAXIMUM_LIKELIHOOD("logistic regression by maximum likelihood"),
    /**
     * Maximum of the likelihood times the square root of the determinant of the information (Jeffreys' prior): Firth 1993,
     * Biometrika 80:27. Less biased in small samples, and finite where the outcomes are separated (Heinze & Schemper 2002,
     * Statistics in Medicine 21:2409).
     */
    FIRTH("logistic regression by Firth's penalised likelihood");

    private final String words;

    LogisticMethod(String words) {
        this.words = words;
    }

    /** For the reader of a report. */
    public String words() {
        return words;
    }
}
