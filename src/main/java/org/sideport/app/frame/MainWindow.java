package org.sideport.app.frame;

import javafx.beans.binding.Bindings;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.geometry.Rectangle2D;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.ButtonBase;
import javafx.scene.control.ComboBoxBase;
import javafx.scene.control.Label;
import javafx.scene.control.TextInputControl;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.stage.Screen;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.kordamp.ikonli.javafx.FontIcon;
import org.sideport.app.AppContext;
import org.sideport.app.CurrentCase;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.cases.CasesView;
import org.sideport.app.cases.CasesViewModel;
import org.sideport.app.cases.IntakeWindows;
import org.sideport.app.compare.CompareView;
import org.sideport.app.keys.PhaseKeys;
import org.sideport.app.marking.MarkingView;
import org.sideport.app.review.ReviewView;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.model.MediaTime;

/** The one window: where one is, the screen, and what there is to say. */
public final class MainWindow implements Navigator {

    /** Moves the notice away from the buttons at the left of the bar, pixels. */
    private static final double RIGHT_OF_THE_PLACES = 408;

    private static final String FIRST_USE = "caution.seen";

    private final AppContext context;
    private final Texts texts;
    private final Stage stage;
    private final BorderPane root = Ui.styled(new BorderPane(), "frame");
    private final VBox top;
    private final ToggleGroup places = new ToggleGroup();
    private final CasesViewModel casesModel;
    private final org.sideport.app.frame.Screen cases;
    private final org.sideport.app.frame.Screen review;
    private final org.sideport.app.frame.Screen marking;
    private final org.sideport.app.frame.Screen compare;
    private final ToggleButton toCases;
    private final ToggleButton toReview;
    private final ToggleButton toMarking;
    private final ToggleButton toCompare;
    private org.sideport.app.frame.Screen current;

    public MainWindow(AppContext context, Stage stage) {
        this.context = context;
        this.texts = context.texts();
        this.stage = stage;
        casesModel = context.casesViewModel();
        cases = new CasesView(
                casesModel, texts, this, new IntakeWindows(stage, context, casesModel), context.thumbnails());
        ReviewViewModel reviewing = context.reviewViewModel();
        review = new ReviewView(
                reviewing,
                context.cutsViewModel(reviewing),
                context.pictureTools(reviewing),
                context.recordingLanes(),
                context.refineBar(reviewing),
                texts,
                this);
        marking = new MarkingView(context.markingViewModel(), texts, this);
        compare = new CompareView(context.compareViewModel(), context.stackViewModel(), texts, this);
        current = cases;
        toCases = place("nav-cases", Feather.LIST, texts.get("nav.cases"), cases);
        toReview = place("nav-review", Feather.FILM, texts.get("nav.review"), review);
        toMarking = place("nav-marking", Feather.CLIPBOARD, texts.get("nav.marking"), marking);
        toCompare = place("nav-compare", Feather.COLUMNS, texts.get("nav.compare"), compare);
        top = new VBox(bar());
        root.setTop(top);
        root.setBottom(new VBox(missingPlayer(), firstUse()));
        NoticeBar notice = new NoticeBar(context.notices(), texts);
        StackPane.setAlignment(notice, Pos.TOP_CENTER);
        StackPane.setMargin(notice, new Insets(Ui.STEP / 2, 0, 0, RIGHT_OF_THE_PLACES));
        Scene scene = new Scene(new StackPane(root, notice), 1280, 800);
        context.theme().dress(scene);
        scene.addEventFilter(KeyEvent.KEY_PRESSED, this::keyPressed);
        stage.setScene(scene);
        stage.setTitle(texts.get("app.name"));
        stage.setMinWidth(960);
        stage.setMinHeight(600);
        restore();
        go(cases);
    }

    public void show() {
        stage.show();
    }

    // ---- the bar at the top

    private HBox bar() {
        Label name = Ui.label(texts.get("app.name"), "app-name");
        Label caseName = Ui.label("", "case-name");
        caseName.setId("current-case");
        caseName.textProperty()
                .bind(Bindings.createStringBinding(
                        this::caseText,
                        context.current().openedProperty(),
                        context.current().loadingProperty()));
        ToggleButton light = Ui.iconToggle("light", Feather.SUN, texts.get("nav.light"));
        light.selectedProperty().bindBidirectional(context.theme().lightProperty());
        Button keys = Ui.iconButton("keys", Feather.COMMAND, Ui.withKey(texts, Shortcut.SHORTCUTS), this::showKeys);
        Button about = Ui.iconButton("about", Feather.INFO, texts.get("about.title"), this::showAbout);
        HBox nav = new HBox(2, toCases, toReview, toMarking, toCompare);
        HBox bar = Ui.styled(new HBox(Ui.STEP * 2, name, nav, caseName, Ui.spring(), light, keys, about), "top-bar");
        bar.setAlignment(Pos.CENTER_LEFT);
        return bar;
    }

    private String caseText() {
        CurrentCase.Opened open = context.current().opened();
        if (context.current().loadingProperty().get()) {
            return texts.get("nav.loading");
        }
        return open == null
                ? ""
                : texts.get(
                        "nav.case", open.code(), open.overview().surgicalCase().trainee());
    }

