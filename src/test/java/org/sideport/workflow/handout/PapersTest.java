package org.sideport.workflow.handout;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.OffsetDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.PDResources;
import org.apache.pdfbox.pdmodel.font.PDFont;
import org.apache.pdfbox.pdmodel.graphics.form.PDFormXObject;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Progress;
import org.sideport.model.Rating;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.report.Cautions;
import org.sideport.report.page.CohortPage;
import org.sideport.report.page.CohortReport;
import org.sideport.report.page.PageWords;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.workflow.CohortView;
import org.sideport.workflow.FollowCohort;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.MarkCase;
import org.sideport.workflow.NewCase;
import org.sideport.workflow.assign.Adjudication;
import org.sideport.workflow.handout.WriteFeedback.Wanted;

/** What stands on paper, read back out of the PDF by Apache PDFBox. */
class PapersTest {

    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-06-01T10:00:00Z"), ZoneOffset.UTC);

    @TempDir
    Path dir;

    private Workspace workspace;

    @BeforeEach
    void threeCasesOfTwoTrainees() {
        workspace = FreshWorkspace.in(dir.resolve("w"));
        add("C-01", "T04", 1);
        add("C-02", "T04", 2);
        add("C-03", "T05", 3);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void add(String code, String trainee, int day) {
        new ImportRecording(workspace)
                .addCase(new NewCase(code, trainee, LocalDate.of(2026, 3, day), "phaco", Map.of()), null);
        workspace.change(stores -> stores.taggings()
                .save(
                        code,
                        "A1",
                        new Tagging(
                                TaggingStyle.START_AND_END,
                                List.of(
                                        new PhaseSpan(
                                                "main_incision",
                                                MediaTime.ofSeconds(10),
                                                MediaTime.ofSeconds(25.5 + day),
                                                null),
                                        new PhaseSpan(
                                                "rhexis", MediaTime.ofSeconds(40), MediaTime.ofSeconds(61), null)),
                                List.of())));
        MarkCase marks = new MarkCase(workspace);
        for (String assessor : List.of("A1", "A2")) {
            marks.rate(code, HandoutCase.rating(assessor, false, "remark of " + assessor + " on " + code));
            marks.sign(code, HandoutCase.RUBRIC.id(), assessor, false);
        }
    }

    private record Read(String words, String squeezed, List<String> loose, int pages, String title, String language) {}

    private static Read read(Path file) throws IOException {
        try (PDDocument document = Loader.loadPDF(file.toFile())) {
            String words = new PDFTextStripper().getText(document);
            List<String> loose = new ArrayList<>();
            for (PDPage page : document.getPages()) {
                loose(page.getResources(), loose);
            }
            assertThat(document.getDocumentCatalog().getMarkInfo().isMarked())
                    .as("tagged")
                    .isTrue();
            assertThat(document.getDocumentCatalog().getStructureTreeRoot()).isNotNull();
            return new Read(
                    words.replaceAll("[\\s\u00a0]+", " "),
                    words.replaceAll("\\s+", ""),
                    loose,
                    document.getNumberOfPages(),
                    document.getDocumentInformation().getTitle(),
                    document.getDocumentCatalog().getLanguage());
        }
    }

    /** Fonts that are not embedded, on the page and in the drawings on it. */
    private static void loose(PDResources resources, List<String> loose) throws IOException {
        int seen = 0;
        for (COSName name : resources.getFontNames()) {
            PDFont font = resources.getFont(name);
            seen++;
            if (!font.isEmbedded()) {
                loose.add(font.getName());
            }
        }
        for (COSName name : resources.getXObjectNames()) {
            if (resources.getXObject(name) instanceof PDFormXObject form && form.getResources() != null) {
                loose(form.getResources(), loose);
            }
        }
        assertThat(seen).isNotNegative();
    }

    private List<StoredRating> signed(String... codes) {
        return workspace.read(stores -> List.of(codes).stream()
                .flatMap(code -> stores.ratings().ofCase(code).stream())
                .toList());
    }

    private String digest(StoredRating of) {
        return workspace.read(
                stores -> stores.seals().find(of.id()).orElseThrow().digest());
    }

    private static void holdsEveryMark(Read paper, List<StoredRating> ratings) {
        assertThat(ratings).isNotEmpty();
        String rest = paper.words();
        for (StoredRating stored : ratings) {
            for (Rubric.Item item : HandoutCase.RUBRIC.items()) {
                ItemScore score = stored.rating().score(item.id()).orElseThrow();
                String mark = item.title() + " "
                        + (score instanceof ItemScore.Marked m
                                ? m.points() + " of " + HandoutCase.RUBRIC.maximumOf(item)
                                : "done by the trainer");
                int at = rest.indexOf(mark);
                assertThat(at).as(mark).isNotNegative();
                rest = rest.substring(at + mark.length());
            }
        }
    }

    private static void isWhole(Read paper, String title) {
        assertThat(paper.loose()).as("letters that are not in the file").isEmpty();
        assertThat(paper.title()).isEqualTo(title);
        assertThat(paper.language()).isEqualTo("en");
        Cautions.LINES.forEach(caution -> assertThat(paper.words()).contains(caution));
        int heads = paper.words().split(java.util.regex.Pattern.quote(Cautions.SHORT), -1).length - 1;
        assertThat(heads).as("the caution at the head of each page").isGreaterThanOrEqualTo(paper.pages());
        for (int page = 1; page <= paper.pages(); page++) {
            assertThat(paper.words()).contains(page + " / " + paper.pages());
        }
        assertThat(paper.squeezed()).doesNotContain("{{", "null", "w.db");
    }

    @Test
    void thePortfolioHoldsEverySignedMarkAndItsDigest() throws IOException {
        Path out = dir.resolve("t04.pdf");
        new WritePortfolio(workspace)
                .write(new WritePortfolio.Wanted("T04", null, null, false, "en"), out, Progress.NONE);
        Read paper = read(out);
        isWhole(paper, "Portfolio of T04");
        List<StoredRating> own = signed("C-01", "C-02");
        holdsEveryMark(paper, own);
        own.forEach(r -> assertThat(paper.squeezed()).contains(digest(r)));
        assertThat(paper.words())
                .contains("remark of A1 on C-01", "remark of A2 on C-02", "Slow down", "rate verify --case")
                .as("nobody else's")
                .doesNotContain("T05", "C-03");
        assertThat(paper.words()).contains("(2 assessors)");
    }

    @Test
    void thePortfolioIsForThatTraineeAndForDirectors() {
        Path out = dir.resolve("t04.pdf");
        WritePortfolio.Wanted wanted = new WritePortfolio.Wanted("T04", null, null, false, "en");
        assertThatThrownBy(() -> new WritePortfolio(workspace.as(new Caller.Person("T05", Set.of(Role.TRAINEE))))
                        .write(wanted, out, Progress.NONE))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> new WritePortfolio(workspace.as(new Caller.Person("A1", Set.of(Role.ASSESSOR))))
                        .write(wanted, out, Progress.NONE))
                .isInstanceOf(InputException.class);
        assertThat(out).doesNotExist();
        assertThat(new WritePortfolio(workspace.as(new Caller.Person("T04", Set.of(Role.TRAINEE))))
                        .write(wanted, out, Progress.NONE)
                        .marks())
                .as("the own marks come first, and there are none yet")
                .isZero();
        assertThat(new WritePortfolio(workspace.as(new Caller.Person("D1", Set.of(Role.DIRECTOR))))
                        .write(wanted, out, Progress.NONE)
                        .marks())
                .isEqualTo(4);
    }

