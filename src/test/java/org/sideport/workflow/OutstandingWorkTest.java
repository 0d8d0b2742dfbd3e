package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.model.Assignment.Purpose;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Rating;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.workflow.OutstandingWork.Kind;
import org.sideport.workflow.assign.Assignments;

class OutstandingWorkTest {

    private static final Clock CLOCK = Clock.fixed(Instant.parse("2026-07-01T12:00:00Z"), ZoneOffset.UTC);

    @TempDir
    Path temp;

    /** C-1 is done in every way; C-2 is overdue and unmarked; C-3 a draft; C-4 signed, without tags and own marks. */
    @Test
    void whatIsMissingIsListedWithWhoHasToDoIt() {
        try (Workspace workspace = FreshWorkspace.in(temp.resolve("w"))) {
            MadeUpMarks marks = new MadeUpMarks(workspace);
            for (int c = 1; c <= 4; c++) {
                marks.addCase("C-" + c, "T0" + c, c);
            }
            Tagging tagged = new Tagging(
                    TaggingStyle.START_AND_END,
                    List.of(new PhaseSpan("rhexis", MediaTime.ZERO, MediaTime.ofSeconds(30), null)),
                    List.of());
            workspace.change(
                    s -> List.of("C-1", "C-2", "C-3").forEach(c -> s.taggings().save(c, "A1", tagged)));
            marks.mark("C-1", "A1", "scale", true, Map.of("score", 500));
            marks.markOneself("C-1", "T01", "scale", Map.of("score", 500));
            marks.mark("C-4", "A1", "scale", true, Map.of("score", 500));
            workspace.change(s -> s.ratings()
                    .addDraft("C-3", new Rating("scale", "1.0.0", "A2", false, true, List.of(), ""), null, null));
            new Assignments(workspace, Clock.fixed(Instant.parse("2026-06-01T12:00:00Z"), ZoneOffset.UTC))
                    .give(
                            List.of("C-2"),
                            "A3",
                            new Assignments.Terms(Purpose.FIRST, Set.of(), LocalDate.of(2026, 6, 30)));

            List<OutstandingWork.Item> items = new OutstandingWork(workspace, CLOCK).of("scale", null);

            assertThat(items)
                    .extracting(i -> i.kind() + " " + i.caseCode() + " " + i.who())
                    .containsExactly(
                            Kind.OVERDUE + " C-2 A3",
                            Kind.DRAFT + " C-3 A2",
                            Kind.SELF_MARKS + " C-4 T04",
                            Kind.UNMARKED + " C-2 ",
                            Kind.UNMARKED + " C-3 ",
                            Kind.UNTAGGED + " C-4 ");
            assertThat(items.get(0).since()).isEqualTo(LocalDate.of(2026, 6, 30));
            // on the day itself nothing is late
            assertThat(new OutstandingWork(
                                    workspace, Clock.fixed(Instant.parse("2026-06-30T22:00:00Z"), ZoneOffset.UTC))
                            .of("scale", null))
                    .noneMatch(i -> i.kind() == Kind.OVERDUE);
        }
    }
}
