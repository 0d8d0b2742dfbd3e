package org.sideport.workflow;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.util.ArrayList;
import java.util.List;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import org.sideport.model.InputException;
import org.sideport.model.ItemScore;
import org.sideport.model.MediaTime;
import org.sideport.model.PointEvent;
import org.sideport.model.Progress;
import org.sideport.model.Rating;
import org.sideport.model.Tagging;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.StoredRating;
import org.sideport.store.Workspace;
import org.sideport.timing.CsvText;
import org.sideport.timing.TagCsvReader;
import org.sideport.timing.TagCsvWriter;
import org.sideport.workflow.upkeep.CheckWorkspace;

/** SQL and formulas as text: kept letter by letter, run by nothing. */
class HostileTextTest {

    /** By OWASP, "CSV Injection" and "SQL Injection": the kinds of text that do harm where they are taken for more. */
    private static final List<String> HOSTILE = List.of(
            "'; drop table rating; --",
            "\" or \"\"=\"",
            "1' or '1'='1",
            "x'); delete from audit_event; select ('",
            "=1+1",
            "=HYPERLINK(\"http://example.invalid\",\"look\")",
            "=cmd|' /C calc'!A0",
            "+1-1",
            "-2+3",
            "@SUM(A1)",
            "＝1+1",
            "seen;=1+1",
            "'=kept",
            "''",
            "a,b;\"c\"",
            ":name ?1 $x @y {z}",
            "\\\\server\\share %s %n ${x} #{y} {{z}}",
            "<script>alert(1)</script> &amp; ]]>",
            "_x0041_ \u202egnp.exe \ud83d\udc41");

    @TempDir
    Path temp;

    private Workspace workspace;

    @BeforeEach
    void aWorkspace() {
        workspace = FreshWorkspace.in(temp.resolve("unit"));
        Unit.addCase(workspace, "C-01", 36_000);
    }

    @org.junit.jupiter.api.AfterEach
    void close() {
        workspace.close();
    }

    private static Tagging tagged() {
        List<PointEvent> events = new ArrayList<>();
        for (int i = 0; i < HOSTILE.size(); i++) {
            events.add(new PointEvent("note", MediaTime.ofSeconds(i), null, HOSTILE.get(i)));
        }
        return Tagging.EMPTY.withEvents(events);
    }

    private static Rating rated(String hostile) {
        List<ItemScore> scores = new ArrayList<>();
        for (ItemScore score : Unit.rating("A1", false).scores()) {
            scores.add(score.withComment(hostile));
        }
        return Unit.rating("A1", false).withScores(scores).withComment(hostile).withActions(List.of(hostile, hostile));
    }

    @Test
    void everyTextComesOutOfTheStoreAsItWentIn() {
        workspace.change(s -> s.taggings().save("C-01", "A1", tagged()));
        assertThat(workspace.<Tagging>read(s -> s.taggings().find("C-01", "A1").orElseThrow()))
                .isEqualTo(tagged());
        String json = new Vocabularies(workspace).rubric(Unit.RUBRIC.id()).json();
        for (int i = 0; i < HOSTILE.size(); i++) {
            String code = "H-" + i;
            String text = HOSTILE.get(i);
            Unit.addCase(workspace, code);
            long id = workspace.write(s -> {
                s.ratings().keepRubric(Unit.RUBRIC.id(), Unit.RUBRIC.version(), json);
                long first = s.ratings().addDraft(code, rated(text), null, null);
                s.ratings().sign(first, java.time.Instant.EPOCH);
                long second = s.ratings().addDraft(code, rated(text + "!"), first, text);
                s.ratings().sign(second, java.time.Instant.EPOCH);
                return second;
            });
            StoredRating back = workspace.read(s -> s.ratings().find(id).orElseThrow());
            assertThat(back.rating()).isEqualTo(rated(text + "!"));
            assertThat(back.reason()).isEqualTo(text);
        }
        assertThat(new CheckWorkspace(workspace).run(false, null, Progress.NONE).findings())
                .filteredOn(f -> f.kind() != CheckWorkspace.Kind.RECORDING)
                .isEmpty();
    }

    @Test
    void noCellOfAnExportedTableBeginsAFormulaAndReadingItGivesTheTextBack() throws Exception {
        StringBuilder out = new StringBuilder();
        TagCsvWriter.events("C-01", "A1", tagged(), out);
        for (CSVRecord row : CSVFormat.RFC4180.parse(new java.io.StringReader(out.toString()))) {
            for (String cell : row) {
                // also as a spreadsheet program of a country with semicolons would split it
                for (String part : cell.split("[;\t]")) {
                    assertThat(part).doesNotMatch("(?s)[=+\\-@＝＋－＠\t\r\n].*");
                }
            }
        }
        Path file = Files.writeString(temp.resolve("events.csv"), out, StandardCharsets.UTF_8);
        assertThat(new TagCsvReader(null).read(file).entries().get(0).tagging().events())
                .extracting(PointEvent::note)
                .isEqualTo(HOSTILE);
    }

    @Test
    void whatIsGuardedIsUnguardedToTheSame() {
        for (String text : HOSTILE) {
            assertThat(CsvText.unguard(CsvText.guard(text))).isEqualTo(text);
        }
        assertThat(CsvText.guard("=1")).isEqualTo("'=1");
        assertThat(CsvText.guard("\t=1")).isEqualTo("'\t'=1");
        assertThat(CsvText.guard("plain - text = fine")).isEqualTo("plain - text = fine");
    }

    @ParameterizedTest
    @ValueSource(strings = {"'; drop table rating; --", "=1+1", "a b", "a;b", "a\"b", "@x", "%"})
    void aCodeCannotBeAnyOfThis(String code) {
        assertThatThrownBy(() -> Codes.require("a case", code)).isInstanceOf(InputException.class);
        Exemplars exemplars = new Exemplars(workspace, Clock.systemUTC());
        assertThatThrownBy(() -> exemplars.name("C-01", null, "title", "", code, false))
                .isInstanceOf(InputException.class);
        assertThatThrownBy(() -> new MarkCase(workspace)
                        .rate(
                                "C-01",
                                new Rating(Unit.RUBRIC.id(), Unit.RUBRIC.version(), code, false, false, List.of(), "")))
                .isInstanceOf(InputException.class);
    }
}
