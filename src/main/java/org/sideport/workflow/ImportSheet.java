package org.sideport.workflow;

import java.nio.file.Files;
import java.nio.file.InvalidPathException;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.InputException;
import org.sideport.model.Plural;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Descriptor;
import org.sideport.model.Progress;
import org.sideport.model.SurgicalCase;
import org.sideport.report.SheetReader;
import org.sideport.report.SheetReader.SheetRow;
import org.sideport.store.Workspace;
import org.sideport.workflow.access.Access;
import org.sideport.workflow.access.Permission;

/**
 * Takes in a sheet of cases, one a row: plan first, see every fault by row and column, then store all of it or, if so
 * wished, the good rows.
 */
public final class ImportSheet {

    private static final String USUAL_PROCEDURE = "phaco";

    private final Workspace workspace;
    private final LocalDate today;

    /** @param today no operation is later than it */
    public ImportSheet(Workspace workspace, LocalDate today) {
        this.workspace = workspace;
        this.today = today;
    }

    /**
     * Something wrong in a sheet.
     *
     * @param row as the sheet counts, from 1
     * @param column its title in the sheet; empty if the fault is of the whole row
     */
    public record Fault(
            int row, String column, String what, @Nullable String remedy) {

        /** "row 7, column date: …". */
        public String text() {
            return "row " + row + (column.isEmpty() ? "" : ", column " + column) + ": " + what
                    + (remedy == null ? "" : " — " + remedy);
        }
    }

    /**
     * What would happen.
     *
     * @param good rows that can be stored
     * @param faults in the order of the sheet
     * @param headerFault true if the first row is wrong, so that no row can be taken
     */
    public record Plan(Path sheet, int rows, List<ImportCases.Looked> good, List<Fault> faults, boolean headerFault) {

        public Plan {
            good = List.copyOf(good);
            faults = List.copyOf(faults);
        }
    }

    /**
     * Reads the sheet and the whole of each file that it names; stores nothing.
     *
     * @throws InputException if the sheet cannot be read or holds no row
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public Plan plan(Path sheet, Progress progress) {
        Access.require(workspace, Permission.ADD_CASE);
        List<SheetRow> rows = SheetReader.read(sheet);
        if (rows.size() < 2) {
            throw new InputException(
                    "the sheet holds no case",
                    sheet.toString(),
                    "its first row names the columns (code, trainee, date …), each further row is a case");
        }
        List<Procedure> procedures = new Vocabularies(workspace).procedures();
        List<Fault> faults = new ArrayList<>();
        SheetColumns columns = SheetColumns.of(rows.get(0), procedures, faults);
        boolean headerFault = !faults.isEmpty();
        Map<CaseDraft, SheetRow> drafts = new LinkedHashMap<>();
        Path folder = sheet.toAbsolutePath().normalize().getParent();
        for (SheetRow row : rows.subList(1, rows.size())) {
            CaseDraft draft = new RowReader(columns, row, procedures, folder, faults).read();
            if (draft != null && !headerFault) {
                drafts.put(draft, row);
            }
        }
        List<ImportCases.Looked> good = new ArrayList<>();
        for (ImportCases.Looked looked : new ImportCases(workspace).look(List.copyOf(drafts.keySet()), progress)) {
            InputException fault = looked.fault();
            SheetRow row = drafts.get(looked.draft());
            if (fault == null) {
                good.add(looked);
            } else if (row != null) {
                faults.add(new Fault(row.number(), "", what(fault), fault.remedy()));
            }
        }
        faults.sort(java.util.Comparator.comparingInt(Fault::row));
        return new Plan(sheet, rows.size() - 1, good, faults, headerFault);
    }

    private static String what(InputException fault) {
        String where = fault.where();
        return (where == null ? "" : where + ": ") + fault.what();
    }

    /**
     * Stores what was planned, as one change.
     *
     * @param goodOnly true to leave out rows with a fault
     * @return what was stored
     * @throws InputException if there are faults and not only the good rows are wanted, or no row is good
     */
    public List<SurgicalCase> store(Plan plan, boolean goodOnly) {
        Access.require(workspace, Permission.ADD_CASE);
        if (!plan.faults().isEmpty() && !goodOnly) {
            throw new InputException(
                    "nothing was taken in: " + Plural.of(plan.faults().size(), "fault") + " in the sheet, the first in "
                            + plan.faults().get(0).text(),
                    plan.sheet().toString(),
                    "mend the sheet, or take the good rows only");
        }
        if (plan.good().isEmpty()) {
            throw new InputException(
                    "no row of the sheet can be taken in", plan.sheet().toString(), "mend the sheet");
        }
        return List.copyOf(new ImportCases(workspace).store(plan.good()).values());
    }

    /** Makes a draft of a row, and notes each fault of it with its column. */
    private final class RowReader {

        private final SheetColumns columns;
        private final SheetRow row;
        private final List<Procedure> procedures;
        private final @Nullable Path folder;
        private final List<Fault> faults;
        private boolean good = true;

