package org.sideport.timing;

import java.io.IOException;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;

/** Writes the CSV files that {@link TagCsvReader} reads; times are exact seconds. */
public final class TagCsvWriter {

    /** One line end for all systems, so that the same tagging gives the same bytes. */
    private static final CSVFormat FORMAT =
            CSVFormat.RFC4180.builder().setRecordSeparator("\n").get();

    private TagCsvWriter() {}

    public static void phases(String caseCode, String annotator, Tagging tagging, Appendable out) throws IOException {
        CSVPrinter csv = new CSVPrinter(out, FORMAT);
        csv.printRecord("case", "annotator", "phase", "start", "end", "operator");
        for (PhaseSpan span : tagging.spans()) {
            MediaTime end = span.end();
            Operator operator = span.operator();
            csv.printRecord(
                    CsvText.guard(caseCode),
                    CsvText.guard(annotator),
                    CsvText.guard(span.phase()),
                    span.start().toSecondsText(),
                    end == null ? "" : end.toSecondsText(),
                    operator == null ? "" : operator.id());
        }
        csv.flush();
    }

    public static void events(String caseCode, String annotator, Tagging tagging, Appendable out) throws IOException {
        CSVPrinter csv = new CSVPrinter(out, FORMAT);
        csv.printRecord("case", "annotator", "event", "at", "severity", "note");
        for (PointEvent event : tagging.events()) {
            Severity severity = event.severity();
            csv.printRecord(
                    CsvText.guard(caseCode),
                    CsvText.guard(annotator),
                    CsvText.guard(event.kind()),
                    event.at().toSecondsText(),
                    severity == null ? "" : severity.id(),
                    CsvText.guard(event.note()));
        }
        csv.flush();
    }
}