    @Test
    void theFeedbackOnPaperHoldsMarksAnchorsDigestsAndHostileWordsAsWords() throws IOException {
        String hostile = "</p><script>x</script> {{ w }} & \"'<b> ]]> <object data=\"file:///etc/passwd\"/>";
        new ImportRecording(workspace)
                .addCase(new NewCase("C-09", "T04", LocalDate.of(2026, 3, 9), "phaco", Map.of()), null);
        MarkCase marks = new MarkCase(workspace);
        marks.rate("C-09", HandoutCase.rating("A1", false, hostile));
        marks.sign("C-09", HandoutCase.RUBRIC.id(), "A1", false);
        Path out = dir.resolve("c09.pdf");
        new WriteFeedback(workspace).write(new Wanted("C-09", "en", true, false, List.of()), out, Progress.NONE);
        Read paper = read(out);
        assertThat(paper.words()).contains(hostile.replaceAll("\\s+", " "));
        assertThat(paper.loose()).isEmpty();
        holdsEveryMark(paper, signed("C-09"));
        assertThat(paper.squeezed()).contains(digest(signed("C-09").get(0)));

        Path plain = dir.resolve("c01.pdf");
        new WriteFeedback(workspace).write(new Wanted("C-01", "en", true, false, List.of()), plain, Progress.NONE);
        isWholeButForBraces(read(plain));
    }

