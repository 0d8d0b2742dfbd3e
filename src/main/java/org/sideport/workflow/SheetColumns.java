package org.sideport.workflow;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.TreeSet;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Descriptor;
import org.sideport.model.Procedure.DescriptorKind;
import org.sideport.report.SheetReader;

/** Which column of a sheet holds what, by the names in its first row; each goes by several names, whatever their case. */
final class SheetColumns {

    static final String CODE = "code";
    static final String TRAINEE = "trainee";
    static final String DATE = "date";
    static final String PROCEDURE = "procedure";
    static final String FILES = "files";
    static final String CONSENT = "consent";
    static final String PURPOSES = "consent_purposes";
    static final String CONSENT_BY = "consent_by";
    static final String CONSENT_DATE = "consent_date";
    static final String REVIEW_BY = "review_by";

    /** Names as {@link #plain} writes them. */
    private static final Map<String, Set<String>> NAMES = Map.of(
            CODE, Set.of("code", "case", "case_code", "case_id", "case_no", "case_number", "operation_code"),
            TRAINEE, Set.of("trainee", "trainee_code", "surgeon", "surgeon_code", "operator", "resident", "registrar"),
            DATE, Set.of("date", "day", "operated_on", "operation_date", "date_of_operation", "date_of_surgery"),
            PROCEDURE, Set.of("procedure", "procedure_id", "operation", "operation_type"),
            FILES, Set.of("file", "files", "video", "videos", "recording", "recordings", "video_file", "video_files"),
            CONSENT, Set.of("consent", "consent_state", "consent_status"),
            PURPOSES, Set.of("consent_purposes", "consent_purpose", "consent_for", "purpose", "purposes"),
            CONSENT_BY, Set.of("consent_by", "consent_recorded_by"),
            CONSENT_DATE, Set.of("consent_date", "consent_on", "consent_recorded_on"),
            REVIEW_BY, Set.of("review_by", "review_date", "review_by_date", "retention_date", "delete_by"));

    /** Columns that say who the patient is: the sheet is refused until they are gone. */
    private static final Set<String> IDENTITY = Set.of(
            "name",
            "patient",
            "patient_name",
            "surname",
            "last_name",
            "first_name",
            "forename",
            "dob",
            "date_of_birth",
            "birth_date",
            "birthday",
            "mrn",
            "hospital_number",
            "hospital_no",
            "nhs_number",
            "patient_id",
            "patient_number",
            "address",
            "postcode",
            "insurance_number",
            "phone");

    private final Map<Integer, String> fields = new LinkedHashMap<>();
    private final Map<Integer, String> titles = new LinkedHashMap<>();

    private SheetColumns() {}

    /**
     * @param procedures whose descriptors may have columns, by id or by name
     * @param faults takes what is wrong with the first row
     */
    static SheetColumns of(SheetReader.SheetRow header, List<Procedure> procedures, List<ImportSheet.Fault> faults) {
        SheetColumns columns = new SheetColumns();
        Map<String, String> seen = new LinkedHashMap<>();
        for (int i = 0; i < header.cells().size(); i++) {
            String title = header.cell(i);
            String plain = plain(title);
            columns.titles.put(i, title.isEmpty() ? SheetReader.columnName(i) : title);
            if (plain.isEmpty()) {
                continue;
            }
            if (IDENTITY.contains(plain)) {
                faults.add(fault(
                        header,
                        title,
                        "this column says who the patient is",
                        "delete it from the sheet: no patient's identity is ever taken in"));
                continue;
            }
            Optional<String> field = field(plain, procedures);
            if (field.isEmpty()) {
                faults.add(fault(
                        header,
                        title,
                        "this column is not known",
                        "rename or delete it; known are: " + String.join(", ", known(procedures))));
                continue;
            }
            String before = field.get().equals(FILES) ? null : seen.putIfAbsent(field.get(), title);
            if (before != null) {
                faults.add(fault(
                        header, title, "it says the same as the column \"" + before + "\"", "keep one of the two"));
                continue;
            }
            columns.fields.put(i, field.get());
        }
        for (String needed : List.of(CODE, TRAINEE, DATE)) {
            if (!columns.fields.containsValue(needed)) {
                faults.add(fault(
                        header,
                        "",
                        "there is no column \"" + needed + "\"",
                        "the first row names the columns; add one that is called " + needed));
            }
        }
        return columns;
    }

    private static ImportSheet.Fault fault(SheetReader.SheetRow header, String column, String what, String remedy) {
        return new ImportSheet.Fault(header.number(), column, what, remedy);
    }

    private static Optional<String> field(String plain, List<Procedure> procedures) {
        String numberless = plain.replaceAll("_?\\d+$", "");
        for (Map.Entry<String, Set<String>> one : NAMES.entrySet()) {
            if (one.getValue().contains(plain)
                    || (one.getKey().equals(FILES) && one.getValue().contains(numberless))) {
                return Optional.of(one.getKey());
            }
        }
        return procedures.stream()
                .flatMap(p -> p.descriptors().stream())
                .filter(d -> plain(d.id()).equals(plain)
                        || plain(d.name()).equals(plain)
                        || withUnit(d).equals(plain))
                .map(Descriptor::id)
                .findFirst();
    }

    private static String withUnit(Descriptor descriptor) {
        return plain(descriptor.name() + " " + descriptor.unit());
    }

    private static Set<String> known(List<Procedure> procedures) {
        Set<String> known = new TreeSet<>(NAMES.keySet());
        procedures.stream()
                .flatMap(p -> p.descriptors().stream())
                .filter(d -> d.kind() != DescriptorKind.COMPUTED)
                .forEach(d -> known.add(d.id()));
        return known;
    }

    /** Lower case, with one low line for whatever stands between the words. */
    static String plain(String title) {
        return title.toLowerCase(Locale.ROOT)
                .replaceAll("[^\\p{L}\\p{N}%]+", "_")
                .replaceAll("^_|_$", "");
    }

    /** The one cell of a field; empty if there is no such column. */
    String text(SheetReader.SheetRow row, String field) {
        for (Map.Entry<Integer, String> one : fields.entrySet()) {
            if (one.getValue().equals(field)) {
                return row.cell(one.getKey());
            }
        }
        return "";
    }

    /** The cells of all columns for files that hold anything. */
    List<String> files(SheetReader.SheetRow row) {
        List<String> found = new ArrayList<>();
        fields.forEach((column, field) -> {
            if (field.equals(FILES) && !row.cell(column).isEmpty()) {
                found.add(row.cell(column));
            }
        });
        return found;
    }

    /** Values by the id of the descriptor; columns of the case's own fields left out. */
    Map<String, String> descriptors(SheetReader.SheetRow row) {
        Map<String, String> found = new LinkedHashMap<>();
        fields.forEach((column, field) -> {
            if (!NAMES.containsKey(field) && !row.cell(column).isEmpty()) {
                found.put(field, row.cell(column));
            }
        });
        return found;
    }

    /** As it stands in the sheet. */
    String title(String field) {
        return fields.entrySet().stream()
                .filter(e -> e.getValue().equals(field))
                .map(e -> titles.getOrDefault(e.getKey(), field))
                .findFirst()
                .orElse(field);
    }

    /** The title of the first column without a name in which this row holds something; {@code null} if there is none. */
    @Nullable
    String nameless(SheetReader.SheetRow row) {
        for (int i = 0; i < row.cells().size(); i++) {
            boolean named = titles.containsKey(i) && !titles.get(i).equals(SheetReader.columnName(i));
            if (!named && !row.cell(i).isEmpty()) {
                return SheetReader.columnName(i);
            }
        }
        return null;
    }
}
