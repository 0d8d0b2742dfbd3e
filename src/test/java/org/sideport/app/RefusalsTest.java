package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.catchThrowable;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.app.settings.Language;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Tagging;
import org.sideport.store.FreshWorkspace;
import org.sideport.store.Workspace;
import org.sideport.timing.TaggingEdits;
import org.sideport.workflow.ImportRecording;
import org.sideport.workflow.NewCase;

/** What is refused below is said above in the language of the screen. The German is the author's own. */
class RefusalsTest {

    private static final Path HOME = Path.of(System.getProperty("sideport.home", "."));
    private static final Pattern PLACE = Pattern.compile("\\{\\d}");
    private static final Texts GERMAN = new Texts(Language.GERMAN);

    private static Properties read(String name) throws IOException {
        Properties properties = new Properties();
        try (Reader reader = Files.newBufferedReader(HOME.resolve("src/main/resources/org/sideport/app/" + name))) {
            properties.load(reader);
        }
        return properties;
    }

    /** All that the sources say, with what is joined by {@code +} joined. */
    private static String sources() throws IOException {
        StringBuilder all = new StringBuilder();
        try (Stream<Path> files = Files.walk(HOME.resolve("src/main/java/org/sideport"))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
                all.append(Files.readString(file));
            }
        }
        return all.toString().replaceAll("\"\\s*\\+\\s*\"", "").replace("\\\"", "\"");
    }

    @Test
    void aRefusalThatIsWordedAnewBelowIsNotForgottenHere() throws IOException {
        String sources = sources();
        List<String> stale = new ArrayList<>();
        for (Map.Entry<Object, Object> known : read("refusals.properties").entrySet()) {
            for (String piece : PLACE.split((String) known.getValue())) {
                if (piece.strip().length() > 3 && !sources.contains(piece.strip())) {
                    stale.add(known.getKey() + ": " + piece);
                }
            }
        }
        assertThat(stale).as("worded otherwise in the sources").isEmpty();
    }

    @Test
    void bothLanguagesKnowTheSameRefusalsAndFillInNothingThatWasNotSaid() throws IOException {
        Properties english = read("refusals.properties");
        Properties german = read("refusals_de.properties");
        assertThat(german.keySet()).isEqualTo(english.keySet());
        english.forEach((key, words) -> assertThat(places((String) words))
                .as((String) key)
                .containsAll(places(german.getProperty((String) key))));
    }

    private static Set<String> places(String words) {
        Set<String> places = new TreeSet<>();
        PLACE.matcher(words).results().forEach(found -> places.add(found.group()));
        return places;
    }

    @Test
    void aCodeThatIsTakenIsRefusedInGerman(@TempDir Path dir) {
        try (Workspace workspace = FreshWorkspace.in(dir)) {
            ImportRecording cases = new ImportRecording(workspace);
            NewCase one = new NewCase("C-1", "T1", LocalDate.of(2026, 3, 9), "phaco", Map.of());
            cases.addCase(one, null);
            assertThat(shown(catchThrowable(() -> cases.addCase(one, null))))
                    .isEqualTo("es gibt schon einen Fall C-1 — geben Sie diesem ein eigenes Kürzel");
        }
    }

    @Test
    void whatATaggerDoesWrongIsSaidInGerman() {
        Throwable refused = catchThrowable(() -> TaggingEdits.endPhase(Tagging.EMPTY, MediaTime.ofMicros(2_000_000)));
        assertThat(shown(refused)).endsWith(" läuft keine Phase — gehen Sie in eine Phase, dann beenden Sie sie");
    }

    @Test
    void aRefusalWithinARefusalIsSaidToo() {
        assertThat(GERMAN.said("case C-1 may not be used for this: consent was refused on 2026-03-09"))
                .isEqualTo("der Fall C-1 darf dafür nicht verwendet werden: die Einwilligung wurde am 2026-03-09"
                        + " verweigert");
    }

    @Test
    void severalRemarksAreSaidOneByOneAndWhatIsNotKnownStays() {
        assertThat(GERMAN.said("Time seems to be lost between the files. Nobody knows this sentence."))
                .isEqualTo("Zwischen den Dateien scheint Zeit verloren zu sein. Nobody knows this sentence.");
    }

    @Test
    void whatACodeHoldsIsNeverTakenForAPattern() {
        assertThat(GERMAN.said("there is a case $1\\2 already")).isEqualTo("es gibt schon einen Fall $1\\2");
    }

    @Test
    void anEnglishScreenSaysWhatWasSaid() {
        InputException refused =
                new InputException("the comment is empty", null, "write something, or draw on the picture");
        assertThat(Notice.of(refused, new Texts()).text()).isEqualTo(refused.getMessage());
    }

    private static String shown(Throwable refused) {
        assertThat(refused).isInstanceOf(InputException.class);
        Notice notice = Notice.of(refused, GERMAN);
        assertThat(notice).isNotNull();
        return notice.text();
    }
}
