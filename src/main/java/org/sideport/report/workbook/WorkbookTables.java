package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import org.sideport.model.Rubric;
import org.sideport.report.workbook.UnitFigures.Competency;
import org.sideport.report.workbook.UnitFigures.CurvePlace;

/**
 * The tables of a workbook in their order, the same for sheets and CSV.
 *
 * @param all with the dictionary of all of them last
 */
record WorkbookTables(
        List<Table<?>> all, Table<Competency> competencies, Table<CurvePlace> curves, Set<Rubric> rubrics) {

    /** @throws org.sideport.model.InputException if a rating does not fit its rubric */
    static WorkbookTables of(WorkbookData data, WorkbookOptions options, Headings headings) {
        Lookup lookup = new Lookup(data);
        Assessments assessments = new Assessments(data, lookup);
        TaggingTables tagging = new TaggingTables(data, lookup);
        TimingTables timing = new TimingTables(data, lookup);
        UnitFigures figures = data.figures();
        CompetencyTables competencies = new CompetencyTables(figures, new Cells(options));
        AssessorTables assessors = new AssessorTables(figures);
        FollowTables follow = new FollowTables(figures, options);
        Table<Competency> table = competencies.competencies();
        Table<CurvePlace> curves = follow.curves();
        List<Table<?>> tables = new ArrayList<>(List.of(
                Notes.settings(data),
                new Cohort(data, lookup, assessments).table(),
                competencies.matrix(),
                table,
                assessors.assessors(),
                assessors.reliability(),
                assessors.components(),
                assessors.planned(),
                follow.learning(),
                follow.complications(),
                follow.standards(),
                timing.summary(),
                CaseTable.of(data, lookup, assessments),
                assessments.assessments(),
                assessments.items(),
                competencies.shares(),
                tagging.phases(),
                tagging.events(),
                timing.phases(),
                timing.cases(),
                curves));
        if (options.shared()) {
            tables.removeIf(Table::single);
        }
        tables.add(Notes.dictionary(tables, headings));
        return new WorkbookTables(List.copyOf(tables), table, curves, assessments.rubrics());
    }
}
