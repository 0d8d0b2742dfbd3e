package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.AuditEvent;
import org.sideport.model.Caller;
import org.sideport.model.InputException;
import org.sideport.model.Role;
import org.sideport.model.Rubric;
import org.sideport.rubric.Finding;
import org.sideport.rubric.RubricDraft;
import org.sideport.rubric.RubricReader;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.RubricWorkshop.Opened;
import org.sideport.workflow.RubricWorkshop.Saved;
import org.sideport.workflow.RubricWorkshop.Shelf;

class RubricWorkshopTest {

    @TempDir
    Path folder;

    private Workspace workspace;
    private RubricWorkshop workshop;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(folder);
        workshop = new RubricWorkshop(workspace);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private Shelf shelf(String id) {
        return workshop.shelf().stream()
                .filter(s -> s.id().equals(id))
                .findFirst()
                .orElseThrow();
    }

    private Saved saveCopy() {
        Opened copy = workshop.copy(shelf("phaco-global"));
        return workshop.save(copy, copy.draft().with("/title", "Ours"));
    }

    private void mark(Rubric rubric) {
        new ImportRecording(workspace)
                .addCase(new NewCase("C-1", "T02", LocalDate.of(2026, 3, 4), "phaco", Map.of("eye", "left")), null);
        new MarkCase(workspace)
                .open("C-1", "A1", false, rubric)
                .mark(rubric.items().get(0).id(), 3);
    }

    @Test
    void aCopyIsAFileOfOnesOwnThatMarkingOffersAndEditorsKnowTheSchemaOf() throws IOException {
        Saved saved = saveCopy();

        assertThat(saved.file()).isEqualTo(folder.resolve("rubrics").resolve("phaco-global-own-1.0.0.json"));
        assertThat(RubricReader.read(saved.file()).title()).isEqualTo("Ours");
        assertThat(new Vocabularies(workspace).rubrics("phaco"))
                .extracting(Rubric::id)
                .contains("phaco-global-own");
        assertThat(Files.readString(folder.resolve("rubrics").resolve("rubric.schema.json")))
                .contains("2020-12");
        List<AuditEvent> trail = workspace.read(stores -> stores.audit().all());
        assertThat(trail)
                .anyMatch(e -> e.deed().equals("rubric.save") && e.subject().equals("phaco-global-own 1.0.0"));
    }

    @Test
    void whatNobodyHasUsedIsChangedInItsFile() {
        Saved first = saveCopy();
        Opened again = workshop.open(shelf("phaco-global-own"));
        Saved second = workshop.save(again, again.draft().with("/title", "Ours, better"));

        assertThat(second.file()).isEqualTo(first.file());
        assertThat(shelf("phaco-global-own").title()).isEqualTo("Ours, better");
    }

    @Test
    void aVersionThatARatingWasMadeWithStaysAndItsChangeIsTheNextOne() {
        Saved first = saveCopy();
        mark(first.rubric());

        Opened next = workshop.open(shelf("phaco-global-own"));
        assertThat(next.ratings()).isEqualTo(1);
        assertThat(next.draft().text("/version")).isEqualTo("1.1.0");
        String gone = first.rubric().items().get(1).id();
        RubricDraft without = next.draft().without("/items", 1);
        assertThat(RubricWorkshop.check(without, workshop.procedures()))
                .extracting(Finding::path)
                .containsExactly("/replaces/0/items/" + gone);
        assertThatThrownBy(() -> workshop.save(next, without)).isInstanceOf(InputException.class);

        Saved second = workshop.save(next, without.withFate(gone, null));
        assertThat(second.file()).isNotEqualTo(first.file());
        assertThat(RubricReader.read(first.file())).isEqualTo(first.rubric());
        assertThat(second.rubric().itemOf("1.0.0", gone)).isEmpty();
        // what was begun in the old version goes on in it; what begins is in the new one
        MarkCase marking = new MarkCase(workspace);
        assertThat(marking.open("C-1", "A1", false, second.rubric()).rubric().version())
                .isEqualTo("1.0.0");
        assertThat(marking.open("C-1", "A2", false, second.rubric()).rubric().version())
                .isEqualTo("1.1.0");
    }

