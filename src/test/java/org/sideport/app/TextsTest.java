package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.io.Reader;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.HashSet;
import java.util.List;
import java.util.Properties;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;
import org.sideport.app.assign.AssignmentsViewModel;
import org.sideport.app.settings.CompactAction;
import org.sideport.app.settings.KeyLayout;
import org.sideport.app.settings.Language;
import org.sideport.app.settings.PedalKeys;
import org.sideport.media.trace.FindingKind;
import org.sideport.model.Assignment;
import org.sideport.model.CommentTone;
import org.sideport.model.ConsentPurpose;
import org.sideport.model.ConsentState;
import org.sideport.model.CutState;
import org.sideport.model.DrawnMark;
import org.sideport.model.Hidden;
import org.sideport.model.MarkColour;
import org.sideport.model.MeasuredShape;
import org.sideport.model.NotApplicable;
import org.sideport.model.Operator;
import org.sideport.model.RatingState;
import org.sideport.model.Role;
import org.sideport.model.Severity;
import org.sideport.model.StandardMethod;
import org.sideport.model.TaggingStyle;
import org.sideport.workflow.CaseFilter;
import org.sideport.workflow.ComputeTimings;
import org.sideport.workflow.assign.Adjudication;
import org.sideport.workflow.exchange.ImportPlan;
import org.sideport.workflow.exchange.OpenFormat;
import org.sideport.workflow.upkeep.CheckWorkspace;

class TextsTest {

    /** A dotted word in quotes. */
    private static final Pattern KEY = Pattern.compile("\"([a-z]+(?:\\.[A-Za-z]+)+)\"");

    /** Words in quotes that look like keys and are settings or ids. */
    private static final Set<String> OTHERS = Set.of(
            "caution.seen",
            "window.width",
            "window.height",
            "window.x",
            "window.y",
            "window.maximised",
            "sideport.xlsx",
            "window.properties",
            "org.sideport.app.messages",
            "org.sideport.app.refusals",
            "sideport.log",
            "sideport.home",
            "user.name",
            "user.home",
            "font.percent",
            "keys.layout",
            "draft.field",
            "draft.text",
            "draft.caret",
            "draft.item",
            "recordings.folder",
            "session.minutes",
            "keeping.person",
            "sideport.table.factor");

    private static final Path HOME = Path.of(System.getProperty("sideport.home", "."));
    private static final Set<String> WRITTEN = new TreeSet<>();
    private static final Properties BUNDLE = new Properties();
    private static String sources = "";

    @BeforeAll
    static void readSources() throws IOException {
        StringBuilder all = new StringBuilder();
        try (Stream<Path> files = Files.walk(HOME.resolve("src/main/java/org/sideport/app"))) {
            for (Path file : files.filter(f -> f.toString().endsWith(".java")).toList()) {
                all.append(Files.readString(file));
            }
        }
        sources = all.toString();
        Matcher matcher = KEY.matcher(sources);
        while (matcher.find()) {
            WRITTEN.add(matcher.group(1));
        }
        WRITTEN.removeAll(OTHERS);
        try (Reader reader =
                Files.newBufferedReader(HOME.resolve("src/main/resources/org/sideport/app/messages.properties"))) {
            BUNDLE.load(reader);
        }
    }