    private static void isWholeButForBraces(Read paper) {
        isWhole(paper, "Case C-01: feedback");
        Rubric.Item item = HandoutCase.RUBRIC.items().get(0);
        item.anchors().forEach(a -> assertThat(paper.words()).contains(a.text()));
        // 26.5 - 10 s and 61 - 40 s, tagged above
        assertThat(paper.words()).contains("Main incision 0:16.5", "Rhexis 0:21.0");
    }

    /** The recording itself carries the number of each frame (demo-data/README.md). */
    @Test
    void whatWasDrawnIsSeenOnPaperOnItsFrame() throws IOException {
        HandoutCase.into(workspace, "regrip sooner");
        Path out = dir.resolve("drawn.pdf");
        WriteFeedback feedback = new WriteFeedback(workspace);
        feedback.write(Wanted.of(HandoutCase.CODE, "en"), out, Progress.NONE);
        assertThat(pictures(out)).containsExactly(HandoutCase.DRAWN_FRAME);
        feedback.write(new Wanted(HandoutCase.CODE, "en", false, false, List.of()), out, Progress.NONE);
        assertThat(pictures(out)).as("without the recording").isEmpty();
    }

    private static List<Integer> pictures(Path file) throws IOException {
        List<Integer> stamps = new ArrayList<>();
        try (PDDocument document = Loader.loadPDF(file.toFile())) {
            for (PDPage page : document.getPages()) {
                for (COSName name : page.getResources().getXObjectNames()) {
                    if (page.getResources().getXObject(name) instanceof PDImageXObject image) {
                        stamps.add(HandoutCase.stamp(image.getImage()));
                    }
                }
            }
        }
        return stamps;
    }

    /** The minus sign of Unicode (U+2212), a comparison and an arrow that somebody typed; a missing letter is printed as "#". */
    @Test
    void noLetterIsMissingOnPaper() throws IOException {
        Path out = dir.resolve("letters.pdf");
        CohortReport report = new CohortReport(
                "≥ 3 → next",
                6,
                List.of(),
                List.of(),
                List.of(),
                List.of(),
                List.of(new CohortReport.Assessor("A1", 64, 6, 30, -0.099, -0.12, -0.077)),
                null,
                0.8,
                15,
                List.of(),
                "",
                0,
                List.of(),
                "",
                OffsetDateTime.now(CLOCK),
                "0");
        try (OutputStream to = Files.newOutputStream(out)) {
            CohortPage.pdf(report, PageWords.of("en"), to);
        }
        assertThat(read(out).words())
                .contains("−9.9 (−12.0 to −7.7)", "≥ 3 → next")
                .doesNotContain("#");
    }

    @Test
    void theCohortReportShowsTheFiguresOfTheProgrammeScreen() throws IOException {
        Path out = dir.resolve("cohort.pdf");
        new WriteCohortReport(workspace, CLOCK).write(null, 6, "en", out, Progress.NONE);
        CohortView screen = new FollowCohort(workspace, CLOCK).show(FollowCohort.Question.of(HandoutCase.RUBRIC.id()));
        Read paper = read(out);
        isWhole(paper, "Cohort report");
        // all three cases are tagged, see add()
        assertThat(paper.words()).contains("3 cases with a known outcome", "What phases take");
        assertThat(screen.rows()).hasSize(2);
        for (CohortView.Row row : screen.rows()) {
            Double mean = row.whole().mean();
            assertThat(mean).isNotNull();
            assertThat(paper.words())
                    .contains(row.trainee() + " " + row.whole().n() + " of " + row.cases() + " "
                            + row.whole().lastDate() + " "
                            + String.format(java.util.Locale.ROOT, "%.1f %%", 100 * mean));
        }
        assertThat(paper.words()).contains("A1 3 2 3", "A2 3 2 3");
        assertThatThrownBy(() -> new WriteCohortReport(
                                workspace.as(new Caller.Person("A1", Set.of(Role.ASSESSOR))), CLOCK)
                        .write(null, 6, "en", out, Progress.NONE))
                .isInstanceOf(InputException.class);
    }

