package org.sideport.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import org.sideport.model.Procedure;
import org.sideport.model.Recording;
import org.sideport.model.SurgicalCase;
import org.sideport.report.Column.Kind;

/** The sheet "Cases": what was operated, so that figures can be read against the mix of cases. */
final class CaseTable {

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
        descriptors(data, lookup)
                .forEach((id, header) -> tables.add(
                        header,
                        Kind.TEXT,
                        "case descriptor " + id,
                        c -> c.descriptors().get(id)));
        List<SurgicalCase> rows = new ArrayList<>(data.cases());
        rows.sort(Comparator.comparing(SurgicalCase::date).thenComparing(SurgicalCase::code));
        return tables.table("Cases", "One row for each case, by date, with its descriptors.", rows);
    }

    /** Header by id: those of the procedure files in their order, then any others that a case has. */
    private static Map<String, String> descriptors(WorkbookData data, Lookup lookup) {
        Map<String, String> headers = new LinkedHashMap<>();
        for (SurgicalCase of : data.cases()) {
            lookup.procedure(of.procedure())
                    .ifPresent(p -> p.descriptors().forEach(d -> headers.putIfAbsent(d.id(), header(d))));
        }
        for (SurgicalCase of : data.cases()) {
            of.descriptors().keySet().forEach(id -> headers.putIfAbsent(id, id));
        }
        return headers;
    }

    private static String header(Procedure.Descriptor descriptor) {
        return descriptor.unit().isEmpty() || descriptor.name().contains(descriptor.unit())
                ? descriptor.name()
                : descriptor.name() + " (" + descriptor.unit() + ")";
    }
}
