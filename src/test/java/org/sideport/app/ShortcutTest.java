package org.sideport.app;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.junit.jupiter.api.Test;
import org.sideport.app.Shortcut.Scope;
import org.sideport.rubric.ProcedureReader;

class ShortcutTest {

    private static final List<List<Scope>> TOGETHER = List.of(
            List.of(Scope.PICTURE, Scope.REVIEW, Scope.TIMELINE, Scope.WINDOW),
            // while boundaries are refined their keys come first, so they need not differ from those of the picture
            List.of(Scope.REFINE, Scope.WINDOW),
            List.of(Scope.PICTURE, Scope.MARKING, Scope.WINDOW),
            List.of(Scope.PICTURE, Scope.COMPARE, Scope.WINDOW),
            List.of(Scope.RUBRIC, Scope.WINDOW));

    @Test
    void noTwoShortcutsClashOnAScreen() {
        for (List<Scope> scopes : TOGETHER) {
            Set<String> taken = new HashSet<>();
            for (Shortcut shortcut : Shortcut.values()) {
                if (scopes.contains(shortcut.scope())) {
                    assertThat(taken.add(shortcut.keys().getName()))
                            .as(shortcut + " on " + scopes)
                            .isTrue();
                }
            }
        }
    }

    @Test
    void noShortcutTakesAKeyOfTheShippedProcedure() throws Exception {
        Path file = Path.of(System.getProperty("sideport.home", "."), "rubrics", "phaco-procedure.json");
        var procedure = ProcedureReader.read(Files.readString(file), file.toString());
        Set<String> keys = new HashSet<>();
        procedure.terms().forEach(term -> keys.add(term.key()));

        assertThat(keys).hasSizeGreaterThan(20);
        for (Shortcut shortcut : Shortcut.values()) {
            if (shortcut.scope() == Scope.REVIEW
                    || shortcut.scope() == Scope.PICTURE
                    || shortcut.scope() == Scope.TIMELINE) {
                assertThat(keys).doesNotContain(shortcut.keys().getName().toLowerCase(java.util.Locale.ROOT));
            }
        }
    }
}
