package org.sideport.figures;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.PrintWriter;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import javafx.scene.input.KeyCode;
import javax.xml.parsers.DocumentBuilderFactory;
import javax.xml.xpath.XPathFactory;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.cli.Main;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Rating;
import org.sideport.model.Rubric;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.CaseReach;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.MadeUpProgramme;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.Vocabularies;
import org.w3c.dom.Document;
import tools.jackson.databind.JsonNode;
import tools.jackson.databind.json.JsonMapper;

/**
 * The same question has the same answer wherever it is asked: on the screens (read off the real window), in the workbook
 * (read by Apache POI), on the feedback page (parsed as XML), in the PDFs (text by Apache PDFBox) and on the command line. Two
 * cases whose consent was refused count nowhere.
 */
class OneNumberTest {

    private static final String RUBRIC = "phaco-competency";
    private static final String T = "T03";

    /** Refused, one of them of the trainee that is looked at most closely. */
    private static final List<String> REFUSED = List.of("C-03-0004", "C-04-0006");

    /** Of that trainee, tagged, marked once. */
    private static final String CASE = "C-03-0013";

    /** The latest of that trainee. */
    private static final String LATEST = "C-03-0014";

    @TempDir
    Path temp;

    private final Told told = new Told();
    private final Map<String, JsonNode> cohorts = new LinkedHashMap<>();
    private Path unit;

    @Test
    void theSameQuestionHasTheSameAnswerEverywhere() throws Exception {
        unit = Files.createTempDirectory("sideport-figures");
        try (Workspace workspace = FreshWorkspace.in(unit)) {
            new MadeUpProgramme(workspace, 3).fill(4, 14);
            ownMarks(workspace);
            allTagged(workspace, "T02");
        }
        for (String code : REFUSED) {
            run("case", "edit", code, "--by", "A1", "--consent", "refused", "--purpose", "assessment");
        }
        Sheets sheets = new Sheets(written("report", "workbook", "--log-complete", "OUT.xlsx"));
        Document page = page(written("report", "feedback", "--case", CASE, "--without-recording", "OUT.html"));
        String feedback = paper(written("report", "feedback", "--case", CASE, "OUT.pdf"));
        String portfolio = paper(written("report", "portfolio", "--trainee", T, "--log-complete", "OUT.pdf"));
        String cohort = paper(written("report", "cohort", "--rubric", RUBRIC, "OUT.pdf"));

        means(sheets, cohort, cohort("show", "--rubric", RUBRIC));
        assessors(sheets, cohort, cohort("assessors", "--rubric", RUBRIC));
        severity(sheets, run("cohort", "severity", "--rubric", RUBRIC));
        planned(sheets, cohort, cohort("plan", "--rubric", RUBRIC));
        decided(sheets, run("decision", "show", "--trainee", T, "--rubric", RUBRIC));
        complications(sheets, cohort("complications", "--log-complete", T));
        marks(sheets, page, feedback, portfolio, run("cohort", "marks", "--rubric", RUBRIC, "--trainee", T));
        times(sheets, page, feedback);
        progress(sheets, portfolio, run("report", "progress", "--trainee", T, "--rubric", RUBRIC));
        cohort("times");
        watched(sheets, run("report", "progress", "--trainee", "T02", "--log-complete"));
        leftOut(sheets, cohort, portfolio);
        try (Screens screens = new Screens(unit, Clock.systemUTC())) {
            programme(screens);
            decisions(screens);
            trainee(screens);
        }

        told.areTheSameEverywhere();
        assertThat(told.questions()).isGreaterThan(60);
        assertThat(told.places()).isGreaterThan(200);
    }

    /** Of every case of the trainee, better than the assessors thought of some items and worse of others. */
    private static void ownMarks(Workspace workspace) {
        Rubric rubric = new Vocabularies(workspace).rubric(RUBRIC).rubric();
        MarkCase marking = new MarkCase(workspace);
        for (int number = 1; number <= 14; number++) {
            String code = String.format("C-03-%04d", number);
            List<ItemScore> scores = new ArrayList<>();
            for (Rubric.Item item : rubric.items()) {
                List<Integer> points = rubric.pointsOf(item);
                scores.add(
                        new ItemScore.Marked(item.id(), points.get((number + 3 * scores.size()) % points.size()), ""));
            }
            marking.rate(code, new Rating(rubric.id(), rubric.version(), T, true, false, scores, ""));
            marking.sign(code, rubric.id(), T, true);
        }
    }