        RowReader(
                SheetColumns columns,
                SheetRow row,
                List<Procedure> procedures,
                @Nullable Path folder,
                List<Fault> faults) {
            this.columns = columns;
            this.row = row;
            this.procedures = procedures;
            this.folder = folder;
            this.faults = faults;
        }

        @Nullable
        CaseDraft read() {
            String nameless = columns.nameless(row);
            if (nameless != null) {
                fault(nameless, "there is something in a column without a title", "name the column in the first row");
            }
            String code = checked(SheetColumns.CODE, () -> Codes.require("a case", required(SheetColumns.CODE)));
            String trainee =
                    checked(SheetColumns.TRAINEE, () -> Codes.require("a trainee", required(SheetColumns.TRAINEE)));
            LocalDate date = checked(SheetColumns.DATE, this::date);
            Procedure procedure = checked(SheetColumns.PROCEDURE, this::procedure);
            Map<String, String> descriptors = procedure == null ? Map.of() : descriptors(procedure);
            List<Path> files = files();
            Consent consent = checked(SheetColumns.CONSENT, this::consent);
            LocalDate reviewBy = checked(SheetColumns.REVIEW_BY, () -> dayOrNull(SheetColumns.REVIEW_BY));
            if (!good || code == null || trainee == null || date == null || procedure == null || consent == null) {
                return null;
            }
            NewCase details = new NewCase(code, trainee, date, procedure.id(), descriptors, consent, reviewBy);
            return new CaseDraft("row " + row.number(), details, files);
        }

        private LocalDate date() {
            LocalDate date = Days.parse(required(SheetColumns.DATE));
            if (date.isAfter(today)) {
                throw new InputException(
                        "the operation is said to be on " + date + ", in the future", null, "check it");
            }
            return date;
        }

        private Procedure procedure() {
            String text = columns.text(row, SheetColumns.PROCEDURE);
            String wanted = text.isEmpty() ? USUAL_PROCEDURE : text;
            return procedures.stream()
                    .filter(p -> p.id().equalsIgnoreCase(wanted) || p.title().equalsIgnoreCase(wanted))
                    .findFirst()
                    .orElseThrow(() -> new InputException(
                            "there is no procedure \"" + wanted + "\"",
                            null,
                            "known are: "
                                    + String.join(
                                            ", ",
                                            procedures.stream()
                                                    .map(Procedure::id)
                                                    .toList())));
        }

        private Map<String, String> descriptors(Procedure procedure) {
            Map<String, String> checked = new LinkedHashMap<>();
            columns.descriptors(row).forEach((id, value) -> {
                Descriptor descriptor = procedure.descriptor(id).orElse(null);
                if (descriptor == null) {
                    fault(
                            columns.title(id),
                            "procedure " + procedure.id() + " has no such descriptor",
                            "leave it empty");
                    return;
                }
                String written = checked(id, () -> Descriptors.normal(descriptor, value));
                if (written != null && !written.isEmpty()) {
                    checked.put(id, written);
                }
            });
            return checked;
        }

        private List<Path> files() {
            List<Path> files = new ArrayList<>();
            for (String cell : columns.files(row)) {
                for (String name : cell.split("[;\n|]")) {
                    if (!name.isBlank()) {
                        Path file = checked(SheetColumns.FILES, () -> file(name.strip()));
                        if (file != null) {
                            files.add(file);
                        }
                    }
                }
            }
            return files;
        }

        private Path file(String name) {
            Path file;
            try {
                Path given = Path.of(name);
                file = folder == null ? given.toAbsolutePath() : folder.resolve(given);
            } catch (InvalidPathException e) {
                throw new InputException("\"" + name + "\" is no name of a file", null, "check it", e);
            }
            if (!Files.isRegularFile(file)) {
                throw new InputException(
                        "there is no file " + file.normalize(),
                        null,
                        "write its path, whole or from the sheet's folder on; put ; between several");
            }
            return file.normalize();
        }

        private Consent consent() {
            String state = columns.text(row, SheetColumns.CONSENT);
            String by = columns.text(row, SheetColumns.CONSENT_BY);
            return new Consent(
                    state.isEmpty() ? ConsentState.UNKNOWN : ConsentState.parse(state),
                    ConsentPurpose.parseAll(columns.text(row, SheetColumns.PURPOSES)),
                    by.isEmpty() ? "" : Codes.require("the person who recorded the consent", by),
                    dayOrNull(SheetColumns.CONSENT_DATE));
        }

        private @Nullable LocalDate dayOrNull(String field) {
            String text = columns.text(row, field);
            return text.isEmpty() ? null : Days.parse(text);
        }

        private String required(String field) {
            String text = columns.text(row, field);
            if (text.isEmpty()) {
                throw new InputException("the cell is empty", null, "fill it in");
            }
            return text;
        }

        private <T> @Nullable T checked(String field, Supplier<@Nullable T> work) {
            try {
                return work.get();
            } catch (InputException e) {
                fault(columns.title(field), what(e), e.remedy());
                return null;
            }
        }

        private void fault(String column, String what, @Nullable String remedy) {
            good = false;
            faults.add(new Fault(row.number(), column, what, remedy));
        }
    }
}
