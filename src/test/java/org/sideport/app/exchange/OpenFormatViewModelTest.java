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
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.RunNow;
import org.sideport.app.Texts;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.SurgicalCase;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.exchange.ExportOpen;
import org.sideport.workflow.exchange.OpenFormat;

class OpenFormatViewModelTest {

    @TempDir
    Path folder;

    private static final Set<OpenFormat> CAPTIONS = Set.of(OpenFormat.SRT, OpenFormat.VTT_CAPTIONS);

    private final Texts texts = new Texts();

    private static Tagging incision(double end) {
        return new Tagging(
                TaggingStyle.START_AND_END,
                List.of(new PhaseSpan("incision", MediaTime.ZERO, MediaTime.ofSeconds(end), null)),
                List.of());
    }

    @Test
    void oneOfSeveralTaggersIsChosenAndEachFormatIsNamedAndWritten() {
        try (Workspace workspace = FreshWorkspace.in(folder.resolve("unit"))) {
            workspace.change(s -> {
                s.cases().add(new SurgicalCase("C-1", "T03", LocalDate.of(2026, 3, 9), "phaco", Map.of(), null));
                s.taggings().save("C-1", "A1", incision(10));
                s.taggings().save("C-1", "A2", incision(11));
            });
            List<ExportOpen.Exported> written = new ArrayList<>();
            OpenFormatViewModel model = new OpenFormatViewModel(
                    new ExportOpen(workspace, Clock.systemUTC()), "C-1", new RunNow(), texts, written::add);
            Path none = folder.resolve("none.vtt");
            assertThat(model.whyNotProperty().get()).isEqualTo(texts.get("open.why.annotator"));
            model.write(none);
            assertThat(none).doesNotExist();
            model.annotatorProperty().set("A2");
            for (OpenFormat format : model.formats()) {
                assertThat(model.nameOf(format)).doesNotContain("open.format");
                model.formatProperty().set(format);
                Path file = folder.resolve(format.id() + "-" + model.fileName());
                model.write(file);
                if (CAPTIONS.contains(format)) {
                    // nobody has commented
                    assertThat(model.problemProperty().get()).as(format.id()).isNotNull();
                    assertThat(file).doesNotExist();
                } else {
                    assertThat(model.problemProperty().get()).as(format.id()).isNull();
                    assertThat(file).isNotEmptyFile();
                }
            }
            assertThat(written).hasSize(OpenFormat.values().length - CAPTIONS.size());
            assertThat(Files.exists(none)).isFalse();
            model.write(folder.resolve("no-such-folder").resolve("x.json"));
            assertThat(model.problemProperty().get()).isNotNull();
            assertThat(model.whyNotProperty().get()).isEmpty();
        }
    }
}
