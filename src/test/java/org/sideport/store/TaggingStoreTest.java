package org.sideport.store;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.Parameter;
import org.junit.jupiter.params.ParameterizedClass;
import org.junit.jupiter.params.provider.EnumSource;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;

@ParameterizedClass
@EnumSource(TestEngine.class)
class TaggingStoreTest {

    @Parameter
    TestEngine engine;

    @TempDir
    Path temp;

    private Workspace workspace;

    @BeforeEach
    void open() {
        workspace = engine.create(temp);
        workspace.change(s -> s.cases().add(Samples.surgicalCase("C-01")));
    }

    @AfterEach
    void close() {
        workspace.close();
    }

    private static final Tagging FULL = new Tagging(
            TaggingStyle.STARTS_ONLY,
            List.of(
                    new PhaseSpan("side_port", MediaTime.ofMicros(0), MediaTime.ofMicros(1), Operator.TRAINEE),
                    new PhaseSpan("rhexis", MediaTime.ofMicros(33_367), MediaTime.ofMicros(5_000_000_001L), null),
                    new PhaseSpan("rhexis", MediaTime.ofMicros(5_000_000_001L), null, Operator.ASSISTED)),
            List.of(
                    new PointEvent("take_over", MediaTime.ofMicros(7), null, ""),
                    new PointEvent(
                            "iris_injury", MediaTime.ofMicros(7), Severity.MODERATE, "“caught”; 100 % sure\nline 2"),
                    new PointEvent("teaching_moment", MediaTime.ofMicros(9), null, "' or 1=1 --")));

    @Test
    void aTaggingComesBackAsItWasToTheMicrosecond() {
        workspace.change(s -> s.taggings().save("C-01", "A1", FULL));
        workspace.close();
        workspace = engine.open(temp);
        assertThat(workspace.<Optional<Tagging>>read(s -> s.taggings().find("C-01", "A1")))
                .contains(FULL);
        assertThat(workspace.<Optional<Tagging>>read(s -> s.taggings().find("c-01", "A1")))
                .contains(FULL);
    }

    @Test
    void anotherAnnotatorsTaggingIsAnother() {
        Tagging other = new Tagging(
                TaggingStyle.START_AND_END,
                List.of(new PhaseSpan("suture", MediaTime.ofSeconds(1), MediaTime.ofSeconds(2), Operator.TRAINER)),
                List.of());
        workspace.change(s -> {
            s.taggings().save("C-01", "A2", FULL);
            s.taggings().save("C-01", "A1", other);
        });
        assertThat(workspace.<Optional<Tagging>>read(s -> s.taggings().find("C-01", "A1")))
                .contains(other);
        assertThat(workspace.<Optional<Tagging>>read(s -> s.taggings().find("C-01", "A2")))
                .contains(FULL);
        assertThat(workspace.<Optional<Tagging>>read(s -> s.taggings().find("C-01", "A3")))
                .isEmpty();
        assertThat(workspace.<List<String>>read(s -> s.taggings().annotators("C-01")))
                .containsExactly("A1", "A2");
        assertThat(workspace.<List<TaggingStore.Key>>read(s -> s.taggings().all()))
                .containsExactly(new TaggingStore.Key("C-01", "A1"), new TaggingStore.Key("C-01", "A2"));
    }

    @Test
    void savingAgainPutsTheNewInThePlaceOfTheOld() {
        Tagging shorter = new Tagging(TaggingStyle.START_AND_END, FULL.spans().subList(0, 1), List.of());
        workspace.change(s -> s.taggings().save("C-01", "A1", FULL));
        workspace.change(s -> s.taggings().save("C-01", "A1", shorter));
        assertThat(workspace.<Optional<Tagging>>read(s -> s.taggings().find("C-01", "A1")))
                .contains(shorter);
        workspace.change(s -> s.taggings().save("C-01", "A1", Tagging.EMPTY));
        assertThat(workspace.<Optional<Tagging>>read(s -> s.taggings().find("C-01", "A1")))
                .contains(Tagging.EMPTY);
    }
}