    @Test
    void theNextVersionCanBeTakenUpAgainUntilItIsUsed() {
        Saved first = saveCopy();
        mark(first.rubric());
        Opened next = workshop.open(shelf("phaco-global-own"));
        workshop.save(next, next.draft().with("/title", "Second"));

        Opened again = workshop.open(shelf("phaco-global-own"));
        assertThat(again.draft().text("/version")).isEqualTo("1.1.0");
        assertThat(again.draft().earlier()).isEqualTo(first.rubric());
        assertThat(RubricWorkshop.check(again.draft().without("/items", 0), workshop.procedures()))
                .hasSize(1);
    }

    @Test
    void whatComesWithTheProgramGetsANextVersionOfOnesOwn() {
        Opened next = workshop.open(shelf("phaco-global"));
        Saved saved = workshop.save(next, next.draft().with("/title", "Changed"));

        assertThat(saved.rubric().version()).isEqualTo("1.1.0");
        assertThat(saved.rubric().replaces())
                .extracting(Rubric.Predecessor::version)
                .containsExactly("1.0.0");
        assertThat(new Vocabularies(workspace).rubric("phaco-global").rubric()).isEqualTo(saved.rubric());
    }

    @Test
    void anIdOrVersionThatIsTakenAndAFileThatChangedMeanwhileAreRefused() throws IOException {
        Saved first = saveCopy();
        Opened fresh = workshop.copy(shelf("capsulorhexis"));
        assertThatThrownBy(() -> workshop.save(fresh, fresh.draft().with("/id", "phaco-global-own")))
                .hasMessageContaining("already");
        assertThatThrownBy(() -> workshop.save(fresh, fresh.draft().with("/id", "teaching-case")))
                .hasMessageContaining("already");

        Opened open = workshop.open(shelf("phaco-global-own"));
        Files.writeString(first.file(), Files.readString(first.file()).replace("Ours", "Theirs"));
        assertThatThrownBy(() -> workshop.save(open, open.draft().with("/title", "Mine")))
                .hasMessageContaining("changed since it was opened");
        assertThat(Files.readString(first.file())).contains("Theirs");
    }

    @Test
    void aRatingThatBeginsWhileItsRubricIsOpenFreezesItAllTheSame() {
        Saved first = saveCopy();
        Opened open = workshop.open(shelf("phaco-global-own"));
        mark(first.rubric());

        assertThatThrownBy(() -> workshop.save(open, open.draft().with("/title", "Mine")))
                .hasMessageContaining("cannot change any more");
    }

    @Test
    void theTenthVersionComesAfterTheNinth() throws IOException {
        Saved first = saveCopy();
        String text = Files.readString(first.file());
        for (String version : new String[] {"1.9.0", "1.10.0"}) {
            Files.writeString(
                    first.file().resolveSibling("phaco-global-own-" + version + ".json"),
                    text.replace("\"version\": \"1.0.0\"", "\"version\": \"" + version + "\""));
        }
        assertThat(new Vocabularies(workspace)
                        .rubric("phaco-global-own")
                        .rubric()
                        .version())
                .isEqualTo("1.10.0");
        assertThat(shelf("phaco-global-own").version()).isEqualTo("1.10.0");
    }

    @Test
    void aFaultyFileCanBeOpenedAndMended() throws IOException {
        Path file = Files.createDirectories(folder.resolve("rubrics")).resolve("mine.json");
        Files.writeString(
                file,
                Files.readString(Path.of("rubrics", "phaco-global.json"))
                        .replace("\"id\": \"phaco-global\"", "\"id\": \"mine\"")
                        .replace("\"domains\"", "\"title\": 7, \"domains\"")
                        .replaceFirst("\"title\": \"[^\"]*\",", ""));

        Shelf faulty = shelf("mine.json");
        assertThat(faulty.faults()).isPositive();
        Opened open = workshop.open(faulty);
        workshop.save(open, open.draft().with("/title", "Mended"));

        assertThat(RubricReader.read(file).title()).isEqualTo("Mended");
    }

    @Test
    void aTraineeMayNotChangeRubrics() {
        RubricWorkshop trainees = new RubricWorkshop(workspace.as(new Caller.Person("T02", Set.of(Role.TRAINEE))));
        assertThatThrownBy(trainees::shelf).isInstanceOf(InputException.class);
        assertThatThrownBy(() -> trainees.fresh("phaco")).isInstanceOf(InputException.class);
        Opened own = workshop.fresh("phaco");
        assertThatThrownBy(() -> trainees.save(own, own.draft())).isInstanceOf(InputException.class);
    }
}
