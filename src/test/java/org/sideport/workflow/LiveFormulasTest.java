package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Progress;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.timing.CsvTable;

/** Whether a spreadsheet program that knows nothing of us comes to our values: LibreOffice. */
class LiveFormulasTest {

    private static final Path DEMO = Path.of("demo-data");

    @TempDir
    Path temp;

    @Test
    void libreOfficeComesToTheProgramsOwnValues() throws Exception {
        compare(List.of(demo(), programme("made", 6, 25)));
    }

    @Test
    @Tag("slow")
    void ofFiveThousandCasesToo() throws Exception {
        compare(List.of(programme("large", 40, 125)));
    }

    /** The invented cohort of the demo, without its recordings. */
    private Path demo() {
        try (Workspace workspace = FreshWorkspace.in(temp.resolve("demo"))) {
            ImportRecording cases = new ImportRecording(workspace);
            for (CsvTable.Row row :
                    CsvTable.read(DEMO.resolve("cohort-cases.csv")).rows()) {
                Map<String, String> descriptors = new LinkedHashMap<>(row.cells());
                descriptors.keySet().removeAll(List.of("case", "trainee", "date", "procedure"));
                cases.addCase(
                        new NewCase(
                                row.required("case"),
                                row.required("trainee"),
                                LocalDate.parse(row.required("date")),
                                row.required("procedure"),
                                descriptors),
                        null);
            }
            TagExchange tags = new TagExchange(workspace);
            tags.importCsv(DEMO.resolve("cohort-phases.csv"), null, false);
            tags.importCsv(DEMO.resolve("cohort-events.csv"), null, false);
            new LoadRatings(workspace).load(DEMO.resolve("cohort-ratings.csv"));
            return written(workspace, "demo.xlsx");
        }
    }

    private Path programme(String name, int trainees, int casesEach) {
        try (Workspace workspace = FreshWorkspace.in(temp.resolve(name))) {
            new MadeUpProgramme(workspace, 11).fill(trainees, casesEach);
            return written(workspace, name + ".xlsx");
        }
    }

    private Path written(Workspace workspace, String name) {
        Path out = temp.resolve(name);
        new WriteWorkbook(workspace)
                .write(out, new WriteWorkbook.Wish("en", false, CompleteLogs.all(true)), Progress.NONE);
        return out;
    }

    private void compare(List<Path> books) throws Exception {
        List<Path> computed = Office.recalculated(temp, books);
        List<String> wrong = new ArrayList<>();
        for (int i = 0; i < books.size(); i++) {
            Map<String, Office.Cell> ours = Office.formulas(books.get(i));
            Map<String, Office.Cell> theirs = Office.formulas(computed.get(i));
            assertThat(ours).hasSizeGreaterThan(400);
            assertThat(ours.values()).noneMatch(c -> c.type().equals("e"));
            assertThat(theirs.keySet()).isEqualTo(ours.keySet());
            ours.forEach((place, cell) -> {
                Office.Cell other = theirs.get(place);
                if (!alike(cell, other)) {
                    wrong.add(place + " " + cell + " but " + other.type() + " " + other.value());
                }
            });
        }
        assertThat(wrong).isEmpty();
    }

    /** Numbers within 1e-9 of each other, more only as far as they are greater than 1; texts and blanks alike. */
    private static boolean alike(Office.Cell ours, Office.Cell theirs) {
        if (!ours.type().equals("n") || !theirs.type().equals("n")) {
            return ours.type().equals(theirs.type()) && ours.value().equals(theirs.value());
        }
        double mine = Double.parseDouble(ours.value());
        return Math.abs(mine - Double.parseDouble(theirs.value())) <= 1e-9 * Math.max(1, Math.abs(mine));
    }
}