    /** Names of letters as in the charts of the Unicode Standard. */
    @Test
    void lettersThatPaperCannotShowAreNamedWithTheirPlaceAndNoneIsLostSilently() throws IOException {
        String greek = "Ωμέγα γωνία";
        String cyrillic = "Угол зрачка";
        String signs = "≥ 3 − 1 → 2";
        String others = "中文 ا א क";
        new ImportRecording(workspace)
                .addCase(new NewCase("C-10", "T04", LocalDate.of(2026, 3, 10), "phaco", Map.of()), null);
        MarkCase marks = new MarkCase(workspace);
        marks.rate("C-10", HandoutCase.rating("A1", false, greek + "; " + cyrillic + "; " + signs + "; " + others));
        marks.sign("C-10", HandoutCase.RUBRIC.id(), "A1", false);
        Path out = dir.resolve("c10.pdf");
        new WriteFeedback(workspace).write(new Wanted("C-10", "en", true, false, List.of()), out, Progress.NONE);
        Read paper = read(out);
        assertThat(paper.loose()).isEmpty();
        assertThat(paper.words())
                .contains(greek, cyrillic, signs, "□□ □ □ □")
                .contains(
                        "U+4E2D CJK UNIFIED IDEOGRAPHS 4E2D",
                        "U+6587 CJK UNIFIED IDEOGRAPHS 6587",
                        "U+0627 ARABIC LETTER ALEF",
                        "U+05D0 HEBREW LETTER ALEF",
                        "U+0915 DEVANAGARI LETTER KA")
                .contains("Letters that this paper cannot show", "Agreed to work on next: " + greek)
                .as("the library's own sign for a letter that it lacks")
                .doesNotContain("#");
        new WriteFeedback(workspace)
                .write(new Wanted("C-01", "en", true, false, List.of()), dir.resolve("plain.pdf"), Progress.NONE);
        assertThat(read(dir.resolve("plain.pdf")).words()).doesNotContain("cannot show");
    }

    @Test
    void whatWasAgreedStandsBeforeTheMarksThatDiffered() throws IOException {
        Rating other = HandoutCase.rating("D1", false, "");
        List<ItemScore> scores = other.scores().stream()
                .<ItemScore>map(s -> s instanceof ItemScore.Marked m ? new ItemScore.Marked(m.item(), 4, "") : s)
                .toList();
        Adjudication settling = new Adjudication(workspace, Clock.systemUTC());
        settling.agree(
                "C-01",
                new Rating(other.rubric(), other.rubricVersion(), "D1", false, false, scores, ""),
                "D1, A2",
                "seen together");
        settling.letStand("C-02", HandoutCase.RUBRIC.id(), "A2", "D1", "A1 misread the scale");
        Path html = dir.resolve("c01.html");
        WriteFeedback.Written written = new WriteFeedback(workspace)
                .write(new Wanted("C-01", "en", false, false, List.of()), html, Progress.NONE);
        assertThat(written.marks())
                .as("an agreed mark is no further signed one")
                .isEqualTo(2);
        String page = java.nio.file.Files.readString(html);
        String[] inTurn = {
            ": agreed marks<", ">100\u00a0%<", "seen together", "by D1, A2, rubric", ": marks by A1<", ": marks by A2<"
        };
        int at = 0;
        for (String words : inTurn) {
            int next = page.indexOf(words, at);
            assertThat(next).as(words).isGreaterThanOrEqualTo(at);
            at = next;
        }
        Path paper = dir.resolve("t04.pdf");
        new WritePortfolio(workspace)
                .write(new WritePortfolio.Wanted("T04", null, null, false, "en"), paper, Progress.NONE);
        assertThat(read(paper).words()).contains("agreed marks", "The marks by A2 stand.", "A1 misread the scale");

        new MarkCase(workspace).rate("C-01", HandoutCase.rating("A3", false, ""));
        new MarkCase(workspace).sign("C-01", HandoutCase.RUBRIC.id(), "A3", false);
        new WriteFeedback(workspace).write(new Wanted("C-01", "en", false, false, List.of()), html, Progress.NONE);
        assertThat(java.nio.file.Files.readString(html))
                .as("a mark that was signed since is not settled")
                .doesNotContain("agreed marks");
        new WritePortfolio(workspace.as(new Caller.Person("T04", Set.of(Role.TRAINEE))))
                .write(new WritePortfolio.Wanted("T04", null, null, false, "en"), paper, Progress.NONE);
        assertThat(read(paper).words())
                .as("before the own marks neither the assessors' are seen nor what they agreed")
                .doesNotContain("marks by A1", "agreed marks");
    }
}
