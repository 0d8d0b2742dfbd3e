package org.sideport.workflow;

import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.StandardMethod;

/** What a standard is to be found from. */
public sealed interface CutBasis {

    StandardMethod method();

    /** A closed round of judges. */
    record Judged(String roundId) implements CutBasis {
        @Override
        public StandardMethod method() {
            return StandardMethod.ANGOFF;
        }
    }

    /**
     * Where the global grade of a performance stands.
     *
     * @param rubric the rubric of the scores itself, or another one that the same assessor marked the same case with
     * @param item the item whose points are the grade; {@code null} for the mean points over the marked items, which only
     *     another rubric allows
     */
    record Grades(String rubric, @Nullable String item) {}

    /** @param borderline grade at which the line is read; between two grades if need be */
    record Line(Grades grades, double borderline) implements CutBasis {
        @Override
        public StandardMethod method() {
            return StandardMethod.BORDERLINE_REGRESSION;
        }
    }

    /** @param borderline performances graded within half a grade of it count as borderline */
    record Borderline(Grades grades, double borderline) implements CutBasis {
        @Override
        public StandardMethod method() {
            return StandardMethod.BORDERLINE_GROUP;
        }
    }

    /** By what groups are named. */
    enum Members {
        TRAINEES,
        CASES
    }

    /**
     * @param weaker codes of those not yet competent
     * @param stronger codes of the competent
     */
    record Groups(Members members, List<String> weaker, List<String> stronger) implements CutBasis {
        public Groups {
            weaker = List.copyOf(weaker);
            stronger = List.copyOf(stronger);
        }

        @Override
        public StandardMethod method() {
            return StandardMethod.CONTRASTING_GROUPS;
        }
    }

    /** @param share agreed by a body, 0 to 1 */
    record Given(double share) implements CutBasis {
        @Override
        public StandardMethod method() {
            return StandardMethod.AGREED;
        }
    }
}
