package org.sideport.timing;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.StringWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Operator;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Severity;
import org.sideport.model.Tagging;
import org.sideport.model.TaggingStyle;
import org.sideport.rubric.ProcedureReader;

class TagCsvReaderTest {

    private static final String HEADER = "case,annotator,phase,start,end,operator\n";

    @TempDir
    Path folder;

    @Test
    void spansInAnyOrderOfRowsComeSortedWithTheirLines() throws IOException {
        TagTable table = read(HEADER + "C,A,phaco,10,20,trainer\nC,A,rhexis,0:01.5,10,trainee\n");
        TagTable.Entry entry = table.entries().get(0);
        assertThat(entry.tagging().style()).isEqualTo(TaggingStyle.START_AND_END);
        assertThat(entry.tagging().spans())
                .containsExactly(
                        new PhaseSpan("rhexis", MediaTime.parse("1.5"), MediaTime.parse("10"), Operator.TRAINEE),
                        new PhaseSpan("phaco", MediaTime.parse("10"), MediaTime.parse("20"), Operator.TRAINER));
        assertThat(entry.lines()).containsExactly(3, 2);
    }

    @Test
    void semicolonsByteOrderMarkAndDecimalCommasOfSpreadsheetsAreTaken() throws IOException {
        TagTable table = read("\uFEFFCase;Annotator;Phase;Start;End\r\nC;A;rhexis;1,5;2,25\r\n");
        assertThat(table.entries().get(0).tagging().spans().get(0).end()).isEqualTo(MediaTime.ofMicros(2_250_000));
    }

    @Test
    void anOpenEndMeansUntilTheNextStart() throws IOException {
        TagTable.Entry entry = read(HEADER + "C,A,rhexis,1,,\nC,A,phaco,5,,\nC,A,ia,9,12,\n")
                .entries()
                .get(0);
        assertThat(entry.tagging().style()).isEqualTo(TaggingStyle.STARTS_ONLY);
        assertThat(entry.tagging().spans())
                .extracting(PhaseSpan::end)
                .containsExactly(MediaTime.parse("5"), MediaTime.parse("9"), MediaTime.parse("12"));
    }

    @Test
    void eventsCarrySeverityAndNote() throws IOException {
        TagTable table =
                read("case,annotator,event,at,severity,note\nC,A,iris_prolapse,0:10.5,minor,\"small, reposited\"\n");
        assertThat(table.kind()).isEqualTo(TagTable.Kind.EVENTS);
        assertThat(table.entries().get(0).tagging().events().get(0).severity()).isEqualTo(Severity.MINOR);
        assertThat(table.entries().get(0).tagging().events().get(0).note()).isEqualTo("small, reposited");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
            C,A,rhexis,5,3,           | line 2 | not after the start
            C,A,rhexis,5,5,           | line 2 | not after the start
            C,A,rhexis,abc,5,         | line 2 | not a time
            C,A,rhexis,-3,5,          | line 2 | not a time
            C,A,rhexis,,5,            | line 2 | column start is empty
            ,A,rhexis,1,5,            | line 2 | column case is empty
            C,A,rhexis,1,5,nurse      | line 2 | unknown operator
            C,A,rhexus,1,5,           | line 2 | unknown phase "rhexus"
            C,A,rhexis,1,5,,,         | line 2 | cells
            """)
    void aFaultyRowIsNamedWithFileLineAndRemedy(String row, String line, String what) {
        assertThatThrownBy(() -> readKnown(HEADER + row + "\n"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("tags.csv, " + line)
                .hasMessageContaining(what)
                .hasMessageContaining(" — ");
    }

    @Test
    void overlappingPhasesNameBothLines() {
        assertThatThrownBy(() -> read(HEADER + "C,A,rhexis,1,10,\nC,A,phaco,9,20,\n"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("line 3")
                .hasMessageContaining("line 2");
        assertThatThrownBy(() -> read(HEADER + "C,A,rhexis,1,,\nC,A,phaco,1,,\n"))
                .isInstanceOf(InputException.class)
                .hasMessageContaining("line 3");
    }

    @Test
    void filesThatAreNoTaggingTableAreRefused() throws IOException {
        assertThatThrownBy(() -> read("case,annotator,start\nC,A,1\n")).hasMessageContaining("neither a column phase");
        assertThatThrownBy(() -> read("annotator,phase,start\nA,x,1\n")).hasMessageContaining("no column case");
        assertThatThrownBy(() -> read("case,phase,start,start\n")).hasMessageContaining("there twice");
        assertThatThrownBy(() -> read("")).hasMessageContaining("empty");
        assertThatThrownBy(() -> new TagCsvReader(null).read(folder.resolve("none.csv")))
                .hasMessageContaining("no such file");
        Path latin = folder.resolve("latin.csv");
        Files.write(latin, "case,phase,start\nC,Öffnung,1\n".getBytes(StandardCharsets.ISO_8859_1));
        assertThatThrownBy(() -> new TagCsvReader(null).read(latin)).hasMessageContaining("UTF-8");
    }

    @Test
    void whatIsWrittenIsReadBackTheSame() throws IOException {
        Tagging tagging = readKnown(HEADER + "C,A,Rhexis,0.033367,10.000001,trainee\nC,A,sculpting,10.000001,,\n")
                .entries()
                .get(0)
                .tagging();
        StringWriter text = new StringWriter();
        TagCsvWriter.phases("C", "A", tagging, text);
        assertThat(readKnown(text.toString()).entries().get(0).tagging()).isEqualTo(tagging);
    }

    private TagTable read(String text) throws IOException {
        return new TagCsvReader(null).read(Files.writeString(folder.resolve("tags.csv"), text));
    }

    private TagTable readKnown(String text) throws IOException {
        return new TagCsvReader(ProcedureReader.read(Path.of("rubrics/phaco-procedure.json")))
                .read(Files.writeString(folder.resolve("tags.csv"), text));
    }
}
