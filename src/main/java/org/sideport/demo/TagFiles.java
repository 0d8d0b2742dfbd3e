package org.sideport.demo;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;

/** The two CSV files of a set of taggings: phases and events. Times are exact decimal seconds. */
final class TagFiles implements AutoCloseable {

    static final CSVFormat FORMAT =
            CSVFormat.DEFAULT.builder().setRecordSeparator('\n').get();

    static final String[] PHASE_COLUMNS = {"case", "annotator", "phase", "start", "end", "operator"};

    private final CSVPrinter phases;
    private final CSVPrinter events;

    TagFiles(Path phaseFile, Path eventFile) throws IOException {
        phases = new CSVPrinter(Files.newBufferedWriter(phaseFile, StandardCharsets.UTF_8), FORMAT);
        events = new CSVPrinter(Files.newBufferedWriter(eventFile, StandardCharsets.UTF_8), FORMAT);
        phases.printRecord((Object[]) PHASE_COLUMNS);
        events.printRecord("case", "annotator", "event", "at", "severity", "note");
    }

    void add(String code, String annotator, Tagging tagging) throws IOException {
        phases(phases, code, annotator, tagging);
        for (PointEvent event : tagging.events()) {
            Severity severity = event.severity();
            events.printRecord(
                    code,
                    annotator,
                    event.kind(),
                    event.at().toSecondsText(),
                    severity == null ? "" : severity.id(),
                    event.note());
        }
    }

    static void phases(CSVPrinter phases, String code, String annotator, Tagging tagging) throws IOException {
        for (PhaseSpan span : tagging.spans()) {
            MediaTime end = span.end();
            Operator operator = span.operator();
            phases.printRecord(
                    code,
                    annotator,
                    span.phase(),
                    span.start().toSecondsText(),
                    end == null ? "" : end.toSecondsText(),
                    operator == null ? "" : operator.id());
        }
    }

    @Override
    public void close() throws IOException {
        try (phases;
                events) {
            phases.flush();
            events.flush();
        }
    }
}