    /** Without a known outcome of each case there is no chart of a trainee's complications. */
    private static void allTagged(Workspace workspace, String trainee) {
        Tagging calm = new Tagging(
                TaggingStyle.START_AND_END,
                List.of(new PhaseSpan("rhexis", MediaTime.ZERO, MediaTime.ofSeconds(60), null)),
                List.of());
        workspace.change(stores -> stores.cases().all().stream()
                .filter(c -> c.trainee().equals(trainee)
                        && stores.taggings().byCase(CaseReach.ALL).get(c.code()) == null)
                .forEach(c -> stores.taggings().save(c.code(), "A1", calm)));
    }

    private String ran(String... arguments) {
        StringWriter out = new StringWriter();
        StringWriter err = new StringWriter();
        int code = Main.run(
                arguments,
                new PrintWriter(out, true),
                new PrintWriter(err, true),
                Map.of("SIDEPORT_CONFIG", temp.resolve("config").toString()),
                temp);
        assertThat(code).as(err.toString()).isZero();
        return out.toString();
    }

    /** As {@link #run}, a command on the cohort, whose answer is kept. */
    private JsonNode cohort(String command, String... arguments) {
        List<String> all = new ArrayList<>(List.of("cohort", command));
        all.addAll(List.of(arguments));
        JsonNode json = run(all.toArray(new String[0]));
        cohorts.put(command, json);
        return json;
    }

    private JsonNode run(String... arguments) {
        List<String> all = new ArrayList<>(List.of(arguments));
        all.addAll(List.of("--workspace", unit.toString(), "--json"));
        return JsonMapper.builder().build().readTree(ran(all.toArray(new String[0])));
    }

    /** @param arguments the last one is OUT with an ending */
    private Path written(String... arguments) {
        List<String> all = new ArrayList<>(List.of(arguments));
        String last = all.remove(all.size() - 1);
        Path file = temp.resolve(arguments[1] + last.substring(last.indexOf('.')));
        all.addAll(List.of(file.toString(), "--workspace", unit.toString()));
        ran(all.toArray(new String[0]));
        return file;
    }

    private static String paper(Path file) throws Exception {
        try (PDDocument document = Loader.loadPDF(file.toFile())) {
            return new PDFTextStripper().getText(document).replaceAll("[\\s\u00a0]+", " ");
        }
    }

    /** The page is XML but for what stands in its scripts and styles. */
    private static Document page(Path file) throws Exception {
        String text = Files.readString(file)
                .replaceAll("(?s)<(script|style)\\b.*?</\\1>", "")
                .replaceFirst("<!DOCTYPE html>", "");
        return DocumentBuilderFactory.newInstance()
                .newDocumentBuilder()
                .parse(new java.io.ByteArrayInputStream(text.getBytes(StandardCharsets.UTF_8)));
    }

    private static String on(Document page, String path) throws Exception {
        return XPathFactory.newInstance().newXPath().evaluate("string(" + path + ")", page);
    }

    private static JsonNode of(JsonNode list, String key, String value) {
        for (JsonNode one : list) {
            if (one.path(key).asString("").equals(value)) {
                return one;
            }
        }
        throw new AssertionError("no " + key + " " + value + " in " + list);
    }

