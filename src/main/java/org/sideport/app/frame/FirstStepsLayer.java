package org.sideport.app.frame;

import java.util.List;
import java.util.Map;
import java.util.function.Consumer;
import javafx.scene.layout.StackPane;
import org.jspecify.annotations.Nullable;
import org.sideport.app.AppContext;
import org.sideport.app.CurrentCase;
import org.sideport.app.cases.CaseIntake;
import org.sideport.app.cases.CasesViewModel;
import org.sideport.app.settings.Language;
import org.sideport.model.CaseSummary;

/** Lays the first steps over the window and does what they offer. */
final class FirstStepsLayer {

    private final AppContext context;
    private final StackPane layers;
    private final Navigator navigator;
    private final CaseIntake intake;
    private final CasesViewModel cases;
    private final Consumer<Language> speak;
    private final Reopening reopening;
    private final Runnable gone;
    private @Nullable FirstSteps shown;

    /**
     * @param layers of the window, topmost last
     * @param speak takes another language for the window
     * @param reopening opens the workspace of the demo
     * @param gone gives the keyboard back to the screen below
     */
    FirstStepsLayer(
            AppContext context,
            StackPane layers,
            Navigator navigator,
            CaseIntake intake,
            CasesViewModel cases,
            Consumer<Language> speak,
            Reopening reopening,
            Runnable gone) {
        this.context = context;
        this.layers = layers;
        this.navigator = navigator;
        this.intake = intake;
        this.cases = cases;
        this.speak = speak;
        this.reopening = reopening;
        this.gone = gone;
    }

    boolean isShown() {
        return shown != null;
    }

    void show() {
        if (shown != null) {
            return;
        }
        FirstSteps made = new FirstSteps(
                context.settings(),
                context.texts(),
                new LanguageChoice("first-language", context.texts(), speak),
                Map.of(
                        FirstSteps.Step.ADD_CASE, () -> intake.add(List.of()),
                        FirstSteps.Step.IMPORT_SHEET, intake::chooseSheet,
                        FirstSteps.Step.TAG, () -> withCase(navigator::toReview),
                        FirstSteps.Step.WATCH, () -> withCase(navigator::toReview),
                        FirstSteps.Step.MARK, () -> withCase(navigator::toMarking),
                        FirstSteps.Step.FOLLOW, navigator::toProgramme),
                () -> context.demo(folder -> reopening.reopen(context, folder)),
                this::hide);
        shown = made;
        layers.getChildren().add(made);
        made.takeFocus();
    }

    void hide() {
        layers.getChildren().remove(shown);
        shown = null;
        gone.run();
    }

    /** The case that is open or selected, or a word that there is none. */
    private void withCase(Consumer<String> use) {
        CurrentCase.Opened open = context.current().opened();
        CaseSummary selected = cases.selectedProperty().get();
        if (open != null) {
            use.accept(open.code());
        } else if (selected != null) {
            use.accept(selected.code());
        } else {
            navigator.toCases();
            context.notices().hintOf("first.noCase");
        }
    }
}