    /** Keys that are put together from an enum's names. */
    private static Set<String> composed() {
        Set<String> keys = new HashSet<>();
        add(keys, "operator.", Operator.values());
        add(keys, "severity.", Severity.values());
        add(keys, "standard.method.", StandardMethod.values());
        add(keys, "standard.how.", StandardMethod.values());
        add(keys, "reason.", NotApplicable.values());
        add(keys, "state.", RatingState.values());
        add(keys, "times.level.", ComputeTimings.Level.values());
        add(keys, "compare.level.", ComputeTimings.Level.values());
        add(keys, "cuts.state.", CutState.values());
        add(keys, "shortcut.", Shortcut.values());
        add(keys, "progress.export.", org.sideport.workflow.progress.ChartExport.Format.values());
        add(keys, "filter.state.", CaseFilter.State.values());
        add(keys, "consent.state.", ConsentState.values());
        add(keys, "bundle.remark.", org.sideport.workflow.exchange.ImportRemark.Kind.values());
        add(keys, "consent.purpose.", ConsentPurpose.values());
        add(keys, "keeping.situation.", org.sideport.model.ConsentSituation.values());
        add(keys, "keeping.ruling.", org.sideport.model.ConsentRuling.values());
        add(keys, "keeping.kind.", org.sideport.model.DeletionKind.values());
        for (String section : List.of("withdrawn", "due", "rules", "log")) {
            keys.add("keeping." + section + ".text");
        }
        keys.add("keeping.delete.ask.yes");
        keys.add("keeping.takeBack.ask.yes");
        add(keys, "scope.", Shortcut.Scope.values());
        add(keys, "compact.", CompactAction.values());
        add(keys, "settings.keys.", KeyLayout.values());
        add(keys, "role.", Role.values());
        add(keys, "first.steps.", Role.values());
        add(keys, "person.role.", Role.values());
        add(keys, "store.kind.", CheckWorkspace.Kind.values());
        // held against what the program writes by DeedWordsTest
        BUNDLE.stringPropertyNames().stream()
                .filter(key -> key.startsWith("audit.deed."))
                .forEach(keys::add);
        BUNDLE.stringPropertyNames().stream()
                .filter(key -> key.matches("rubrics\\.(kind\\.[a-z]+|part\\.[A-Z]+)"))
                .forEach(keys::add);
        BUNDLE.stringPropertyNames().stream()
                .filter(key -> key.matches("first\\.(do|text\\.[A-Z]+)\\.[A-Z_]+"))
                .forEach(keys::add);
        for (String state : List.of("DONE", "STOPPED", "FAILED")) {
            keys.add("jobs.state." + state);
        }
        for (int pedal = 0; pedal < PedalKeys.PEDALS; pedal++) {
            keys.add("settings.pedal." + pedal);
        }
        add(keys, "finding.", FindingKind.values());
        add(keys, "style.", TaggingStyle.values());
        add(keys, "style.tooltip.", TaggingStyle.values());
        add(keys, "tone.", CommentTone.values());
        add(keys, "draw.", DrawnMark.Kind.values());
        add(keys, "colour.", MarkColour.values());
        add(keys, "measured.", MeasuredShape.values());
        add(keys, "measure.how.", new Enum<?>[] {MeasuredShape.DISTANCE, MeasuredShape.ANGLE});
        for (String unit : List.of("mm", "mm2", "degrees", "px", "mmBypx")) {
            keys.add("unit." + unit);
        }
        for (String value : List.of(
                "scale",
                "limbus_width",
                "axis_ratio",
                "apparent_diameter",
                "longer_diameter",
                "shorter_diameter",
                "area",
                "circularity_4pi_area_by_perimeter2",
                "axis_ratio_short_by_long",
                "polygon_diameter",
                "polygon_circularity_4pi_area_by_perimeter2",
                "decentration_from_limbus",
                "decentration_from_pupil",
                "distance",
                "angle")) {
            keys.add("value." + value);
        }
        for (String times : List.of("active", "span", "episodes", "idleInside", "operating", "inPhases", "idle")) {
            keys.add("times." + times + ".meaning");
        }
        add(keys, "cohort.section.", org.sideport.app.cohort.Section.values());
        add(keys, "cohort.by.", org.sideport.workflow.CohortView.By.values());
        for (String what : List.of("", "count.", "next.")) {
            add(keys, "cohort.work." + what, org.sideport.workflow.OutstandingWork.Kind.values());
        }
        add(keys, "bundle.what.", ImportPlan.What.values());
        add(keys, "bundle.state.", ImportPlan.State.values());
        add(keys, "open.format.", OpenFormat.values());
        add(keys, "purpose.", Assignment.Purpose.values());
        add(keys, "hidden.", Hidden.values());
        add(keys, "assign.state.", Assignment.State.values());
        add(keys, "assign.filter.", AssignmentsViewModel.Filter.values());
        add(keys, "differ.stage.", Adjudication.Stage.values());
        // both can be shown: there is nothing to be said
        for (String state : List.of("BLIND", "NO_SELF", "NO_ASSESSOR")) {
            keys.add("gap.state." + state);
        }
        return keys;
    }

    private static void add(Set<String> keys, String prefix, Enum<?>[] values) {
        Arrays.stream(values).forEach(value -> keys.add(prefix + value.name()));
    }

    @Test
    void everyKeyThatIsUsedHasItsWords() {
        Set<String> used = new TreeSet<>(WRITTEN);
        used.addAll(composed());
        used.addAll(List.of("cancel", "close"));
        used.removeAll(BUNDLE.stringPropertyNames());

        assertThat(used).as("keys without words in messages.properties").isEmpty();
    }

    @Test
    void allWordsAreUsed() {
        Set<String> unused = new TreeSet<>(BUNDLE.stringPropertyNames());
        unused.removeAll(WRITTEN);
        unused.removeAll(composed());
        unused.removeIf(key -> sources.contains("\"" + key + "\""));

        assertThat(unused).as("words that no key asks for").isEmpty();
    }

    @Test
    void everyLanguageHasEveryKeyAndItsPlaceholders() throws IOException {
        Properties german = new Properties();
        try (Reader reader =
                Files.newBufferedReader(HOME.resolve("src/main/resources/org/sideport/app/messages_de.properties"))) {
            german.load(reader);
        }
        assertThat(new TreeSet<>(german.stringPropertyNames())).isEqualTo(new TreeSet<>(BUNDLE.stringPropertyNames()));
        for (String key : BUNDLE.stringPropertyNames()) {
            assertThat(placeholders(german.getProperty(key))).as(key).isEqualTo(placeholders(BUNDLE.getProperty(key)));
        }
    }

    private static Set<String> placeholders(String text) {
        Set<String> found = new TreeSet<>();
        Matcher matcher = Pattern.compile("\\{(\\d)").matcher(text);
        while (matcher.find()) {
            found.add(matcher.group(1));
        }
        return found;
    }

    @Test
    void noKeyIsThereTwice() throws IOException {
        for (String file : List.of("messages.properties", "messages_de.properties")) {
            Set<String> seen = new HashSet<>();
            for (String line : Files.readAllLines(HOME.resolve("src/main/resources/org/sideport/app/" + file))) {
                if (!line.isBlank() && !line.startsWith("#")) {
                    String key = line.substring(0, line.indexOf('='));
                    assertThat(seen.add(key)).as(file + ": " + key).isTrue();
                }
            }
        }
    }

    @Test
    void everyTextCanBeFormattedInEveryLanguage() {
        for (Language language : Language.offered()) {
            everyTextCanBeFormatted(new Texts(language));
        }
    }

    private static void everyTextCanBeFormatted(Texts texts) {
        for (String key : BUNDLE.stringPropertyNames()) {
            String text = texts.get(key, 1, 2, 3, 4, 5, 6);
            assertThat(text).as(key).isNotBlank().doesNotContain("''").doesNotContain("{");
        }
    }
}