    private void means(Sheets sheets, String cohort, JsonNode show) {
        for (JsonNode row : show.path("trainees")) {
            String who = row.path("trainee").asString();
            JsonNode whole = row.path("whole");
            String q = who + ", all items, ";
            told.whole(q + "cases", "command line", row.path("cases").asInt());
            told.whole(q + "cases", "Cohort matrix", sheets.number("Cases (n)", "Cohort matrix", "Trainee", who));
            told.whole(q + "cases", "Cohort", sheets.number("Cases (n)", "Cohort", "Trainee", who));
            told.read(q + "cases", "cohort PDF", cohort, who + " \\d+ of (\\d+) ");
            told.whole(q + "n", "command line", whole.path("n").asInt());
            told.whole(q + "n", "Cohort matrix", sheets.number("Whole: marked (n)", "Cohort matrix", "Trainee", who));
            told.read(q + "n", "cohort PDF", cohort, who + " (\\d+) of ");
            if (whole.path("mean_share").isNull()) {
                continue;
            }
            told.whole(q + "mean", "command line", whole.path("mean_share").asDouble());
            told.whole(
                    q + "mean", "Cohort matrix", sheets.number("Whole: mean, last k", "Cohort matrix", "Trainee", who));
            told.whole(
                    q + "mean",
                    "Competencies",
                    sheets.number("Mean, last k", "Competencies", "Trainee", who, "Competency", "whole"));
            told.whole(q + "mean", "Cohort", sheets.number("Mean share, last 6", "Cohort", "Trainee", who));
            percent(q + "mean", "command line", whole.path("mean_share"));
            told.read(q + "mean %", "cohort PDF", cohort, who + " \\d+ of \\d+ \\d{4}-\\d\\d-\\d\\d ([\\d.]+) %");
            for (JsonNode cell : row.path("competencies")) {
                String id = cell.path("competency").asString();
                String of = who + ", " + id + ", mean";
                told.whole(of, "command line", cell.path("mean_share").asDouble());
                told.whole(
                        of,
                        "Competencies",
                        sheets.number("Mean, last k", "Competencies", "Trainee", who, "Competency", id));
                if (id.equals("capsule")) {
                    percent(of, "command line", cell.path("mean_share"));
                }
            }
            if (whole.path("lower").isNull()) {
                assertThat(sheets.row("Cohort matrix", "Trainee", who).get("Whole: lower"))
                        .isEqualTo("");
                continue;
            }
            for (String limit : List.of("lower", "upper")) {
                told.whole(q + limit, "command line", whole.path(limit).asDouble());
                told.whole(
                        q + limit, "Cohort matrix", sheets.number("Whole: " + limit, "Cohort matrix", "Trainee", who));
                percent(q + limit, "command line", whole.path(limit));
            }
            told.read(q + "lower %", "cohort PDF", cohort, who + " \\d+ of \\d+ \\S+ [\\d.]+ % (\\d+) % to");
            told.read(q + "upper %", "cohort PDF", cohort, who + " \\d+ of \\d+ \\S+ [\\d.]+ % \\d+ % to (\\d+) %");
        }
    }

    /** The same in per cent, as people read it. */
    private void percent(String question, String where, JsonNode share) {
        told.whole(question + " %", where, 100 * share.asDouble());
    }

    private void assessors(Sheets sheets, String cohort, JsonNode json) {
        for (JsonNode one : json.path("assessors")) {
            String who = one.path("assessor").asString();
            told.whole(
                    who + ", shared cases",
                    "command line",
                    one.path("shared_cases").asInt());
            told.whole(
                    who + ", shared cases",
                    "Assessors",
                    sheets.number("Shared cases (n)", "Assessors", "Assessor", who));
            told.read(who + ", shared cases", "cohort PDF", cohort, who + " \\d+ \\d+ (\\d+) [−\\d]");
            told.whole(
                    who + ", difference", "command line", one.path("difference").asDouble());
            told.whole(who + ", difference", "Assessors", sheets.number("Difference", "Assessors", "Assessor", who));
            percent(who + ", difference", "command line", one.path("difference"));
            told.read(who + ", difference %", "cohort PDF", cohort, who + " \\d+ \\d+ \\d+ (−?[\\d.]+)");
        }
        told.whole("equal points", "command line", json.path("exact").asDouble());
        told.whole("equal points", "Assessors", sheets.number("Unit: equal points", "Assessors", "Assessor", "A1"));
        percent("equal points", "command line", json.path("exact"));
        told.read("equal points %", "cohort PDF", cohort, "comparisons, equal in ([\\d.]+) %");
    }

    private void severity(Sheets sheets, JsonNode json) {
        for (JsonNode one : json.path("assessors")) {
            String who = one.path("assessor").asString();
            told.whole(
                    who + ", logits",
                    "command line",
                    one.path("severity").path("estimate").asDouble());
            told.whole(who + ", logits", "Assessors", sheets.number("Severity (logits)", "Assessors", "Assessor", who));
        }
    }

