package org.sideport.report.exchange;

import java.io.IOException;
import java.io.StringWriter;
import java.io.UncheckedIOException;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.sideport.model.MediaTime;
import org.sideport.timing.CsvText;

/** The list beside a set of stills, as CSV. */
public final class StillIndex {

    /**
     * @param time of the recording, seconds in the file
     * @param phase name, may be empty
     * @param caption may be empty
     */
    public record Entry(String file, MediaTime time, String phase, String caption) {}

    private StillIndex() {}

    public static String write(String caseCode, List<Entry> entries) {
        StringWriter text = new StringWriter();
        try (CSVPrinter csv = new CSVPrinter(
                text, CSVFormat.RFC4180.builder().setRecordSeparator("\n").get())) {
            csv.printRecord("file", "case", "time", "phase", "caption");
            for (Entry entry : entries) {
                csv.printRecord(
                        entry.file(),
                        caseCode,
                        entry.time().toSecondsText(),
                        CsvText.guard(entry.phase()),
                        CsvText.guard(entry.caption()));
            }
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
        return text.toString();
    }
}
