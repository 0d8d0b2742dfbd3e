package org.sideport.workflow.exchange;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.junit.jupiter.api.Assumptions.assumeTrue;

import java.io.InputStream;
import java.io.OutputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.function.Consumer;
import org.apache.poi.ss.usermodel.Cell;
import org.apache.poi.ss.usermodel.DataValidation;
import org.apache.poi.ss.usermodel.Row;
import org.apache.poi.xssf.usermodel.XSSFSheet;
import org.apache.poi.xssf.usermodel.XSSFWorkbook;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.model.SurgicalCase;
import org.sideport.report.form.FormFault;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;

/** Forms filled in as a person would with a spreadsheet program, and as one would who means harm. */
class MarkingFormTest {

    private static final Rubric RUBRIC = ShippedRubrics.phacoCompetency();

    /** Four levels: A id, B number, C item, D to G levels, H mark, I reason, J comment. */
    private static final int MARK = 7;

    private static final int REASON = 8;
    private static final int COMMENT = 9;

    @TempDir
    Path temp;

    private Workspace workspace;
    private MarkingForm forms;
    private Path form;

    @BeforeEach
    void aForm() {
        workspace = FreshWorkspace.in(temp.resolve("unit"));
        workspace.change(
                s -> s.cases().add(new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null)));
        forms = new MarkingForm(workspace);
        form = temp.resolve("form.xlsx");
        forms.write(RUBRIC.id(), "C-1", "A1", false, "en", form);
    }

    @AfterEach
    void close() {
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

    private static Row row(XSSFSheet sheet, String id) {
        for (Row row : sheet) {
            Cell cell = row.getCell(0);
            if (cell != null && cell.getStringCellValue().equals(id)) {
                return row;
            }
        }
        throw new AssertionError("no row of " + id);
    }

    private static String id(int item) {
        return RUBRIC.items().get(item).id();
    }

    private List<StoredRating> stored() {
        return workspace.read(s -> s.ratings().ofCase("C-1"));
    }

    @Test
    void whatWasFilledInBecomesADraftOfTheAssessor() throws Exception {
        fill(sheet -> {
            row(sheet, id(0)).getCell(MARK).setCellValue(3);
            row(sheet, id(0)).getCell(COMMENT).setCellValue("Sure hands, \"one\" pass");
            row(sheet, id(1)).getCell(MARK).setCellValue(" 2 ");
            row(sheet, id(2)).getCell(REASON).setCellValue("done by trainer");
            row(sheet, id(2)).getCell(COMMENT).setCellValue(12);
            row(sheet, "#comment").getCell(3).setCellValue("Good progress.");
            row(sheet, "#action1").getCell(3).setCellValue("wider wound");
            row(sheet, "#action3").getCell(3).setCellValue("slower");
        });
        MarkingForm.Taken taken = forms.take(form, false);
        assertThat(taken.faults()).isEmpty();
        assertThat(stored()).singleElement().satisfies(r -> {
            assertThat(r.state()).isEqualTo(RatingState.DRAFT);
            assertThat(r.rating().assessor()).isEqualTo("A1");
            assertThat(r.rating().self()).isFalse();
            assertThat(r.rating().comment()).isEqualTo("Good progress.");
            assertThat(r.rating().actions()).containsExactly("wider wound", "slower");
            assertThat(r.rating().scores())
                    .containsExactly(
                            new ItemScore.Marked(id(0), 3, "Sure hands, \"one\" pass"),
                            new ItemScore.Marked(id(1), 2, ""),
                            new ItemScore.Excused(id(2), NotApplicable.DONE_BY_TRAINER, "12"));
        });
        assertThat(forms.take(form, false).rated()).isNotNull();
    }

    @Test
    void everyFaultIsNamedByItsCellAllAtOnceAndNothingIsStored() throws Exception {
        int[] first = new int[1];
        fill(sheet -> {
            first[0] = row(sheet, id(0)).getRowNum() + 1;
            row(sheet, id(0)).getCell(MARK).setCellValue(9);
            row(sheet, id(1)).getCell(MARK).setCellValue("very good");
            row(sheet, id(2)).getCell(REASON).setCellValue("was in a hurry");
            row(sheet, id(3)).getCell(MARK).setCellFormula("1+2");
            row(sheet, id(4)).getCell(MARK).setCellValue(2);
            row(sheet, id(4)).getCell(REASON).setCellValue("not visible");
            row(sheet, id(5)).getCell(COMMENT).setCellValue("a comment without a mark");
            row(sheet, id(6)).getCell(MARK).setCellValue(2.5);
            row(sheet, id(7)).getCell(MARK).setCellValue(true);
            row(sheet, id(8)).getCell(COMMENT).setCellFormula("HYPERLINK(\"http://x\",\"y\")");
            row(sheet, "#comment").getCell(3).setCellValue("x".repeat(4001));
        });
        List<FormFault> faults = forms.take(form, false).faults();
        assertThat(faults).hasSize(10);
        assertThat(faults.get(0).cell()).isEqualTo("Marking!H" + first[0]);
        assertThat(faults.get(0).text()).contains("cannot be 9", "write one of [1, 2, 3, 4]");
        assertThat(faults)
                .extracting(FormFault::what)
                .satisfiesExactly(
                        w -> assertThat(w).contains("cannot be 9"),
                        w -> assertThat(w).contains("\"very good\" is no mark"),
                        w -> assertThat(w).contains("\"was in a hurry\" is no reason"),
                        w -> assertThat(w).contains("formula"),
                        w -> assertThat(w).contains("a mark and a reason"),
                        w -> assertThat(w).contains("a comment, and neither"),
                        w -> assertThat(w).contains("cannot be 2.5"),
                        w -> assertThat(w).contains("is no mark"),
                        w -> assertThat(w).contains("formula"),
                        w -> assertThat(w).contains("4001 characters"));
        assertThat(stored()).isEmpty();
    }

    @Test
    void onlyTheInputCellsCanBeWrittenAndTheirListsAreTheRubrics() throws Exception {
        try (InputStream in = Files.newInputStream(form);
                XSSFWorkbook book = new XSSFWorkbook(in)) {
            XSSFSheet sheet = book.getSheetAt(0);
            assertThat(sheet.getProtect()).isTrue();
            assertThat(book.isSheetVeryHidden(1)).isTrue();
            assertThat(book.isStructureLocked()).isTrue();
            int open = 0;
            for (Row row : sheet) {
                for (Cell cell : row) {
                    if (!cell.getCellStyle().getLocked()) {
                        open++;
                        assertThat(cell.getColumnIndex()).isGreaterThanOrEqualTo(3);
                    }
                }
            }
            // mark, reason and comment of each item; four free lines over 7 columns each
            assertThat(open).isEqualTo(RUBRIC.items().size() * 3 + 4 * 7);
            Row first = row(sheet, id(0));
            assertThat(first.getCell(3).getStringCellValue())
                    .isEqualTo(RUBRIC.items().get(0).anchors().get(0).text());
            List<? extends DataValidation> rules = sheet.getDataValidations();
            assertThat(rules).hasSize(RUBRIC.items().size() * 2);
            assertThat(rules.get(0).getValidationConstraint().getExplicitListValues())
                    .containsExactly("1", "2", "3", "4");
            assertThat(sheet.getPrintSetup().getLandscape()).isTrue();
            assertThat(sheet.getPrintSetup().getFitWidth()).isEqualTo((short) 1);
        }
    }

    @Test
    void aFormOfCountsTakesCounts() throws Exception {
        forms.write("phaco-errors", "C-1", "A1", false, "en", form);
        // three levels or fewer in this rubric: found by the header, not by a fixed column
        int[] mark = new int[1];
        fill(sheet -> {
            for (Row row : sheet) {
                for (Cell cell : row) {
                    if (cell.getCellType() == org.apache.poi.ss.usermodel.CellType.STRING
                            && cell.getStringCellValue().equals("Mark")) {
                        mark[0] = cell.getColumnIndex();
                    }
                }
            }
            row(sheet, "do_incisions").getCell(mark[0]).setCellValue(2);
        });
        forms.take(form, false);
        // rubrics/phaco-errors.json: from 2 on, 1 point
        assertThat(stored().get(0).rating().scores())
                .containsExactly(new ItemScore.Marked("do_incisions", 1, 2.0, "", List.of()));
        fill(sheet -> row(sheet, "do_incisions").getCell(mark[0]).setCellValue(1.5));
        assertThat(forms.take(form, true).faults())
                .singleElement()
                .satisfies(f -> assertThat(f.text()).contains("cannot be 1.5", "a number from 0 on"));
    }

    @Test
    void aDraftThatSaysSomethingElseIsNotReplacedUnasked() throws Exception {
        fill(sheet -> row(sheet, id(0)).getCell(MARK).setCellValue(3));
        forms.take(form, false);
        fill(sheet -> row(sheet, id(0)).getCell(MARK).setCellValue(1));
        assertThatThrownBy(() -> forms.take(form, false)).hasMessageContaining("--replace");
        assertThat(stored().get(0).rating().scores()).containsExactly(new ItemScore.Marked(id(0), 3, ""));
        forms.take(form, true);
        assertThat(stored().get(0).rating().scores()).containsExactly(new ItemScore.Marked(id(0), 1, ""));
    }

    @Test
    void anEmptyFormSaysSo() {
        assertThat(forms.take(form, false).faults())
                .singleElement()
                .satisfies(f -> assertThat(f.text()).contains("nothing is filled in"));
    }

    @Test
    void aRubricOfAnotherVersionOrTextIsRefused() throws Exception {
        Path own = Files.createDirectories(workspace.dir().resolve("rubrics")).resolve("own.json");
        String text = ShippedRubrics.text("phaco-competency.json");
        Files.writeString(own, text.replace("\"version\": \"1.0.0\"", "\"version\": \"1.1.0\""));
        assertThatThrownBy(() -> forms.take(form, false))
                .hasMessageContaining("version 1.0.0 of rubric phaco-competency, which is now 1.1.0");
        Files.writeString(own, text.replace("Side port", "Second port"));
        assertThatThrownBy(() -> forms.take(form, false)).hasMessageContaining("another text of rubric");
        assertThat(stored()).isEmpty();
    }

    @Test
    void aGermanFormSpeaksGermanAndComesBackTheSame() throws Exception {
        String text = ShippedRubrics.text("phaco-competency.json");
        int end = text.lastIndexOf('}');
        String german = text.substring(0, end).stripTrailing().replaceAll(",$", "")
                + ", \"translations\": {\"de\": {\"title\": \"Phako auf Video\", \"items\": {\"side_port\":"
                + " {\"title\": \"Parazentese\", \"anchors\": {\"1\": \"Klinge trifft die Iris.\"}}}}}}";
        Files.writeString(
                Files.createDirectories(workspace.dir().resolve("rubrics")).resolve("own.json"),
                german.replaceAll(",\\s*\"translations\": \\{\\}", ""));
        forms.write(RUBRIC.id(), "C-1", "A1", false, "de", form);
        fill(sheet -> {
            assertThat(sheet.getSheetName()).isEqualTo("Beurteilung");
            assertThat(sheet.getRow(0).getCell(1).getStringCellValue()).isEqualTo("Phako auf Video");
            assertThat(row(sheet, "side_port").getCell(2).getStringCellValue()).startsWith("Parazentese");
            assertThat(row(sheet, "side_port").getCell(3).getStringCellValue()).isEqualTo("Klinge trifft die Iris.");
            row(sheet, "side_port").getCell(REASON).setCellValue("nicht zu sehen");
        });
        forms.take(form, false);
        assertThat(stored().get(0).rating().scores())
                .containsExactly(new ItemScore.Excused("side_port", NotApplicable.NOT_VISIBLE, ""));
    }

    // ---- harm

    private Map<String, byte[]> parts() throws Exception {
        return new LinkedHashMap<>(Zips.read(form));
    }

    private void refused(Map<String, byte[]> parts, String words) throws Exception {
        Path hostile = Zips.write(parts, temp.resolve("hostile.xlsx"));
        assertThatThrownBy(() -> forms.take(hostile, false))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(words);
        assertThat(stored()).isEmpty();
    }

    @ParameterizedTest
    @CsvSource({
        "xl/vbaProject.bin, macros",
        "xl/externalLinks/externalLink1.xml, links to other files",
        "xl/embeddings/oleObject1.docx, objects or connections",
        "xl/connections.xml, objects or connections",
    })
    void macrosLinksAndObjectsAreRefused(String part, String words) throws Exception {
        Map<String, byte[]> parts = parts();
        parts.put(part, "<x/>".getBytes(StandardCharsets.UTF_8));
        refused(parts, words);
    }

    /** OWASP, XML External Entity Prevention Cheat Sheet: an outside entity, and entities that multiply. */
    @ParameterizedTest
    @CsvSource({"UTF-8", "UTF-16"})
    void entitiesAreRefusedAndTheOutsideFileIsNotRead(String charset) throws Exception {
        Path secret = Files.writeString(temp.resolve("secret.txt"), "3");
        for (String doctype : new String[] {
            "<!DOCTYPE x [<!ENTITY e SYSTEM \"" + secret.toUri() + "\">]>",
            "<!DOCTYPE x [<!ENTITY a \"aaaaaaaaaa\"><!ENTITY b \"&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;\">"
                    + "<!ENTITY c \"&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;\"><!ENTITY e \"&c;&c;&c;&c;&c;&c;&c;&c;\">]>"
        }) {
            Map<String, byte[]> parts = parts();
            String strings = new String(parts.get("xl/sharedStrings.xml"), StandardCharsets.UTF_8);
            String body = strings.substring(strings.indexOf("<sst")).replaceFirst("<t>[^<]*</t>", "<t>&e;</t>");
            parts.put(
                    "xl/sharedStrings.xml",
                    ("<?xml version=\"1.0\" encoding=\"" + charset + "\"?>" + doctype + body).getBytes(charset));
            refused(parts, "defines entities");
        }
    }

    @Test
    void aZipBombIsRefused() throws Exception {
        Map<String, byte[]> parts = parts();
        parts.put("xl/media/zeros.xml", new byte[200 << 20]);
        refused(parts, "would unpack to far more than a form");
    }

    @Test
    void otherKindsOfFilesAreRefused() throws Exception {
        Path macros = Files.copy(form, temp.resolve("form.xlsm"));
        assertThatThrownBy(() -> forms.take(macros, false)).hasMessageContaining("without macros");
        Map<String, byte[]> parts = parts();
        parts.replaceAll((name, bytes) -> name.equals("[Content_Types].xml")
                ? new String(bytes, StandardCharsets.UTF_8)
                        .replace("spreadsheetml.sheet.main+xml", "x")
                        .replace(
                                "application/vnd.openxmlformats-officedocument.x",
                                "application/vnd.ms-excel.sheet.macroEnabled.main+xml")
                        .getBytes(StandardCharsets.UTF_8)
                : bytes);
        refused(parts, "may hold macros");
        Path text = Files.writeString(temp.resolve("text.xlsx"), "no workbook");
        assertThatThrownBy(() -> forms.take(text, false)).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> forms.take(temp.resolve("none.xlsx"), false)).hasMessageContaining("no such file");
        byte[] whole = Files.readAllBytes(form);
        for (int part = 0; part < 10; part++) {
            Files.write(text, java.util.Arrays.copyOf(whole, whole.length * part / 10));
            assertThatThrownBy(() -> forms.take(text, false)).isInstanceOf(InputException.class);
        }
    }

    @Test
    void aWorkbookThatIsNoFormIsRefused() throws Exception {
        try (XSSFWorkbook book = new XSSFWorkbook();
                OutputStream out = Files.newOutputStream(form)) {
            book.createSheet("Sideport").createRow(0).createCell(0).setCellValue("format");
            book.write(out);
        }
        assertThatThrownBy(() -> forms.take(form, false)).hasMessageContaining("this is no marking form");
    }

    /** LibreOffice as the program of others: it opens the form and saves it again; what was filled in is still read. */
    @Test
    void libreOfficeOpensAndSavesItAndItIsStillAForm() throws Exception {
        fill(sheet -> {
            row(sheet, id(0)).getCell(MARK).setCellValue(4);
            row(sheet, id(1)).getCell(REASON).setCellValue("not visible");
            row(sheet, "#action1").getCell(3).setCellValue("slower");
        });
        Path out = Files.createDirectories(temp.resolve("saved"));
        Process process;
        try {
            process = new ProcessBuilder(
                            "soffice",
                            "-env:UserInstallation=" + temp.resolve("office").toUri(),
                            "--headless",
                            "--convert-to",
                            "xlsx",
                            "--outdir",
                            out.toString(),
                            form.toString())
                    .redirectErrorStream(true)
                    .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                    .start();
        } catch (java.io.IOException e) {
            assumeTrue(false, "LibreOffice is not installed here: whether it saves forms whole is not looked at");
            return;
        }
        assertThat(process.waitFor(180, TimeUnit.SECONDS)).isTrue();
        MarkingForm.Taken taken = forms.take(out.resolve("form.xlsx"), false);
        assertThat(taken.faults()).isEmpty();
        assertThat(stored().get(0).rating().scores())
                .containsExactly(
                        new ItemScore.Marked(id(0), 4, ""),
                        new ItemScore.Excused(id(1), NotApplicable.NOT_VISIBLE, ""));
        assertThat(stored().get(0).rating().actions()).containsExactly("slower");
        try (InputStream in = Files.newInputStream(out.resolve("form.xlsx"));
                XSSFWorkbook book = new XSSFWorkbook(in)) {
            assertThat(book.getSheetAt(0).getProtect()).isTrue();
            assertThat(book.getSheetAt(0).getDataValidations()).isNotEmpty();
        }
    }
}