    private void planned(Sheets sheets, String cohort, JsonNode json) {
        JsonNode plan = json.path("plans").get(0);
        double each = plan.path("assessors_each").asInt();
        told.whole("cases for Φ 0.80", "command line", plan.path("cases").asInt());
        told.whole(
                "cases for Φ 0.80",
                "D-study",
                sheets.rows("D-study", "Assessors for each case", each, "Reaches the wish", "yes").stream()
                        .mapToDouble(r -> (Double) r.get("Cases"))
                        .min()
                        .orElseThrow());
        told.read("cases for Φ 0.80", "cohort PDF", cohort, "minutes for each marking: .*?Minutes (\\d+) ");
        told.whole("Φ of that plan", "command line", plan.path("phi").asDouble());
        told.whole(
                "Φ of that plan",
                "D-study",
                sheets.number(
                        "Coefficient Φ",
                        "D-study",
                        "Assessors for each case",
                        each,
                        "Cases",
                        plan.path("cases").asDouble()));
        told.read("Φ of that plan", "cohort PDF", cohort, "minutes for each marking: .*?Minutes \\d+ \\d+ ([\\d.]+) ");
    }

    private void decided(Sheets sheets, JsonNode json) {
        Map<String, String> same = Map.of(
                "mean_share", "Mean",
                "phi", "Coefficient Φ",
                "g", "Coefficient G",
                "sem", "SEM",
                "mean_lower", "Lower",
                "mean_upper", "Upper",
                "mean_less_standard", "Mean less standard");
        same.forEach((key, heading) -> {
            JsonNode found = json.findValue(key);
            told.whole(T + ", decision, " + key, "command line", found.asDouble());
            told.whole(T + ", decision, " + key, "Reliability", sheets.number(heading, "Reliability", "Trainee", T));
            if (!List.of("phi", "g").contains(key)) {
                percent(T + ", decision, " + key, "command line", found);
            }
        });
        told.whole(
                "standard", "command line", json.path("standard").path("share").asDouble());
        told.whole("standard", "Standards", sheets.number("Standard", "Standards", "In force", "yes"));
        percent("standard", "command line", json.path("standard").path("share"));
    }

    private void complications(Sheets sheets, JsonNode json) {
        told.whole("unit, failures", "command line", json.path("failures").asInt());
        told.whole(
                "unit, failures",
                "Complications",
                sheets.rows("Complications").stream()
                        .skip(1)
                        .mapToDouble(r -> (Double) r.get("Events (n)"))
                        .sum());
        told.whole("unit, rate", "command line", json.path("rate").asDouble());
        told.whole("unit, rate", "Complications", sheets.number("Unit rate", "Complications", "Trainee", T));
        percent("unit, rate", "command line", json.path("rate"));
        for (JsonNode one : json.path("trainees")) {
            String who = one.path("trainee").asString();
            told.whole(who + ", known", "command line", one.path("known").asInt());
            told.whole(who + ", known", "Complications", sheets.number("Known (n)", "Complications", "Trainee", who));
            told.whole(who + ", events", "command line", one.path("failures").asInt());
            told.whole(who + ", events", "Complications", sheets.number("Events (n)", "Complications", "Trainee", who));
            told.whole(who + ", rate", "command line", one.path("share").asDouble());
            told.whole(who + ", rate", "Complications", sheets.number("Rate", "Complications", "Trainee", who));
            percent(who + ", rate", "command line", one.path("share"));
            told.whole(
                    who + ", funnel",
                    "command line",
                    one.path("limits_95").get(1).asDouble());
            told.whole(
                    who + ", funnel",
                    "Complications",
                    sheets.number("Funnel 95 %, upper", "Complications", "Trainee", who));
            percent(who + ", funnel", "command line", one.path("limits_95").get(1));
        }
        // without the refused case the log is not complete, whoever states it
        assertThat(of(json.path("trainees"), "trainee", T)
                        .path("monitoring_says")
                        .asString())
                .contains("1 case does not count without consent");
        assertThat(sheets.row("Complications", "Trainee", T).get("CUSUM state").toString())
                .contains("1 case does not count without consent");
        assertThat(sheets.row("Complications", "Trainee", "T02")
                        .get("CUSUM state")
                        .toString())
                .doesNotContain("consent");
    }

