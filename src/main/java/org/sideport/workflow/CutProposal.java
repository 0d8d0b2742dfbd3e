package org.sideport.workflow;

import java.util.Collections;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;

/**
 * A cut as it was computed, before anybody agrees to it.
 *
 * @param share of the applicable maximum, 0 to 1
 * @param standardError {@code null} where the method gives none; likewise the limits
 * @param n what the method counts; {@code null} for one that is not computed
 * @param described what it rests on, by short names
 * @param dataDigest of the data it was computed from; empty if none
 */
public record CutProposal(
        String rubric,
        String rubricVersion,
        CutBasis basis,
        double share,
        @Nullable Double standardError,
        @Nullable Double lower,
        @Nullable Double upper,
        @Nullable Double level,
        @Nullable Integer n,
        Map<String, String> described,
        List<String> warnings,
        String dataDigest,
        Detail detail) {

    public CutProposal {
        described = Collections.unmodifiableMap(new LinkedHashMap<>(described));
        warnings = List.copyOf(warnings);
    }

    /** What else the method says. */
    public sealed interface Detail {}

    /** Nothing. */
    record None() implements Detail {}

    /** @param points weighted sum over items */
    public record JudgeTotal(String judge, double points, double share) {}

    /** Standard error of the share, had this many judges been asked. */
    public record Panel(int judges, double standardError) {}

    /**
     * @param maximum weighted sum of the most points
     * @param overItems standard error of the share where the items too are a sample of those that might have been asked
     */
    public record Judges(List<JudgeTotal> totals, double maximum, double overItems, List<Panel> panels)
            implements Detail {
        public Judges {
            totals = List.copyOf(totals);
            panels = List.copyOf(panels);
        }
    }

    /** @param grade {@code null} where the method knows none */
    public record Performance(
            String caseCode,
            String trainee,
            String assessor,
            @Nullable Double grade,
            double share) {}

    /** The line {@code share = intercept + slope · grade}. */
    public record Line(double intercept, double slope, double r2, double residualSd, List<Performance> performances)
            implements Detail {
        public Line {
            performances = List.copyOf(performances);
        }
    }

    /** @param graded all performances with a grade, of which the borderline ones count */
    public record Borderline(Estimate median, @Nullable Double sd, int graded, List<Performance> performances)
            implements Detail {
        public Borderline {
            performances = List.copyOf(performances);
        }
    }

    /** One score for each case: the mean over its assessors. */
    public record Group(int n, double mean, double sd, List<Performance> performances) {
        public Group {
            performances = List.copyOf(performances);
        }
    }

    /**
     * @param falsePass share of the weaker group that the curves put above the cut
     * @param falseFail share of the stronger group that the curves put below it
     * @param observedCut the cut that misjudges fewest of these cases
     */
    public record Groups(
            Group weaker,
            Group stronger,
            double falsePass,
            double falseFail,
            Estimate observedFalsePass,
            Estimate observedFalseFail,
            double observedCut)
            implements Detail {}
}
