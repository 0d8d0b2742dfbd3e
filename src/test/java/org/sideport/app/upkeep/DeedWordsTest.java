package org.sideport.app.upkeep;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.sideport.workflow.exchange.OpenFormat;

/** Each deed that the program writes into the audit trail has its words on the screen, and no words are left over. */
class DeedWordsTest {

    private static final Path HOME = Path.of(System.getProperty("sideport.home", "."));
    private static final Pattern DEED = Pattern.compile(
            "\"((?:assignment|audit|bundle|case|comment|consent|cut|decision|exemplar|export|marking|marks|people|person"
                    + "|progress|rating|rubric|standard|store|tags|workspace)\\.[a-z_.-]+)\"");
    private static final Pattern WORDS = Pattern.compile("(?m)^audit\\.deed\\.([^=]+)=(.+)$");

    /** Look like deeds, and are names of files and the beginning of those of the formats. */
    private static final Set<String> NONE = Set.of("workspace.head", "store.json", "case.export_");

    private static Set<String> written() throws IOException {
        Set<String> found = new TreeSet<>();
        for (String floor : new String[] {"store", "workflow"}) {
            try (Stream<Path> files =
                    Files.walk(HOME.resolve("src/main/java/org/sideport").resolve(floor))) {
                for (Path file :
                        files.filter(f -> f.toString().endsWith(".java")).toList()) {
                    Matcher matcher = DEED.matcher(Files.readString(file));
                    while (matcher.find()) {
                        found.add(matcher.group(1));
                    }
                }
            }
        }
        found.removeAll(NONE);
        for (OpenFormat format : OpenFormat.values()) {
            found.add("case.export_" + format.id().replace('-', '_'));
        }
        return found;
    }

    @ParameterizedTest
    @CsvSource({"messages.properties", "messages_de.properties"})
    void eachDeedHasItsWords(String file) throws IOException {
        String words = Files.readString(
                HOME.resolve("src/main/resources/org/sideport/app").resolve(file));
        Set<String> said =
                WORDS.matcher(words).results().map(m -> m.group(1)).collect(Collectors.toCollection(TreeSet::new));
        assertThat(written()).hasSizeGreaterThan(50).isEqualTo(said);
    }
}