    private ToggleButton place(String id, Feather icon, String text, org.sideport.app.frame.Screen screen) {
        ToggleButton button = Ui.styled(new ToggleButton(text, new FontIcon(icon)), "place", "flat");
        button.setId(id);
        button.setToggleGroup(places);
        button.setFocusTraversable(false);
        button.setOnAction(event -> go(screen));
        return button;
    }

    private HBox missingPlayer() {
        Label words = Ui.wrapped("", "small");
        words.textProperty().bind(context.playerProblemProperty());
        HBox box = Ui.styled(new HBox(Ui.STEP, new FontIcon(Feather.VOLUME_X), words), "banner");
        box.setId("player-banner");
        box.setAlignment(Pos.CENTER_LEFT);
        Ui.showIf(box, Bindings.isNotEmpty(context.playerProblemProperty()));
        return box;
    }

    private HBox firstUse() {
        Label words = Ui.wrapped(texts.get("caution.firstUse"), "small");
        HBox box = Ui.styled(new HBox(Ui.STEP), "banner");
        box.setAlignment(Pos.CENTER_LEFT);
        Button read = Ui.button("caution-read", null, texts.get("caution.read"), () -> {
            context.settings().put(FIRST_USE, true);
            box.setVisible(false);
            box.setManaged(false);
        });
        read.getStyleClass().add("small");
        read.setFocusTraversable(false);
        box.getChildren().addAll(new FontIcon(Feather.INFO), words, Ui.spring(), read);
        boolean seen = context.settings().get(FIRST_USE, false);
        box.setVisible(!seen);
        box.setManaged(!seen);
        return box;
    }

    // ---- going places

    private void go(org.sideport.app.frame.Screen screen) {
        current = screen;
        context.notices().clear();
        toCases.setSelected(screen == cases);
        toReview.setSelected(screen == review);
        toMarking.setSelected(screen == marking);
        toCompare.setSelected(screen == compare);
        if (screen == cases || screen == compare) {
            context.desk().pause();
        }
        if (screen != compare) {
            context.pair().pause();
        }
        root.setCenter(screen.node());
        fullPicture(screen.isFullPicture());
        screen.shown();
    }

    @Override
    public void toCases() {
        go(cases);
    }

    @Override
    public void toReview(String code) {
        context.current().open(code);
        go(review);
    }

    @Override
    public void toReview(String code, @Nullable MediaTime at) {
        toReview(code);
        if (at != null) {
            context.desk().whenReady(() -> context.desk().seek(at));
        }
    }

    @Override
    public void toMarking(String code) {
        context.current().open(code);
        go(marking);
    }

    @Override
    public void fullPicture(boolean alone) {
        root.setTop(alone ? null : top);
        stage.setFullScreenExitHint("");
        stage.setFullScreen(alone);
    }

    private void showKeys() {
        CurrentCase.Opened open = context.current().opened();
        ShortcutSheet sheet = new ShortcutSheet(
                stage, texts, open == null ? null : new PhaseKeys(context.settings()).applied(open.procedure()));
        context.theme().dress(sheet.getDialogPane().getScene());
        sheet.show();
    }

    private void showAbout() {
        new AboutDialog(stage, texts, context.playerText()).show();
    }

    // ---- keys

    private void keyPressed(KeyEvent event) {
        Shortcut window = Shortcut.of(event, Shortcut.Scope.WINDOW).orElse(null);
        if (window != null) {
            switch (window) {
                case SHORTCUTS -> showKeys();
                case TO_CASES -> go(cases);
                case TO_REVIEW -> go(review);
                case TO_MARKING -> go(marking);
                case TO_COMPARE -> go(compare);
                default -> throw new IllegalStateException("not a window key: " + window);
            }
            event.consume();
            return;
        }
        Node focus = stage.getScene().getFocusOwner();
        if (isTyping(focus)) {
            if (event.getCode() == KeyCode.ESCAPE) {
                current.takeFocus();
                event.consume();
            }
            return;
        }
        boolean presses =
                focus instanceof ButtonBase && (event.getCode() == KeyCode.SPACE || event.getCode() == KeyCode.ENTER);
        if (!presses && current.handle(event)) {
            event.consume();
        }
    }

    private static boolean isTyping(@Nullable Node focus) {
        return focus instanceof TextInputControl || focus instanceof ComboBoxBase;
    }

    // ---- the window's place

    private void restore() {
        var settings = context.settings();
        Rectangle2D screen = Screen.getPrimary().getVisualBounds();
        double width = Math.min(settings.get("window.width", Math.min(1600, screen.getWidth())), screen.getWidth());
        double height = Math.min(settings.get("window.height", Math.min(1000, screen.getHeight())), screen.getHeight());
        stage.setWidth(width);
        stage.setHeight(height);
        stage.setX(Math.max(
                0, Math.min(settings.get("window.x", (screen.getWidth() - width) / 2), screen.getMaxX() - width)));
        stage.setY(Math.max(
                0, Math.min(settings.get("window.y", (screen.getHeight() - height) / 2), screen.getMaxY() - height)));
        stage.setMaximized(settings.get("window.maximised", false));
    }

    /** Remembers where the window is; to be called before it goes. */
    public void remember() {
        var settings = context.settings();
        settings.put("window.maximised", stage.isMaximized());
        if (!stage.isMaximized() && !stage.isFullScreen()) {
            settings.put("window.width", stage.getWidth());
            settings.put("window.height", stage.getHeight());
            settings.put("window.x", stage.getX());
            settings.put("window.y", stage.getY());
        }
    }
}
