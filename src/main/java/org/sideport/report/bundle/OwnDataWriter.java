package org.sideport.report.bundle;

import com.fasterxml.jackson.annotation.JsonProperty;
import com.fasterxml.jackson.annotation.JsonRawValue;
import java.io.IOException;
import java.io.OutputStreamWriter;
import java.io.StringWriter;
import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.SortedMap;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVPrinter;
import org.jspecify.annotations.Nullable;
import org.sideport.report.AtomicFile;
import tools.jackson.databind.JsonNode;

/** Writes all that a store holds about one person as a ZIP of JSON and CSV that anyone can read. */
public final class OwnDataWriter {

    private static final String READ_ME = """
        What this store holds about %s, written on %s.

        data.json holds everything; its cases are described by rubrics/case-content.schema.json of the program. The CSV
        files hold the same as tables (UTF-8; times in microseconds from the start of the recording). A text that a
        spreadsheet program could take for a formula has an apostrophe before it.

        Signed marks of others and marks of your own are in it; drafts of others are not, and marks of others are held
        back as long as you have not signed your own for the same case and rubric. Where differing marks were settled, the
        agreed ones are in agreed.csv; what a panel decided about you, in its own words, is in decisions.csv, with the
        figures that it had before it in data.json. rubrics/ holds the rubrics that the marks were made on, voice/ the
        spoken comments on your cases. Recordings are not in it.

        Formative. Speed is not competence. Under local regulations you may have a right to correction: ask your unit.
        """;

    private OwnDataWriter() {}

    /**
     * @param person code of the person
     * @param madeAt ISO 8601
     * @param agreed marks that settle differing ones
     * @param decisions what panels decided about the person
     * @param deeds what the person did, from the audit trail
     */
    public record OwnData(
            String person,
            String madeAt,
            List<CaseContent> cases,
            List<Agreed> agreed,
            List<Decided> decisions,
            List<Deed> deeds) {

        public OwnData {
            cases = List.copyOf(cases);
            agreed = List.copyOf(agreed);
            decisions = List.copyOf(decisions);
            deeds = List.copyOf(deeds);
        }
    }

    /**
     * @param agreedBy codes, as written
     * @param agreedAt ISO 8601
     */
    public record Agreed(
            @JsonProperty("case") String caseCode,
            String rubric,
            String version,
            String agreedBy,
            String agreedAt,
            String reason,
            List<Score> scores) {

        public Agreed {
            scores = List.copyOf(scores);
        }
    }

    /** @param notApplicable why there are no points; {@code null} where there are some */
    public record Score(
            String item, @Nullable Integer points, @Nullable String notApplicable) {}

    /** @param figures what the panel had before it, JSON */
    public record Decided(
            String decidedOn,
            String rubric,
            String version,
            List<String> decidedBy,
            String wording,
            @JsonRawValue String figures) {

        public Decided {
            decidedBy = List.copyOf(decidedBy);
        }
    }

    /**
     * What goes with the data as it is.
     *
     * @param rubrics texts by {@link CaseBundle#rubricKey}
     * @param voices sound files by their SHA-256
     */
    public record Beside(SortedMap<String, String> rubrics, SortedMap<String, Path> voices) {}

    /** @param subject code of an own case; empty for anything else */
    public record Deed(String at, String deed, String subject) {}

    /**
     * @throws org.sideport.model.InputException if the file cannot be written; one that was there stays as it was
     */
    public static void write(OwnData data, Beside beside, Path out) {
        AtomicFile.write(out, stream -> {
            ZipOutputStream zip = new ZipOutputStream(stream, StandardCharsets.UTF_8);
            entry(zip, "README.txt", String.format(READ_ME, data.person(), data.madeAt()));
            entry(zip, "data.json", new String(BundleJson.write(data), StandardCharsets.UTF_8));
            entry(zip, "cases.csv", cases(data));
            entry(zip, "phases.csv", phases(data));
            entry(zip, "events.csv", events(data));
            entry(zip, "comments.csv", comments(data));
            entry(zip, "measurements.csv", measurements(data));
            entry(zip, "marks.csv", marks(data));
            entry(zip, "agreed.csv", agreed(data));
            entry(zip, "decisions.csv", decisions(data));
            entry(zip, "deeds.csv", deeds(data));
            for (var rubric : beside.rubrics().entrySet()) {
                entry(zip, CaseBundle.RUBRICS + rubric.getKey() + ".json", rubric.getValue());
            }
            for (var voice : beside.voices().entrySet()) {
                zip.putNextEntry(new ZipEntry(CaseBundle.VOICE + voice.getKey() + ".ogg"));
                Files.copy(voice.getValue(), zip);
                zip.closeEntry();
            }
            zip.finish();
        });
    }

    private static void entry(ZipOutputStream zip, String name, String text) throws IOException {
        zip.putNextEntry(new ZipEntry(name));
        Writer writer = new OutputStreamWriter(zip, StandardCharsets.UTF_8);
        writer.write(text);
        writer.flush();
        zip.closeEntry();
    }

    /** A row at a time, made safe for spreadsheet programs. */
    private static final class Csv {

        private final StringWriter text = new StringWriter();
        private final CSVPrinter printer;

        Csv(String... header) throws IOException {
            printer = new CSVPrinter(
                    text, CSVFormat.RFC4180.builder().setHeader(header).get());
        }

