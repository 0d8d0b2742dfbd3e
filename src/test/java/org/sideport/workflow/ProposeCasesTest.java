package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.InputException;
import org.sideport.model.Progress;
import org.sideport.workflow.ProposeCases.Proposal;

class ProposeCasesTest {

    @TempDir
    Path folder;

    private Path file(String name) throws IOException {
        Path file = folder.resolve(name);
        Files.createDirectories(file.getParent());
        return Files.writeString(file, name);
    }

    private static List<Proposal> of(Path... dropped) {
        return ProposeCases.of(List.of(dropped), ZoneOffset.UTC, Progress.NONE);
    }

    private static List<String> names(Proposal proposal) {
        return proposal.files().stream().map(f -> f.getFileName().toString()).toList();
    }

    @Test
    void namesThatDifferByAPartNumberOnlyAreOneCaseInNaturalOrder() throws Exception {
        List<Proposal> found =
                of(file("C-01_part10.mp4"), file("C-01_part9.mp4"), file("C-02 (1).mov"), file("C-02 (2).mov"));
        assertThat(found).extracting(Proposal::code).containsExactly("C-01", "C-02");
        assertThat(names(found.get(0))).containsExactly("C-01_part9.mp4", "C-01_part10.mp4");
    }

    @Test
    void aHyphenMakesACodeAndNoPart() throws Exception {
        assertThat(of(file("C-01.mp4"), file("C-02.mp4"), file("C-10.mp4")))
                .extracting(Proposal::code)
                .containsExactly("C-01", "C-02", "C-10");
    }

    @Test
    void eachFolderIsACaseOfItsOwnWithTheFoldersName() throws Exception {
        file("list/C-07/VID001.MP4");
        file("list/C-07/VID002.MP4");
        file("list/C-08/VID001.MP4");
        file("list/C-08/notes.txt");
        List<Proposal> found = of(folder.resolve("list"));
        assertThat(found).extracting(Proposal::code).containsExactly("C-07", "C-08");
        assertThat(found).extracting(p -> p.files().size()).containsExactly(2, 1);
    }

    @Test
    void aNameThatMayTellThePatientGivesNoCodeButAHint() throws Exception {
        Proposal found = of(file("list/Anna Meyer 1950-01-31.mp4")).get(0);
        assertThat(found.code()).isEmpty();
        assertThat(found.hints()).anyMatch(h -> h.contains("person's name")).anyMatch(h -> h.contains("a date"));
    }

    @Test
    void theDayIsThatOfTheFirstFile() throws Exception {
        Path file = file("C-01.mp4");
        Files.setLastModifiedTime(file, FileTime.from(Instant.parse("2026-03-09T23:30:00Z")));
        assertThat(of(file).get(0).date()).isEqualTo(LocalDate.of(2026, 3, 9));
    }

    @Test
    void aFolderWithoutVideoIsRefusedInWords() throws Exception {
        file("list/notes.txt");
        assertThatThrownBy(() -> of(folder.resolve("list")))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("no video file");
    }
}