    private void marks(Sheets sheets, Document page, String feedback, String portfolio, JsonNode json)
            throws Exception {
        JsonNode mark = of(json.path("marks"), "case", CASE);
        String q = CASE + ", share";
        told.whole(q, "command line", mark.path("share").asDouble());
        told.whole(
                q,
                "Assessments",
                sheets.number(
                        "Share",
                        "Assessments",
                        "Case",
                        CASE,
                        "Assessor",
                        mark.path("assessor").asString()));
        told.whole(q, "Case shares", sheets.number("Share", "Case shares", "Case", CASE, "Competency", "whole"));
        percent(q, "command line", mark.path("share"));
        String heading = "//section[contains(@class, 'mark')][not(contains(h2, 'own marks'))]";
        told.read(q + " %", "feedback page", on(page, heading + "//p[@class='share']/strong"), "(\\d+)");
        told.read(
                q + " %",
                "feedback PDF",
                feedback,
                "marks by " + mark.path("assessor").asString() + " (\\d+) %");
        told.read(q + " %", "portfolio PDF", portfolio, "\\d+ " + CASE + " .{5,30}? (\\d+) % \\(one assessor\\)");
        JsonNode item = mark.path("items").get(0);
        told.whole(CASE + ", first item", "command line", item.path("points").asInt());
        told.whole(
                CASE + ", first item",
                "Ratings",
                sheets.number(
                        "Points",
                        "Ratings",
                        "Case",
                        CASE,
                        "Assessor",
                        mark.path("assessor").asString(),
                        "Item",
                        item.path("item").asString()));
        told.read(
                CASE + ", first item",
                "feedback page",
                on(page, heading + "//li[@class='item'][1]//span[contains(@class, 'given')]"),
                "(\\d) of");
    }

    private void times(Sheets sheets, Document page, String feedback) throws Exception {
        JsonNode one = run("timing", "--case", CASE).path("cases").get(0);
        for (String phase : List.of("capsulotomy", "cortex_removal")) {
            double seconds =
                    of(one.path("rolled_up"), "phase", phase).path("active_us").asLong() / 1e6;
            Map<String, Object> row = sheets.row("Timing", "Case", CASE, "Phase", phase);
            String name = row.get("Phase name").toString();
            String q = CASE + ", " + phase;
            told.whole(q, "command line", seconds);
            told.whole(q, "Timing", (Double) row.get("Active (s)"));
            told.cut(
                    q,
                    "feedback page",
                    on(page, "//section[@class='times']//tr[contains(th, '" + name + "')]/td[1]"),
                    "(\\d+:\\d\\d\\.\\d)");
            told.cut(q, "feedback PDF", feedback, "Active time.*? " + name + " (\\d+:\\d\\d\\.\\d)");
        }
        told.whole(
                CASE + ", operating time",
                "command line",
                one.path("operating_us").asLong() / 1e6);
        told.whole(
                CASE + ", operating time",
                "Case times",
                sheets.number("Operating time (s)", "Case times", "Case", CASE));
        told.cut(
                CASE + ", operating time",
                "feedback page",
                on(page, "//section[@class='times']/p[1]"),
                "first to last tag: (\\d+:\\d\\d\\.\\d)");
        JsonNode summary = run("timing", "--all", "--by", "trainee").path("summary_rolled_up");
        for (JsonNode median : summary) {
            if (median.path("group").asString().equals(T)
                    && median.path("phase").asString().equals("capsulotomy")) {
                told.whole(
                        T + ", median", "command line", median.path("median_us").asLong() / 1e6);
                told.whole(T + ", median, n", "command line", median.path("n").asInt());
            }
        }
        told.whole(
                T + ", median",
                "Timing summary",
                sheets.number("Median (s)", "Timing summary", "Trainee", T, "Phase", "capsulotomy"));
        told.whole(
                T + ", median, n",
                "Timing summary",
                sheets.number("n", "Timing summary", "Trainee", T, "Phase", "capsulotomy"));
        // a cell of time is a share of a day
        told.whole(T + ", median", "Cohort", 86_400 * sheets.number("Capsulotomy, median", "Cohort", "Trainee", T));
    }

