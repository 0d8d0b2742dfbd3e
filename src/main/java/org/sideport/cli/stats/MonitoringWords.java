package org.sideport.cli.stats;

import org.sideport.stats.monitoring.BinaryDesign;
import org.sideport.stats.monitoring.LearningCurveDesign;
import org.sideport.stats.monitoring.LlrDesign;
import org.sideport.stats.monitoring.SignalKind;
import org.sideport.stats.monitoring.SprtDesign;
import org.sideport.stats.monitoring.TabularDesign;

/** Names and cautions of charts. */
final class MonitoringWords {

    private static final String FORMATIVE = " must have been fixed before anyone looked at the cases. This is formative"
            + " feedback and no verdict on a person: what follows from it is for supervisors, local regulations and the"
            + " credentialing body to decide.";

    /** Belongs to every chart of failures. */
    static final String CAUTION =
            "The parameters decide the verdict, so they, and what counts as a failure," + FORMATIVE;

    /** Belongs to every chart of values. */
    static final String VALUE_CAUTION = "The parameters decide what stands out, so they, and the baseline," + FORMATIVE;

    /** Belongs to every chart that uses risks. */
    static final String OWN_GRADE =
            "the risks were taken as they are; to judge a trainee they must leave the operator's own"
                    + " grade out, otherwise the inexperience is adjusted away; state which was done";

    private MonitoringWords() {}

    static String title(BinaryDesign design) {
        if (design instanceof SprtDesign sprt) {
            return "sequential probability ratio test, acceptable rate " + Figures.plain(sprt.p0())
                    + ", unacceptable rate " + Figures.plain(sprt.p1()) + ", alpha " + Figures.plain(sprt.alpha())
                    + ", beta " + Figures.plain(sprt.beta());
        }
        if (design instanceof TabularDesign tabular) {
            return "tabular CUSUM, k " + Figures.plain(tabular.k(), 4) + ", acceptable rate "
                    + Figures.plain(tabular.p0()) + ", unacceptable rate " + Figures.plain(tabular.p1());
        }
        if (design instanceof LlrDesign llr) {
            return "log-likelihood-ratio CUSUM, odds of failure times " + Figures.plain(llr.oddsMultiplier())
                    + ", acceptable rate " + Figures.plain(llr.p0()) + ", changed rate "
                    + Figures.plain(llr.otherRate());
        }
        LearningCurveDesign learning = (LearningCurveDesign) design;
        return "learning-curve CUSUM (LC-CUSUM), acceptable rate " + Figures.plain(learning.pa())
                + ", unacceptable rate " + Figures.plain(learning.pi());
    }

    static String name(BinaryDesign design) {
        return design instanceof SprtDesign
                ? "sprt"
                : design instanceof TabularDesign ? "tabular" : design instanceof LlrDesign ? "llr" : "lc";
    }

    /** @param learning whether acceptance shows competence in a chart that starts from its absence */
    static String signal(SignalKind kind, boolean learning) {
        return switch (kind) {
            case ALARM -> "alarm";
            case ACCEPTED -> learning ? "competence shown" : "acceptable rate accepted";
            case IMPROVED -> "improvement";
            case HIGH -> "high";
            case LOW -> "low";
        };
    }

    static String cases(long count) {
        return count == 1 ? "1 case" : count + " cases";
    }

    static String failures(long count) {
        return count == 1 ? "1 failure" : count + " failures";
    }
}
