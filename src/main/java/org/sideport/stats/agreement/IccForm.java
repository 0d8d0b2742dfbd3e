package org.sideport.stats.agreement;

/**
 * Intraclass correlations of Shrout & Fleiss 1979 (Psychological Bulletin 86:420), beside them the names of McGraw & Wong
 * 1996 (Psychological Methods 1:30).
 */
public enum IccForm {
    /** Each subject has raters of its own; reliability of one score. */
    ICC_1_1("ICC(1,1)", "ICC(1)", "absolute agreement, raters differ between subjects, one rater"),
    /** The same raters for all, a sample of raters; absolute agreement of one score. */
    ICC_2_1("ICC(2,1)", "ICC(A,1)", "absolute agreement, one rater"),
    /** The same raters for all, only these raters count; consistency of one score. */
    ICC_3_1("ICC(3,1)", "ICC(C,1)", "consistency, one rater"),
    /** As (1,1), of the mean of k scores. */
    ICC_1_K("ICC(1,k)", "ICC(k)", "absolute agreement, raters differ between subjects, mean of k raters"),
    /** As (2,1), of the mean of k raters. */
    ICC_2_K("ICC(2,k)", "ICC(A,k)", "absolute agreement, mean of k raters"),
    /** As (3,1), of the mean of k raters; equals Cronbach's alpha. */
    ICC_3_K("ICC(3,k)", "ICC(C,k)", "consistency, mean of k raters");

    private final String shroutFleiss;
    private final String mcGrawWong;
    private final String meaning;

    IccForm(String shroutFleiss, String mcGrawWong, String meaning) {
        this.shroutFleiss = shroutFleiss;
        this.mcGrawWong = mcGrawWong;
        this.meaning = meaning;
    }

    public String shroutFleiss() {
        return shroutFleiss;
    }

    public String mcGrawWong() {
        return mcGrawWong;
    }

    /** A few plain words. */
    public String meaning() {
        return meaning;
    }
}
