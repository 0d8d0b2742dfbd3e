package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.report.workbook.Column.Input;
import org.sideport.report.workbook.Column.Kind;

/** The sheets "Settings" (numbers that formulas use) and "Dictionary" (every column of every sheet). */
final class Notes {

    /** @param value {@code null} where nothing is typed yet */
    record Setting(String label, String name, @Nullable Object value, Input input, String meaning) {}

    /** @param sheet where the column stands */
    record Entry(Table<?> sheet, Column<?> column) {}

    private Notes() {}

    static Table<Setting> settings(WorkbookData data) {
        UnitFigures figures = data.figures();
        List<Setting> rows = List.of(
                new Setting(
                        "k of the last k",
                        "last_k",
                        data.recentCases(),
                        new Input(true, 1, 1000, "A whole number of cases, 1 to 1000."),
                        "how many of the latest marked cases the means, limits and counts of Cohort matrix,"
                                + " Competencies and Standards are over"),
                new Setting(
                        "Share to reach",
                        "share_limit",
                        null,
                        new Input(false, 0, 1, "A share from 0 to 1, such as 0.6; empty for the agreed standard."),
                        "share, 0 to 1, that Competencies counts cases against; empty for the standard that was"
                                + " agreed"),
                new Setting(
                        "Coefficient Φ wished",
                        "phi_wish",
                        figures.wish(),
                        new Input(false, 0, 1, "A coefficient from 0 to 1, such as 0.8."),
                        "what D-study plans for; 0.80 is commonly asked for before decisions of weight (Downing 2004,"
                                + " Medical Education 38:1006)"),
                new Setting(
                        "Minutes for each mark",
                        "minutes_each",
                        figures.minutesEach(),
                        new Input(false, 0, 600, "Minutes of one assessor for one case."),
                        "minutes of one assessor for one case, for planning; common practice, no source"));
        return new Tables<Setting>("settings of the program")
                .add("Setting", Kind.TEXT, "what it is", Setting::label)
                .add("Value", Kind.NUMBER, "what formulas use; type another to see the figures change", Setting::value)
                .framed()
                .add("Name", Kind.TEXT, "by which formulas know it", Setting::name)
                .add("Meaning", Kind.PROSE, "what depends on it", Setting::meaning)
                .table("Settings", "Numbers that the live formulas use. Only framed cells are to be typed in.", rows);
    }

    /** Of all these tables and of its own columns, out of the columns themselves. */
    static Table<Entry> dictionary(List<Table<?>> tables, Headings headings) {
        List<Entry> rows = new ArrayList<>();
        Tables<Entry> columns = new Tables<Entry>("the program")
                .add(
                        "Sheet",
                        Kind.TEXT,
                        "name of the sheet, the same in every language",
                        e -> e.sheet().name())
                .add("Column", Kind.TEXT, "header of the column", e -> headings.of(e.column()))
                .add(
                        "Code",
                        Kind.TEXT,
                        "the same in every language; header in the CSV files",
                        e -> e.column().code())
                .add("Meaning", Kind.PROSE, "what it says", e -> e.column().meaning())
                .add(
                        "Unit",
                        Kind.TEXT,
                        "of the values; blank for texts",
                        e -> e.column().kind().unit())
                .add(
                        "Source",
                        Kind.PROSE,
                        "where the values come from",
                        e -> e.column().source());
        String purpose = "One row for each column of each sheet.";
        for (Table<?> table : tables) {
            table.columns().forEach(c -> rows.add(new Entry(table, c)));
        }
        Table<Entry> own = columns.summary("Dictionary", purpose, List.of());
        own.columns().forEach(c -> rows.add(new Entry(own, c)));
        return new Table<>(own.name(), purpose, own.columns(), rows, false);
    }
}
