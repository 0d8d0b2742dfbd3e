package org.sideport.app.cohort;

import java.util.List;
import org.sideport.workflow.CellMarks;
import org.sideport.workflow.CohortTimesView;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.ComplicationsView;
import org.sideport.workflow.MarkingPlan;
import org.sideport.workflow.OutstandingWork;

/** What of the cohort is on the screen. */
sealed interface Shown {

    record Matrix(CohortView view) implements Shown {}

    record Cell(CellMarks marks) implements Shown {}

    record Work(List<OutstandingWork.Item> items) implements Shown {
        public Work {
            items = List.copyOf(items);
        }
    }

    record Plan(MarkingPlan plan) implements Shown {}

    record Complications(ComplicationsView view) implements Shown {}

    record Times(CohortTimesView view) implements Shown {}

    record Assessors(CohortView view) implements Shown {}
}
