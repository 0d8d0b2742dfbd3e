package org.sideport.app.cohort;

import java.util.List;
import org.sideport.workflow.CellMarks;
import org.sideport.workflow.CohortTimesView;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.ComplicationsView;
import org.sideport.workflow.MarkingPlan;
import org.sideport.workflow.OutstandingWork;
import org.sideport.workflow.consent.LeftOut;

/** What of the cohort is on the screen. */
sealed interface Shown {

    /** Cases that do not count in it. */
    default LeftOut leftOut() {
        return LeftOut.NONE;
    }

    record Matrix(CohortView view) implements Shown {
        @Override
        public LeftOut leftOut() {
            return view.leftOut();
        }
    }

    record Cell(CellMarks marks) implements Shown {}

    /** @param anyCases false in a unit without cases, of which nothing can be said */
    record Work(List<OutstandingWork.Item> items, boolean anyCases) implements Shown {
        public Work {
            items = List.copyOf(items);
        }
    }

    record Plan(MarkingPlan plan) implements Shown {
        @Override
        public LeftOut leftOut() {
            return plan.leftOut();
        }
    }

    record Complications(ComplicationsView view) implements Shown {
        @Override
        public LeftOut leftOut() {
            return view.leftOut();
        }
    }

    record Times(CohortTimesView view) implements Shown {
        @Override
        public LeftOut leftOut() {
            return view.leftOut();
        }
    }

    record Assessors(CohortView view) implements Shown {
        @Override
        public LeftOut leftOut() {
            return view.leftOut();
        }
    }
}
