package org.sideport.app.exchange;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Consumer;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.Bench;
import org.sideport.app.Question;
import org.sideport.app.RunNow;
import org.sideport.app.Texts;
import org.sideport.model.Consent;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.Progress;
import org.sideport.model.SurgicalCase;
import org.sideport.player.DemoRecordings;
import org.sideport.rubric.ShippedRubrics;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.TagExchange;
import org.sideport.workflow.consent.ConsentDoubts;
import org.sideport.workflow.exchange.ExportChapters;
import org.sideport.workflow.exchange.ExportOpen;
import org.sideport.workflow.exchange.MakeFilm;

/** What is asked before a case goes out, and the film and the copies that a screen makes of it. */
class HandOutTest {

    @TempDir
    Path folder;

    private final Texts texts = new Texts();
    private Workspace workspace;

    @BeforeEach
    void aTaggedCase() throws Exception {
        workspace = FreshWorkspace.in(folder.resolve("unit"));
        Bench.addCase(workspace, "D-001", DemoRecordings.D001);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private void add(String code, Consent consent) {
        workspace.change(s -> s.cases()
                .add(new SurgicalCase(code, "T02", LocalDate.of(2026, 3, 4), "phaco", Map.of(), null, consent, null)));
    }

    @Test
    void whereNoConsentIsRecordedItIsAskedBeforeAnythingIsWrittenAndOnlyThen() {
        ConsentQuestion consent = new ConsentQuestion(new ConsentDoubts(workspace), new RunNow(), texts);
        List<Question> asked = new ArrayList<>();
        List<Runnable> yes = new ArrayList<>();
        List<Throwable> refused = new ArrayList<>();
        int[] done = new int[1];
        Consumer<String> go = code -> consent.before(
                List.of(code),
                ConsentPurpose.TEACHING,
                (question, answer) -> {
                    asked.add(question);
                    yes.add(answer);
                },
                refused::add,
                () -> done[0]++);
        go.accept("D-001");
        assertThat(done[0]).as("nothing before the answer").isZero();
        assertThat(asked).singleElement().satisfies(question -> {
            assertThat(question.text()).contains("teaching");
            assertThat(question.lines()).singleElement().asString().startsWith("D-001: ");
        });
        yes.get(0).run();
        assertThat(done[0]).isEqualTo(1);
        LocalDate day = LocalDate.of(2026, 3, 5);
        add("G-1", new Consent(ConsentState.GIVEN, Set.of(ConsentPurpose.TEACHING), "A1", day));
        go.accept("G-1");
        assertThat(done[0]).as("with consent nobody is asked").isEqualTo(2);
        assertThat(asked).hasSize(1);
        add("R-1", new Consent(ConsentState.REFUSED, Set.of(), "A1", day));
        go.accept("R-1");
        assertThat(done[0]).isEqualTo(2);
        assertThat(refused).singleElement().satisfies(why -> assertThat(why).hasMessageContaining("refused"));
    }

    @Test
    void aFilmShowsTheStretchesAndCopiesHaveThePhasesAsChapters() throws Exception {
        List<MakeFilm.Made> made = new ArrayList<>();
        FilmViewModel film = new FilmViewModel(
                new MakeFilm(workspace),
                new ExportOpen(workspace, Clock.systemUTC()),
                "D-001",
                ShippedRubrics.phacoProcedure(),
                new RunNow(),
                texts,
                made::add);
        film.spokenProperty().set(false);
        film.commentsProperty().set(false);
        assertThat(film.whyNotProperty().get()).isEqualTo(texts.get("film.why.nothing"));
        Path file = folder.resolve("film.mp4");
        film.stretchesProperty().set("somewhere");
        film.make(file);
        assertThat(film.problemProperty().get()).isNotNull();
        assertThat(file).doesNotExist();
        film.stretchesProperty().set("0:10-0:11; 0:20-0:20.4");
        film.make(file);
        assertThat(film.problemProperty().get()).isNull();
        assertThat(made).hasSize(1);
        // 25 frames a second by D-001-truth.json: 1.0 s and 0.4 s are 25 and 10 frames
        assertThat(ImportRecording.probe(List.of(file), Progress.NONE)
                        .recording()
                        .segments()
                        .get(0)
                        .frames())
                .isEqualTo(35);

        List<ExportChapters.Exported> written = new ArrayList<>();
        assertThat(chapters(written).whyNotProperty().get()).isEqualTo(texts.get("chapters.why.untagged"));
        List<String> truth = Files.readAllLines(DemoRecordings.file("truth-phases.csv"));
        Path own = Files.write(
                folder.resolve("phases.csv"),
                truth.stream()
                        .filter(line -> line.startsWith("case,") || line.startsWith("D-001,"))
                        .toList());
        new TagExchange(workspace).importCsv(own, null, false);
        ChaptersViewModel copies = chapters(written);
        copies.copy(Files.createDirectory(folder.resolve("out")));
        assertThat(copies.problemProperty().get()).isNull();
        assertThat(written).singleElement().satisfies(one -> {
            assertThat(one.files())
                    .hasSize(2)
                    .allSatisfy(copy -> assertThat(copy).isNotEmptyFile());
            assertThat(one.chapters()).isPositive();
        });
    }

    private ChaptersViewModel chapters(List<ExportChapters.Exported> written) {
        return new ChaptersViewModel(
                new ExportChapters(workspace),
                new ExportOpen(workspace, Clock.systemUTC()),
                "D-001",
                new RunNow(),
                texts,
                written::add);
    }
}
