package org.sideport.report.workbook;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.function.Predicate;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.DescriptorKind;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.report.workbook.Column.Kind;

/** The sheet "Cases": what was operated, so that figures can be read against the mix of cases. */
final class CaseTable {

    private static final Pattern NUMBER = Pattern.compile("-?\\d{1,9}(\\.\\d{1,5})?");

    private CaseTable() {}

    static Table<SurgicalCase> of(WorkbookData data, Lookup lookup, Assessments assessments) {
        Map<String, Long> counted = count(assessments, Assessments.Scored::counts);
        Map<String, Long> self = count(
                assessments, s -> s.of().rating().self() && s.of().state() == org.sideport.model.RatingState.SIGNED);
        Map<String, Long> annotators = data.taggings().stream()
                .collect(Collectors.groupingBy(WorkbookData.CaseTagging::caseCode, Collectors.counting()));
        Tables<SurgicalCase> tables = new Tables<>("store: cases");
        tables.add("Case", Kind.TEXT, "code of the case", SurgicalCase::code)
                .add("Date", Kind.DATE, "day of the operation", SurgicalCase::date)
                .add("Trainee", Kind.TEXT, "code of the person whose operation it is", SurgicalCase::trainee)
                .named("case_trainee")
                .add("Procedure", Kind.TEXT, "id of the procedure file", SurgicalCase::procedure)
                .add("Recording", Kind.CLOCK, "length of the recording, h:mm:ss; blank if there is none", c -> {
                    Recording recording = c.recording();
                    return recording == null ? null : recording.duration().micros();
                })
                .add(
                        "Ratings that count (n)",
                        Kind.WHOLE,
                        "signed, complete ratings by assessors",
                        c -> counted.getOrDefault(c.code(), 0L))
                .add(
                        "Self-ratings (n)",
                        Kind.WHOLE,
                        "signed ratings of the own case",
                        c -> self.getOrDefault(c.code(), 0L))
                .add(
                        "Annotators (n)",
                        Kind.WHOLE,
                        "people who tagged the case",
                        c -> annotators.getOrDefault(c.code(), 0L));
        tables.add(
                        "Consent",
                        Kind.TEXT,
                        "state of the consent to the use of the recording",
                        c -> c.consent().state().id())
                .add(
                        "Consent for",
                        Kind.TEXT,
                        "purposes of the consent",
                        c -> c.consent().purposesText())
                .add(
                        "Review by",
                        Kind.DATE,
                        "day by which the recording must be looked at again",
                        SurgicalCase::reviewBy)
                .add(
                        "Note",
                        Kind.TEXT,
                        "what must be minded when the case is used",
                        c -> c.consent().warning());
        descriptors(data, lookup).forEach((id, descriptor) -> {
            boolean number = isNumber(descriptor);
            tables.add(
                    header(descriptor),
                    number ? Kind.NUMBER : Kind.TEXT,
                    "case descriptor " + id + (descriptor.definition().isEmpty() ? "" : ": " + descriptor.definition()),
                    c -> {
                        String computed = descriptor.computed(c.descriptors());
                        return value(computed == null ? c.descriptors().get(id) : computed, number);
                    });
        });
        List<SurgicalCase> rows = new ArrayList<>(data.cases());
        rows.sort(Comparator.comparing(SurgicalCase::date).thenComparing(SurgicalCase::code));
        return tables.table("Cases", "One row for each case, by date, with its descriptors.", rows);
    }

    private static Map<String, Long> count(Assessments assessments, Predicate<Assessments.Scored> which) {
        return assessments.scored().stream()
                .filter(which)
                .collect(Collectors.groupingBy(s -> s.of().caseCode(), Collectors.counting()));
    }

    /** By id: those of the procedure files in their order, then any others that a case has. */
    private static Map<String, Procedure.Descriptor> descriptors(WorkbookData data, Lookup lookup) {
        Map<String, Procedure.Descriptor> found = new LinkedHashMap<>();
        for (SurgicalCase of : data.cases()) {
            lookup.procedure(of.procedure()).ifPresent(p -> p.descriptors().forEach(d -> found.putIfAbsent(d.id(), d)));
        }
        for (SurgicalCase of : data.cases()) {
            of.descriptors()
                    .keySet()
                    .forEach(id -> found.putIfAbsent(id, new Procedure.Descriptor(id, id, "", List.of())));
        }
        return found;
    }

    private static String header(Procedure.Descriptor descriptor) {
        String unit = descriptor.unit();
        return unit.isEmpty() || descriptor.name().toLowerCase(Locale.ROOT).contains(unit.toLowerCase(Locale.ROOT))
                ? descriptor.name()
                : descriptor.name() + " (" + unit + ")";
    }

    /** True if it is a number, or its allowed values all are, so that they can be averaged and sorted. */
    private static boolean isNumber(Procedure.Descriptor descriptor) {
        DescriptorKind kind = descriptor.kind();
        if (kind == DescriptorKind.NUMBER || kind == DescriptorKind.COMPUTED) {
            return true;
        }
        return kind == DescriptorKind.CHOICE
                && descriptor.values().stream().allMatch(v -> NUMBER.matcher(v).matches());
    }

    private static @Nullable Object value(@Nullable String text, boolean number) {
        return text != null && number && NUMBER.matcher(text).matches() ? (Object) Double.valueOf(text) : text;
    }
}
