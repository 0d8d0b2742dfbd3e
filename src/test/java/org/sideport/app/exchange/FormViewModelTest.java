package org.sideport.app.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.InputStream;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Notices;
import org.sideport.app.RunNow;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.model.SurgicalCase;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.Vocabularies;
import org.sideport.workflow.exchange.MarkingForm;

/** A form goes out and comes back through the screen's models; a spreadsheet library fills it in between. */
class FormViewModelTest {

    /** Four levels: A id, B number, C item, D to G levels, H mark. */
    private static final int MARK = 7;

    private static final String ITEM =
            ShippedRubrics.phacoCompetency().items().get(0).id();

    @TempDir
    Path temp;

    private final Texts texts = new Texts();
    private final RunNow work = new RunNow();
    private final Notices notices = new Notices(texts);
    private final List<String> asked = new ArrayList<>();
    private final List<String> stored = new ArrayList<>();
    private boolean yes;
    private Workspace workspace;
    private Settings settings;
    private Path form;

    @BeforeEach
    void aFormOfTheCase() {
        workspace = FreshWorkspace.in(temp.resolve("unit"));
        SurgicalCase one = new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null);
        workspace.change(s -> s.cases().add(one));
        settings = new Settings(temp.resolve("window.properties"));
        form = temp.resolve("form.xlsx");
        List<Path> written = new ArrayList<>();
        FormViewModel model = new FormViewModel(
                new MarkingForm(workspace), new Vocabularies(workspace), one, work, texts, settings, written::add);
        assertThat(model.whyNotProperty().get()).isEqualTo("Say who marks");
        model.write(form);
        assertThat(form).doesNotExist();
        model.rubricProperty()
                .set(model.rubrics().stream()
                        .filter(r -> r.id().equals("phaco-competency"))
                        .findFirst()
                        .orElseThrow());
        model.assessorProperty().set("A1");
        model.write(form);
        assertThat(written).containsExactly(form);
    }

    @AfterEach
    void close() {
        settings.close();
        workspace.close();
    }

    private void fill(Consumer<XSSFSheet> pen) throws Exception {
        try (InputStream in = Files.newInputStream(form);
                XSSFWorkbook book = new XSSFWorkbook(in)) {
            pen.accept(book.getSheetAt(0));
            try (OutputStream out = Files.newOutputStream(form)) {
                book.write(out);
            }
        }
    }

    private static Row row(XSSFSheet sheet) {
        for (Row row : sheet) {
            if (row.getCell(0) != null && row.getCell(0).getStringCellValue().equals(ITEM)) {
                return row;
            }
        }
        throw new AssertionError("no row of " + ITEM);
    }

    private void take() {
        new FormReturn(new MarkingForm(workspace), work, notices, texts)
                .take(
                        form,
                        new FormReturn.Asked() {
                            @Override
                            public void faults(Path file, List<String> byCell) {
                                asked.addAll(byCell);
                            }

                            @Override
                            public void replace(String what, Runnable go) {
                                asked.add(what);
                                if (yes) {
                                    go.run();
                                }
                            }
                        },
                        stored::add);
    }

    private List<StoredRating> ratings() {
        return workspace.read(s -> s.ratings().ofCase("C-1"));
    }

    @Test
    void eachFaultIsToldByItsCellAndNothingIsStored() throws Exception {
        int[] line = new int[1];
        fill(sheet -> {
            line[0] = row(sheet).getRowNum() + 1;
            row(sheet).getCell(MARK).setCellValue(9);
        });
        take();
        assertThat(asked).singleElement().asString().contains("H" + line[0]);
        assertThat(ratings()).isEmpty();
    }

    @Test
    void anotherDraftIsReplacedOnlyAfterAYes() throws Exception {
        fill(sheet -> row(sheet).getCell(MARK).setCellValue(2));
        take();
        assertThat(stored).containsExactly("C-1");
        fill(sheet -> row(sheet).getCell(MARK).setCellValue(3));
        take();
        assertThat(asked).containsExactly("A1 has a draft for C-1 already that says something else");
        assertThat(ratings().get(0).rating().score(ITEM).orElseThrow()).hasFieldOrPropertyWithValue("points", 2);
        yes = true;
        take();
        assertThat(ratings())
                .singleElement()
                .satisfies(
                        r -> assertThat(r.rating().score(ITEM).orElseThrow()).hasFieldOrPropertyWithValue("points", 3));
    }
}
