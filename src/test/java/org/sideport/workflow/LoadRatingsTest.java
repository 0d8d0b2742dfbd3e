package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.NotApplicable;
import org.sideport.model.RatingState;
import org.sideport.model.Rubric;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;

class LoadRatingsTest {

    private static final String HEAD = "case,rubric,version,assessor,self,item,points,not_applicable,comment";
    private static final String OPENING = "C-01,phaco-competency,1.0.0,";

    @TempDir
    Path temp;

    private Workspace workspace;
    private LoadRatings job;

    @BeforeEach
    void open() {
        workspace = FreshWorkspace.in(temp.resolve("w"));
        Unit.addCase(workspace, "C-01");
        job = new LoadRatings(workspace);
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    @Test
    void completeRatingsAreSignedAndOthersStayDrafts() {
        List<String> lines = new ArrayList<>(List.of(HEAD));
        for (Rubric.Item item : Unit.RUBRIC.items()) {
            lines.add(OPENING + "A1,false," + item.id() + ",3,,");
        }
        lines.add(OPENING + "T03,TRUE,view,4,,");
        lines.add(OPENING + "T03,TRUE,division,,done_by_trainer,from the first crack");
        lines.add(OPENING + "T03,TRUE,closure,,,");
        assertThat(job.load(Unit.csv(temp, lines.toArray(new String[0])))).isEqualTo(2);
        List<StoredRating> stored = workspace.read(s -> s.ratings().all());
        assertThat(stored).extracting(StoredRating::state).containsExactly(RatingState.SIGNED, RatingState.DRAFT);
        assertThat(stored.get(0).rating()).isEqualTo(Unit.rating("A1", false));
        assertThat(stored.get(1).rating().self()).isTrue();
        assertThat(stored.get(1).rating().scores())
                .containsExactly(
                        new ItemScore.Marked("view", 4, ""),
                        new ItemScore.Excused("division", NotApplicable.DONE_BY_TRAINER, "from the first crack"));
    }

    @ParameterizedTest
    @CsvSource(
            delimiter = '|',
            value = {
                "C-09,phaco-competency,1.0.0,A1,false,view,3,, | there is no case C-09",
                "C-01,phaco-competency,2.0.0,A1,false,view,3,, | there is no rubric phaco-competency 2.0.0",
                "C-01,other,1.0.0,A1,false,view,3,, | there is no rubric other 1.0.0",
                "C-01,phaco-competency,1.0.0,A1,false,juggling,3,, | unknown item \"juggling\"",
                "C-01,phaco-competency,1.0.0,A1,false,view,5,, | view cannot have 5 points",
                "C-01,phaco-competency,1.0.0,A1,false,view,2.5,, | view cannot have 2.5 points",
                "C-01,phaco-competency,1.0.0,A1,false,view,,asleep, | unknown reason \"asleep\"",
                "C-01,phaco-competency,1.0.0,A1,false,view,,done_by_trainer, | view cannot be left out as done_by_trainer",
                "C-01,phaco-competency,1.0.0,A1,false,division,3,done_by_trainer, | has both points and a reason",
                "C-01,phaco-competency,1.0.0,A1,maybe,view,3,, | \"maybe\" is neither true nor false",
                "C-01,phaco-competency,1.0.0,T04,true,view,3,, | only be by its trainee T03",
                "C-01,phaco-competency,1.0.0,T03,false,view,3,, | T03 is the trainee of C-01",
                "C-01,phaco-competency,1.0.0,two words,false,view,3,, | cannot be the code of an assessor",
                "C-01,phaco-competency,1.0.0,A2,false,view,3,, | view is marked twice",
                "C-01,phaco-competency,1.0.0,,false,view,3,, | the column assessor is empty",
            })
    void eachFaultNamesItsLineAndNothingIsStored(String line, String message) {
        Path file = Unit.csv(temp, HEAD, OPENING + "A2,false,view,3,,", line);
        assertThatThrownBy(() -> job.load(file))
                .isInstanceOf(InputException.class)
                .hasMessageContaining(file + ", line 3")
                .hasMessageContaining(message);
        assertThat(workspace.<List<StoredRating>>read(s -> s.ratings().all())).isEmpty();
    }

    @Test
    void aRatingThatIsThereAlreadyIsNotTouched() {
        MarkCase marking = new MarkCase(workspace);
        marking.rate("C-01", Unit.rating("A1", false));
        Path file =
                Unit.csv(temp, HEAD, OPENING + "A2,false,view,3,,", "c-01,phaco-competency,1.0.0,A1,false,view,1,,");
        for (int i = 0; i < 2; i++) {
            assertThatThrownBy(() -> job.load(file))
                    .isInstanceOf(InputException.class)
                    .hasMessageContaining(file + ", line 3")
                    .hasMessageContaining("A1 has rated C-01 already");
            assertThat(workspace.<List<StoredRating>>read(s -> s.ratings().all()))
                    .hasSize(1);
            if (i == 0) {
                marking.sign("C-01", Unit.RUBRIC.id(), "A1", false);
            }
        }
    }
}