        void row(@Nullable Object... cells) throws IOException {
            List<Object> safe = new ArrayList<>();
            for (Object cell : cells) {
                String written = cell == null ? "" : String.valueOf(cell);
                boolean formula =
                        cell instanceof String && !written.isEmpty() && "=+-@\t\r".indexOf(written.charAt(0)) >= 0;
                safe.add(formula ? "'" + written : written);
            }
            printer.printRecord(safe);
        }

        String text() throws IOException {
            printer.flush();
            return text.toString();
        }
    }

    private static String cases(OwnData data) throws IOException {
        Csv csv = new Csv("case", "date", "procedure", "consent", "review_by", "name", "value");
        for (CaseContent one : data.cases()) {
            CaseContent.Sheet s = one.sheet();
            csv.row(s.code(), s.date(), s.procedure(), s.consent().state(), s.reviewBy(), "", "");
            for (var descriptor : s.descriptors().entrySet()) {
                csv.row(s.code(), s.date(), s.procedure(), "", "", descriptor.getKey(), descriptor.getValue());
            }
        }
        return csv.text();
    }

    private static String phases(OwnData data) throws IOException {
        Csv csv = new Csv("case", "annotator", "phase", "start_us", "end_us", "operator");
        for (CaseContent one : data.cases()) {
            for (CaseContent.TaggingPart t : one.taggings()) {
                for (CaseContent.SpanPart s : t.spans()) {
                    csv.row(one.sheet().code(), t.annotator(), s.phase(), s.startUs(), s.endUs(), s.operator());
                }
            }
        }
        return csv.text();
    }

    private static String events(OwnData data) throws IOException {
        Csv csv = new Csv("case", "annotator", "event", "at_us", "severity", "note");
        for (CaseContent one : data.cases()) {
            for (CaseContent.TaggingPart t : one.taggings()) {
                for (CaseContent.EventPart e : t.events()) {
                    csv.row(one.sheet().code(), t.annotator(), e.kind(), e.atUs(), e.severity(), e.note());
                }
            }
        }
        return csv.text();
    }

    private static String comments(OwnData data) throws IOException {
        Csv csv = new Csv("case", "author", "kind", "from_us", "to_us", "text", "spoken");
        for (CaseContent one : data.cases()) {
            for (CaseContent.CommentPart c : one.comments()) {
                csv.row(
                        one.sheet().code(),
                        c.author(),
                        c.tone(),
                        c.fromUs(),
                        c.toUs(),
                        c.text(),
                        c.voice() == null ? "no" : "yes");
                for (CaseContent.ReplyPart r : c.replies()) {
                    csv.row(one.sheet().code(), r.author(), "answer", c.fromUs(), c.toUs(), r.text(), "no");
                }
            }
        }
        return csv.text();
    }

    private static String measurements(OwnData data) throws IOException {
        Csv csv = new Csv("case", "author", "shape", "at_us", "name", "value", "unit", "lower", "upper");
        for (CaseContent one : data.cases()) {
            for (CaseContent.MeasurementPart m : one.measurements()) {
                for (CaseContent.ValuePart v : m.values()) {
                    csv.row(
                            one.sheet().code(),
                            m.author(),
                            m.shape(),
                            m.atUs(),
                            v.name(),
                            v.value(),
                            v.unit(),
                            v.lower(),
                            v.upper());
                }
            }
        }
        return csv.text();
    }

    private static String marks(OwnData data) throws IOException {
        Csv csv = new Csv(
                "case",
                "rubric",
                "version",
                "assessor",
                "self",
                "state",
                "signed_at",
                "item",
                "points",
                "not_applicable",
                "comment");
        for (CaseContent one : data.cases()) {
            for (CaseContent.RatingPart r : one.ratings()) {
                JsonNode m = r.marks();
                for (JsonNode s : m.path("scores")) {
                    csv.row(
                            one.sheet().code(),
                            m.path("rubric").asString(""),
                            m.path("version").asString(""),
                            m.path("assessor").asString(""),
                            m.path("self").asBoolean(false),
                            r.state(),
                            r.signedAt(),
                            s.path("item").asString(""),
                            s.has("points") ? (Object) s.path("points").asInt() : null,
                            s.path("not_applicable").asString(""),
                            s.path("comment").asString(""));
                }
            }
        }
        return csv.text();
    }

    private static String agreed(OwnData data) throws IOException {
        Csv csv = new Csv(
                "case", "rubric", "version", "agreed_by", "agreed_at", "reason", "item", "points", "not_applicable");
        for (Agreed a : data.agreed()) {
            for (Score s : a.scores()) {
                csv.row(
                        a.caseCode(),
                        a.rubric(),
                        a.version(),
                        a.agreedBy(),
                        a.agreedAt(),
                        a.reason(),
                        s.item(),
                        s.points(),
                        s.notApplicable());
            }
        }
        return csv.text();
    }

    private static String decisions(OwnData data) throws IOException {
        Csv csv = new Csv("decided_on", "decided_by", "rubric", "version", "wording");
        for (Decided d : data.decisions()) {
            csv.row(d.decidedOn(), String.join(" ", d.decidedBy()), d.rubric(), d.version(), d.wording());
        }
        return csv.text();
    }

    private static String deeds(OwnData data) throws IOException {
        Csv csv = new Csv("at", "deed", "case");
        for (Deed deed : data.deeds()) {
            csv.row(deed.at(), deed.deed(), deed.subject());
        }
        return csv.text();
    }
}