    private void progress(Sheets sheets, String portfolio, JsonNode json) {
        JsonNode term = of(json.path("times"), "phase", "capsulotomy");
        for (JsonNode own : term.path("own")) {
            if (own.path("case").asString().equals(CASE)) {
                told.whole(CASE + ", capsulotomy", "progress", own.path("us").asLong() / 1e6);
            }
        }
        told.whole(T + ", median, n", "progress", term.path("own").size());
        told.whole(
                T + ", latest over before",
                "progress",
                term.path("change").path("ratio").path("value").asDouble());
        told.whole(
                T + ", latest over before",
                "Learning",
                sheets.number("Latest over before", "Learning", "Trainee", T, "Phase", "capsulotomy"));
        percent(
                LATEST + ", share",
                "progress",
                of(json.path("marks").path("shares"), "case", LATEST).path("share"));
        JsonNode places = term.path("curve").path("places");
        told.whole(
                T + ", curve, upper limit at the end",
                "progress",
                places.get(places.size() - 1).path("upper_us").asDouble() / 1e6);
        told.whole(
                T + ", curve, upper limit at the end",
                "Learning",
                sheets.number("Upper, last (s)", "Learning", "Trainee", T, "Phase", "capsulotomy"));
        JsonNode share = of(json.path("marks").path("shares"), "case", CASE);
        told.whole(CASE + ", share", "progress", share.path("share").asDouble());
        told.whole(
                T + ", own less assessors'",
                "progress",
                100 * json.path("gap").path("mean").path("value").asDouble());
        told.read(T + ", own less assessors'", "portfolio PDF", portfolio, "On average (−?\\d+) percentage points");
        assertThat(json.path("monitoring_says").asString()).isNotEmpty();
    }

    private void watched(Sheets sheets, JsonNode json) {
        JsonNode points = json.path("monitoring").path("points");
        told.whole(
                "T02, CUSUM",
                "progress",
                points.get(points.size() - 1).path("sum").asDouble());
        told.whole("T02, CUSUM", "Complications", sheets.number("CUSUM", "Complications", "Trainee", "T02"));
        told.whole(
                "T02, events",
                "progress",
                json.path("monitoring").path("failures").asInt());
    }

    private void leftOut(Sheets sheets, String cohort, String portfolio) {
        assertThat(cohorts).hasSize(5);
        cohorts.forEach((command, json) -> told.whole(
                "left out",
                "cohort " + command,
                json.path("left_out").path("cases").asInt()));
        String why = "(\\d+) cases left out: no consent for assessment use";
        told.read("left out", "cohort PDF", cohort, why);
        told.read("left out", "Read me", sheets.rows("Read me").toString(), why);
        told.whole("left out of " + T, "progress", 1);
        told.read(
                "left out of " + T, "portfolio PDF", portfolio, "(\\d+) case left out: no consent for assessment use");
        assertThat(sheets.rows("Cases").stream().map(r -> r.get("Case"))).doesNotContainAnyElementsOf(REFUSED);
    }

