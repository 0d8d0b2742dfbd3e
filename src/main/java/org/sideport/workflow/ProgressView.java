package org.sideport.workflow;

import java.time.LocalDate;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.model.CommentTone;
import org.sideport.model.MediaTime;
import org.sideport.model.Procedure;
import org.sideport.model.Rubric;
import org.sideport.stats.Estimate;
import org.sideport.stats.Outcome;
import org.sideport.stats.learning.LearningModel;
import org.sideport.stats.monitoring.BinaryChart;
import org.sideport.stats.monitoring.LearningCurveDesign;
import org.sideport.workflow.ReferenceTimes.Usual;
import org.sideport.workflow.assign.SelfAndAssessor.OverTime;
import org.sideport.workflow.consent.LeftOut;

/**
 * How a trainee comes along in one procedure. Formative: speed is not competence, and no figure here is a verdict.
 *
 * @param cases all that the caller may see, by date, then code; their numbers count within this workspace only
 * @param hidden how many more the trainee has that the caller may not see; then the cases are a selection, and what needs
 *     every case in turn is refused
 * @param leftOut how many of the trainee's cases do not count, here or in any figure, and have no number
 * @param untagged how many of the cases nobody has tagged
 * @param recent how many of the latest cases are compared with those before
 * @param fewestPeers below, what is known of others stays hidden
 * @param times the whole operation first, then phases and steps in the procedure's order; those that occur
 * @param marks {@code null} if there is no signed mark that the caller may see
 * @param gap the trainee's own marks less the assessors'; {@code null} where there are none of both, or the caller may not
 * @param comments what others would have done better or asked, the newest first
 * @param monitoring complications case by case; refused with the reason
 */
public record ProgressView(
        String trainee,
        Procedure procedure,
        List<OneCase> cases,
        int hidden,
        LeftOut leftOut,
        int untagged,
        int recent,
        int fewestPeers,
        List<TermTimes> times,
        @Nullable Marks marks,
        @Nullable OverTime gap,
        List<Said> comments,
        Outcome<Monitoring> monitoring) {

    /** The id under which the time from first tag to last tag stands among the phases. */
    public static final String WHOLE = "total";

    public ProgressView {
        cases = List.copyOf(cases);
        times = List.copyOf(times);
        comments = List.copyOf(comments);
    }

    /** @param number 1 for the first */
    public record OneCase(int number, String code, LocalDate date, CaseMix mix) {}

    /** @param us active time; for the whole from the first tag to the last */
    public record Timed(OneCase of, long us) {}

    /**
     * Times of one phase or step.
     *
     * @param id of the phase or step, or {@link #WHOLE}
     * @param name of the procedure file; empty for the whole
     * @param step true for a step, whose time is within that of its phase too
     * @param own in the order of the cases
     * @param unsure how many cases are left out since their time is a lower limit only
     * @param curve refused where the cases do not carry one
     * @param change refused below {@link FollowProgress#FEWEST_EACH} cases on either side
     * @param references what there is to hold it against
     */
    public record TermTimes(
            String id,
            String name,
            boolean step,
            List<Timed> own,
            int unsure,
            Outcome<Curve> curve,
            Outcome<Change> change,
            Peers peers,
            List<Held> references) {
        public TermTimes {
            own = List.copyOf(own);
            references = List.copyOf(references);
        }
    }

    /**
     * @param model that describes the times best by AICc
     * @param supported those that the data do not tell from it, itself among them
     * @param doubling what each doubling of the number of cases multiplies the time by, with limits; {@code null} where that
     *     curve could not be fitted
     * @param places along the curve, microseconds, with 95 % limits of the curve itself
     */
    public record Curve(
            LearningModel model,
            List<LearningModel> supported,
            @Nullable Estimate doubling,
            List<CurvePlace> places) {
        public Curve {
            supported = List.copyOf(supported);
            places = List.copyOf(places);
        }

        /** True if the data tell a change with the number of cases from none. */
        public boolean showsChange() {
            return !supported.contains(LearningModel.CONSTANT);
        }
    }

    public record CurvePlace(double caseNumber, double us, double lowUs, double highUs) {}

    /**
     * @param recentUs geometric mean of the latest cases
     * @param earlierUs geometric mean of those before
     * @param ratio of the two, with limits; below 1 the latest took less long
     */
    public record Change(int recent, int earlier, double recentUs, double earlierUs, Estimate ratio) {}

    /**
     * What others took at about as many cases. No code of anybody is in it.
     *
     * @param peers how many others have a time here at all
     * @param blocks those in which enough of them have one
     * @param masked how many blocks are hidden because too few of them have one
     */
    public record Peers(int peers, List<Block> blocks, int masked) {
        public Peers {
            blocks = List.copyOf(blocks);
        }
    }

    /**
     * Case numbers from 1, 2, 4, 8 … on; each person counts once, by the median of the own cases in it.
     *
     * @param lowUs lower quartile of these (type 7 of Hyndman & Fan 1996)
     */
    public record Block(int from, int to, int peers, double lowUs, double middleUs, double highUs) {}

    /**
     * @param id as {@link ReferenceTimes.Reference#id()}
     * @param title empty for the unit's exemplars
     * @param source empty for these
     * @param caveat empty for these
     */
    public record Held(String id, String title, String source, String caveat, Usual usual) {}

    /**
     * @param otherVersions signed marks with other versions of the rubric, which are left out
     * @param items in the rubric's order; those that were marked
     */
    public record Marks(Rubric rubric, int otherVersions, List<CaseShare> shares, List<ItemMarks> items) {
        public Marks {
            shares = List.copyOf(shares);
            items = List.copyOf(items);
        }
    }

    /** @param share of the applicable maximum, mean over the assessors */
    public record CaseShare(OneCase of, double share, int assessors) {}

    public record ItemMarks(String item, String title, double most, List<CasePoints> points) {
        public ItemMarks {
            points = List.copyOf(points);
        }
    }

    /** @param points mean over the assessors */
    public record CasePoints(OneCase of, double points, int assessors) {}

    /** @param answered true if the trainee has written back */
    public record Said(
            OneCase of, String comment, String author, CommentTone tone, String text, MediaTime at, boolean answered) {}

    /**
     * @param chart the learning-curve CUSUM until it signals, from then on an ordinary one
     * @param failures how many of the cases
     * @param kinds ids of the events that count
     * @param watchLimit limit of the ordinary one
     * @param within cases of the two shares
     * @param adequate chance of a signal within so many cases at the adequate rate
     * @param inadequate the same at the inadequate rate: a wrong signal
     */
    public record Monitoring(
            BinaryChart chart,
            LearningCurveDesign design,
            int cases,
            int failures,
            List<String> kinds,
            double watchLimit,
            int within,
            double adequate,
            double inadequate) {
        public Monitoring {
            kinds = List.copyOf(kinds);
        }
    }
}
