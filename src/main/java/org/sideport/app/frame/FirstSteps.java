package org.sideport.app.frame;

import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.FxThread;
import org.sideport.app.Settings;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.settings.ChosenRoles;
import org.sideport.model.Role;

/** Asks who one is here, and shows the three steps to a first result, each with the button that does it. */
final class FirstSteps extends StackPane {

    /** What a step does. */
    enum Step {
        ADD_CASE,
        IMPORT_SHEET,
        TAG,
        MARK,
        WATCH,
        FOLLOW
    }

    private static final Map<Role, List<Step>> STEPS = new EnumMap<>(Map.of(
            Role.ASSESSOR, List.of(Step.ADD_CASE, Step.TAG, Step.MARK),
            Role.TRAINEE, List.of(Step.ADD_CASE, Step.MARK, Step.WATCH),
            Role.DIRECTOR, List.of(Step.IMPORT_SHEET, Step.MARK, Step.FOLLOW)));

    private static final double WIDTH = 720;

    private final Settings settings;
    private final Texts texts;
    private final Map<Step, Runnable> actions;
    private final VBox steps = new VBox(Ui.STEP * 2);
    private final Runnable close;
    private final RoleChoice roles;

    /** @param demo opens the workspace of the demo */
    FirstSteps(
            Settings settings, Texts texts, Node language, Map<Step, Runnable> actions, Runnable demo, Runnable close) {
        this.settings = settings;
        this.texts = texts;
        this.actions = actions;
        this.close = close;
        setId("first-steps");
        getStyleClass().add("veil");
        roles = new RoleChoice(settings, texts, this::show);
        Label title = Ui.label(texts.get("first.title"), "large");
        Button away = Ui.iconButton("first-close", Feather.X, texts.get("first.close"), close);
        away.setFocusTraversable(true);
        HBox head = new HBox(Ui.STEP, title, Ui.spring(), language, away);
        head.setAlignment(Pos.CENTER_LEFT);
        Button open = Ui.button("first-demo", Feather.PLAY_CIRCLE, texts.get("first.demo"), demo);
        Label about = Ui.wrapped(texts.get("first.demo.text"), "small", "text-muted");
        HBox.setHgrow(about, Priority.ALWAYS);
        Button later = Ui.button("first-later", null, texts.get("first.close"), close);
        HBox foot = new HBox(Ui.STEP * 2, open, about, later);
        foot.setAlignment(Pos.CENTER_LEFT);
        VBox all = new VBox(Ui.STEP * 2, head, Ui.wrapped(texts.get("first.role"), "section"), roles, steps, foot);
        ScrollPane scroll = Ui.styled(new ScrollPane(all), "first-card");
        scroll.setFitToWidth(true);
        // A scroll pane asks its content's height without the width, which is wrong where lines wrap.
        Runnable fit = () -> {
            double width = scroll.getViewportBounds().getWidth();
            if (width > 0) {
                scroll.setPrefViewportHeight(all.prefHeight(width));
            }
        };
        // afterwards, since a size that is asked for within a layout is forgotten
        FxThread screen = new FxThread();
        scroll.viewportBoundsProperty().addListener((property, old, now) -> screen.execute(fit));
        all.layoutBoundsProperty().addListener((property, old, now) -> screen.execute(fit));
        scroll.setMaxSize(WIDTH, Region.USE_PREF_SIZE);
        getChildren().add(scroll);
        show();
    }

    /** Takes the keyboard away from the screen below. */
    void takeFocus() {
        applyCss();
        layout();
        roles.getChildren().get(0).requestFocus();
    }

    private void show() {
        steps.getChildren().clear();
        Set<Role> roles = ChosenRoles.chosen(settings);
        if (roles.isEmpty()) {
            steps.getChildren().add(Ui.wrapped(texts.get("first.noRole"), "text-muted"));
        }
        for (Role role : roles) {
            steps.getChildren().add(Ui.label(texts.get("first.steps." + role), "section"));
            int number = 1;
            for (Step step : STEPS.getOrDefault(role, List.of())) {
                steps.getChildren().add(line(role, step, number++));
            }
        }
    }

    private Node line(Role role, Step step, int number) {
        Label place = Ui.label(Integer.toString(number), "digits", "step-number");
        place.setMinWidth(Region.USE_PREF_SIZE);
        Label words = Ui.wrapped(texts.get("first.text." + role + "." + step));
        HBox.setHgrow(words, Priority.ALWAYS);
        words.setMaxWidth(Double.MAX_VALUE);
        Button does = Ui.button("first-" + role + "-" + step, null, texts.get("first.do." + step), () -> {
            close.run();
            Runnable action = actions.get(step);
            if (action != null) {
                action.run();
            }
        });
        HBox line = new HBox(Ui.STEP * 2, place, words, does);
        line.setAlignment(Pos.CENTER_LEFT);
        return line;
    }
}