    private void programme(Screens screens) throws Exception {
        screens.go(KeyCode.DIGIT6);
        screens.part("cohort");
        screens.until("#cohort-matrix");
        for (String who : List.of("T02", "T03", "T04")) {
            String cell = screens.words("#cell-" + who + "-whole");
            String q = who + ", all items, ";
            told.read(q + "mean %", "matrix", cell, "^([\\d.]+) %");
            told.read(q + "n", "matrix", cell, "(?:\\d of|n =) (\\d+)");
            if (!who.equals("T02")) {
                told.read(q + "lower %", "matrix", cell, "% (\\d+)–");
                told.read(q + "upper %", "matrix", cell, "–(\\d+); \\d+ of");
            }
            told.read(q + "cases", "matrix", screens.row("#cohort-matrix", who), who + " \\| (\\d+) \\|");
            told.read(who + ", capsule, mean %", "matrix", screens.words("#cell-" + who + "-capsule"), "^([\\d.]+) %");
        }
        String why = "(\\d+) cases left out: no consent for assessment use";
        told.read("left out", "matrix", screens.words("#cohort-left-out"), why);

        screens.section("ASSESSORS", "#cohort-assessors");
        for (String who : List.of("A1", "A2", "A3", "A4")) {
            String row = screens.row("#cohort-assessors", who);
            told.read(who + ", shared cases", "assessors", row, who + " \\| \\d+ \\| (\\d+)");
            told.read(who + ", difference %", "assessors", row, who + " \\| \\d+ \\| \\d+ \\| (−?[\\d.]+)");
        }
        told.read("equal points %", "assessors", screens.words("#cohort-assessors-part"), "equal in ([\\d.]+) %");
        told.read("left out", "assessors", screens.words("#cohort-left-out"), why);

        screens.section("PLAN", "#cohort-plan");
        told.read("cases for Φ 0.80", "plan", screens.words("#cohort-plan"), "To reach Φ 0.80.*?: (\\d+) cases? ×");
        told.read("left out", "plan", screens.words("#cohort-left-out"), why);

        screens.section("COMPLICATIONS", "#cohort-complications-table");
        String unit = screens.words("#cohort-complications");
        told.read("unit, failures", "complications", unit, "do not count\\): (\\d+) with an event that counts");
        told.read("unit, rate %", "complications", unit, "with an event that counts, ([\\d.]+) %");
        for (String who : List.of("T01", "T02", "T03", "T04")) {
            String row = screens.row("#cohort-complications-table", who);
            told.read(who + ", known", "complications", row, who + " \\| (\\d+)/");
            told.read(who + ", events", "complications", row, who + " \\| \\S+ \\| (\\d+)");
            told.read(who + ", rate %", "complications", row, who + " \\| \\S+ \\| \\d+ \\| ([\\d.]+) %");
            told.read(who + ", funnel %", "complications", row, "–([\\d.]+) %");
        }

        screens.section("TIMES", "#chart-cohort-times");
        told.read("left out", "times", screens.words("#cohort-left-out"), why);

        screens.section("MATRIX", "#cohort-matrix");
        screens.press("#cell-" + T + "-whole", "#cohort-marks");
        told.read(
                CASE + ", share %", "marks behind a cell", screens.words("#cohort-marks"), CASE + " A\\d ([\\d.]+) %");
    }

    private void decisions(Screens screens) throws Exception {
        screens.part("decisions");
        screens.choose("#decision-trainee", T);
        screens.until("#decision-mean", "Mean");
        String mean = screens.words("#decision-mean");
        String q = T + ", decision, ";
        told.read(q + "mean_share %", "decisions", mean, "Mean ([\\d.]+) %");
        told.read(q + "mean_lower %", "decisions", mean, "95 % ([\\d.]+) to");
        told.read(q + "mean_upper %", "decisions", mean, "to ([\\d.]+) %");
        told.read(q + "sem %", "decisions", mean, "SEM ([\\d.]+)");
        told.read(q + "phi", "decisions", mean, "Φ ([\\d.]+)");
        told.read(q + "g", "decisions", mean, "G ([\\d.]+)");
        String standard = screens.words("#decision-standard");
        told.read("standard %", "decisions", standard, "Standard .*?([\\d.]+) %");
        told.read(q + "mean_less_standard %", "decisions", standard, "Mean less standard: (−?[\\d.]+)");
        told.read("left out of " + T, "decisions", screens.words("#decisions"), "(\\d+) case left out");
    }

    private void trainee(Screens screens) throws Exception {
        screens.go(KeyCode.DIGIT5);
        screens.choose("#progress-trainee", T);
        screens.until("#progress-summary", T);
        String all = screens.words("#progress-scroll");
        told.read(LATEST + ", share %", "progress", all, "; the latest (\\d+) %");
        told.read(T + ", own less assessors'", "progress", all, "On average (−?\\d+) percentage points");
        told.read(T + ", median, n", "progress", all, "Capsulotomy: (\\d+) cases with a time");
        told.read(
                T + ", latest over before",
                "progress",
                all.substring(all.indexOf("Capsulotomy: ")),
                "The latest took ([\\d.]+) times as long");
        told.read("left out of " + T, "progress", screens.words("#progress-left-out"), "(\\d+) case left out");
    }
}
