package org.sideport.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.DescriptorKind;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.report.Column.Kind;

/** The sheet "Cases": what was operated, so that figures can be read against the mix of cases. */
final class CaseTable {

    private static final Pattern NUMBER = Pattern.compile("-?\\d{1,9}(\\.\\d{1,5})?");

    private CaseTable() {}

    static Table<SurgicalCase> of(WorkbookData data, Lookup lookup, Assessments assessments) {
        Tables<SurgicalCase> tables = new Tables<>();
        tables.add("Case", Kind.TEXT, "code of the case", SurgicalCase::code)
                .add("Date", Kind.DATE, "day of the operation", SurgicalCase::date)
                .add("Trainee", Kind.TEXT, "code of the person whose operation it is", SurgicalCase::trainee)
                .add("Procedure", Kind.TEXT, "id of the procedure file", SurgicalCase::procedure)
                .add("Recording", Kind.CLOCK, "length of the recording, h:mm:ss; blank if there is none", c -> {
                    Recording recording = c.recording();
                    return recording == null ? null : recording.duration().micros();
                })
                .add(
                        "Ratings that count (n)",
                        Kind.WHOLE,
                        "signed, complete ratings by assessors",
                        c -> assessments.scored().stream()
                                .filter(s -> s.of().caseCode().equals(c.code()) && s.counts())
                                .count())
                .add(
                        "Self-ratings (n)",
                        Kind.WHOLE,
                        "signed ratings of the own case",
                        c -> assessments.scored().stream()
                                .filter(s -> s.of().caseCode().equals(c.code())
                                        && s.of().rating().self()
                                        && s.of().state() == org.sideport.model.RatingState.SIGNED)
                                .count())
                .add(
                        "Annotators (n)",
                        Kind.WHOLE,
                        "people who tagged the case",
                        c -> data.taggings().stream()
                                .filter(t -> t.caseCode().equals(c.code()))
                                .count());
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
