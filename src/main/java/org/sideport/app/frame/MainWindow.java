package org.sideport.app.frame;

import java.nio.file.Path;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.function.Consumer;
import javafx.beans.InvalidationListener;
import javafx.beans.Observable;
import javafx.beans.binding.Bindings;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.ReadOnlyBooleanProperty;
import javafx.beans.value.ChangeListener;
import javafx.beans.value.WeakChangeListener;
import javafx.geometry.Insets;
import javafx.geometry.Pos;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.ToggleButton;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyCombination;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.stage.Stage;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.AppContext;
import org.sideport.app.CurrentCase;
import org.sideport.app.NextPicture;
import org.sideport.app.Notice;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.Veiled;
import org.sideport.app.assign.ToMarkBar;
import org.sideport.app.cases.CaseIntake;
import org.sideport.app.cases.CasesView;
import org.sideport.app.cases.CasesViewModel;
import org.sideport.app.cases.IntakeWindows;
import org.sideport.app.people.Session;
import org.sideport.app.picture.PictureView;
import org.sideport.app.settings.ChosenRoles;
import org.sideport.app.settings.Language;
import org.sideport.model.MediaTime;

/** The one window: where one is, the screen, and what there is to say. */
public final class MainWindow implements Navigator {

    /** With less room beside the places, notices stand under the bar; pixels at letters of the usual size. */
    private static final double ROOM_FOR_NOTICES = 420;

    private final AppContext context;
    private final Texts texts;
    private final Stage stage;
    private final BorderPane root = Ui.styled(new BorderPane(), "frame");
    private final VBox top;
    private final VBox bottom;
    private final TopBar bar;
    private final Screen cases;
    private final Scene scene;
    private final @Nullable Session session;
    private final Map<Destination, ToggleButton> buttons = new EnumMap<>(Destination.class);
    private final WindowPlace place;
    private final PictureWindow second;
    private final JobsPanel jobsPanel;
    private final StackPane layers;
    private final Reopening reopening;
    private final FirstStepsLayer firstSteps;
    private final WindowDialogs dialogs;
    // held weakly by the stage, which outlives this window's content when a workspace is opened anew
    private final ChangeListener<Boolean> fullScreen = (property, old, now) -> leaveFullPicture(now);
    /** True once the newest cases are in the list, or could not be read. */
    private final ReadOnlyBooleanProperty listed;

    private @Nullable LaterScreens later;
    private Destination at = Destination.CASES;
    private Screen current;

    public MainWindow(AppContext context, Stage stage) {
        this(context, stage, Reopening.NEXT_TIME);
    }

    /** @param reopening opens a workspace anew, for another language or another folder */
    public MainWindow(AppContext context, Stage stage, Reopening reopening) {
        this.reopening = reopening;
        this.context = context;
        this.texts = context.texts();
        this.stage = stage;
        CasesViewModel casesModel = context.cases().casesViewModel();
        listed = casesModel.begunProperty();
        CaseIntake intake = new IntakeWindows(stage, context, casesModel);
        cases = new CasesView(
                casesModel,
                new ToMarkBar(context.toMarkModel(), texts, this),
                texts,
                this,
                intake,
                context.cases().thumbnails());
        session = context.session(stage, this);
        current = cases;
        dialogs = new WindowDialogs(context, stage, this::speak, this::showFirstSteps);
        bar = bar();
        for (Destination each : Destination.values()) {
            buttons.put(each, bar.place(each.id(), each.icon(), texts.get(each.text()), each.key(), () -> go(each)));
        }
        if (!whyNoProgramme().isEmpty()) {
            ToggleButton unused = buttons.get(Destination.PROGRAMME);
            if (unused != null) {
                unused.setDisable(true);
                unused.setAccessibleHelp(whyNoProgramme());
            }
        }
        jobsPanel = new JobsPanel(
                context.jobs(),
                texts,
                job -> dialogs.details(job.messageProperty().get(), job.failure()),
                this::toggleJobs);
        jobsPanel.setVisible(false);
        top = new VBox(bar);
        root.setTop(top);
        bottom = new VBox(
                Banners.missingPlayer(context.playerProblemProperty()), Banners.firstUse(context.settings(), texts));
        root.setBottom(bottom);
        NoticeBar notice =
                new NoticeBar(context.notices(), texts, shown -> dialogs.details(shown.text(), shown.failure()));
        StackPane.setAlignment(jobsPanel, Pos.TOP_RIGHT);
        StackPane.setMargin(jobsPanel, new Insets(Ui.STEP * 6, Ui.STEP, Ui.STEP, 0));
        StackPane.setAlignment(notice, Pos.TOP_RIGHT);
        bar.placesEndProperty().addListener((property, old, now) -> besidePlaces(notice));
        bar.layoutBoundsProperty().addListener((property, old, now) -> besidePlaces(notice));
        layers = new StackPane(root, jobsPanel, notice);
        firstSteps = new FirstStepsLayer(
                context, layers, this, intake, casesModel, this::speak, reopening, () -> current.takeFocus());
        scene = new Scene(layers, 1280, 800);
        context.theme().dress(scene);
        WindowKeys keys = windowKeys();
        scene.addEventFilter(KeyEvent.KEY_PRESSED, keys::pressed);
        stage.setScene(scene);
        stage.setTitle(texts.get("app.name"));
        stage.setMinWidth(960);
        stage.setMinHeight(600);
        // by the key of the sheet, and never behind the screen's back
        stage.setFullScreenExitKeyCombination(KeyCombination.NO_MATCH);
        stage.setFullScreenExitHint("");
        stage.fullScreenProperty().addListener(new WeakChangeListener<>(fullScreen));
        place = new WindowPlace(stage, context.settings());
        second = new PictureWindow(context, stage, keys::pressed);
        place.restore();
        go(Destination.CASES);
    }

    /** Shows the window; the other screens are made when its first cases are there, or when the first is gone to. */
    public void show() {
        afterFirstCases(this::later);
        stage.show();
    }

    private LaterScreens later() {
        LaterScreens made = later;
        if (made == null) {
            made = new LaterScreens(context, this, scene, () -> at.id());
            later = made;
        }
        return made;
    }

    private void open(String code) {
        later();
        context.current().open(code);
    }

    private Screen screen(Destination place) {
        return place == Destination.CASES
                ? cases
                : Objects.requireNonNull(later().screens().get(place));
    }

    /**
     * Once the window's first picture is there, goes back to where the user was if the program was killed, and asks at the
     * first start who the user is.
     */
    public void begin() {
        Place was = Place.of(context.place());
        boolean killed = Place.wasCutShort(context.place());
        Place.opened(context.place(), true);
        afterNextPicture(() -> {
            if (killed && !was.screen().isEmpty() && !was.code().isEmpty()) {
                goBack(was);
                return;
            }
            afterFirstCases(() -> later().keeper().begin());
            if (ChosenRoles.chosen(context.settings()).isEmpty()) {
                firstSteps.show();
            }
        });
    }

    private void afterNextPicture(Runnable then) {
        NextPicture.of(scene, () -> {
            if (stage.getScene() == scene && stage.isShowing()) {
                then.run();
            }
        });
    }

    private void afterFirstCases(Runnable then) {
        afterNextPicture(() -> {
            if (listed.get()) {
                then.run();
                return;
            }
            listed.addListener(new InvalidationListener() {
                @Override
                public void invalidated(Observable changed) {
                    listed.removeListener(this);
                    afterNextPicture(then);
                }
            });
        });
    }

    /** Goes to where the user was before the window was opened anew. */
    public void goBack() {
        Place was = Place.of(context.place());
        Place.opened(context.place(), true);
        if (was.code().isEmpty()) {
            later().keeper().begin();
        } else {
            later().keeper().goBack(was, this::goTo, () -> {});
        }
    }

    private void goBack(Place was) {
        later().keeper()
                .goBack(
                        was,
                        this::goTo,
                        () -> context.notices().show(Notice.done(texts.get("frame.back"), was.code())));
    }

    private void goTo(Place was) {
        open(was.code());
        go(Destination.of(was.screen()).orElse(Destination.CASES));
    }

    // ---- the bar at the top

    private TopBar bar() {
        ToggleButton light = Ui.iconToggle("light", Feather.SUN, Ui.withKey(texts, Shortcut.LIGHT_OR_DARK));
        light.selectedProperty().bindBidirectional(context.theme().lightProperty());
        Button keys = Ui.iconButton("keys", Feather.COMMAND, Ui.withKey(texts, Shortcut.SHORTCUTS), dialogs::keys);
        Button about = Ui.iconButton("about", Feather.INFO, Ui.withKey(texts, Shortcut.ABOUT), dialogs::about);
        Button settings =
                Ui.iconButton("settings", Feather.SETTINGS, Ui.withKey(texts, Shortcut.SETTINGS), dialogs::settings);
        Button other = Ui.iconButton(
                "second-picture-window",
                Feather.MONITOR,
                Ui.withKey(texts, Shortcut.SECOND_PICTURE),
                () -> second.toggle());
        HBox right = new HBox(2, other, light, settings, keys, about);
        right.setAlignment(Pos.CENTER_LEFT);
        if (session != null) {
            right.getChildren().add(0, session.menu());
        }
        return new TopBar(
                texts,
                Bindings.createStringBinding(
                        this::caseText,
                        context.current().openedProperty(),
                        context.current().loadingProperty()),
                List.of(JobsPanel.opener(context.jobs(), texts, this::toggleJobs), right));
    }

    /** Notices leave the places free: beside them where there is room, else under the bar. */
    private void besidePlaces(NoticeBar notice) {
        double left = bar.placesEndProperty().get() + Ui.STEP;
        boolean beside = bar.getWidth() - left
                >= ROOM_FOR_NOTICES * context.theme().fontSizeProperty().get().factor();
        StackPane.setMargin(
                notice,
                beside
                        ? new Insets(Ui.STEP / 2, Ui.STEP, 0, left)
                        : new Insets(bar.getHeight() + Ui.STEP / 2, Ui.STEP, 0, Ui.STEP));
    }

    /** Why the programme has nothing for who sits here; empty if it has. */
    private String whyNoProgramme() {
        return context.me().signedIn() && !context.hasProgramme() ? texts.get("programme.why.role") : "";
    }

    private void toggleJobs() {
        jobsPanel.setVisible(!jobsPanel.isVisible());
        if (jobsPanel.isVisible()) {
            jobsPanel.lookup("#close-jobs").requestFocus();
        } else {
            current.takeFocus();
        }
    }

    private String caseText() {
        CurrentCase.Opened open = context.current().opened();
        if (context.current().loadingProperty().get()) {
            return texts.get("nav.loading");
        }
        return open == null
                ? ""
                : texts.get(
                        "nav.case", open.code(), Veiled.trainee(open.overview().surgicalCase(), texts));
    }

    // ---- going places

    private void go(Destination to) {
        if (to == Destination.PROGRAMME && !whyNoProgramme().isEmpty()) {
            context.notices().hint(whyNoProgramme());
            return;
        }
        Screen screen = screen(to);
        current = screen;
        at = to;
        context.notices().clearPassing();
        buttons.forEach((place, button) -> button.setSelected(place == to));
        if (to != Destination.REVIEW && to != Destination.MARKING) {
            context.desk().pause();
        }
        if (to != Destination.COMPARE) {
            context.pair().pause();
        }
        root.setCenter(screen.node());
        fullPicture(screen.isFullPicture());
        screen.shown();
        if (later != null) {
            later.keeper().note();
        }
    }

    @Override
    public void toCases() {
        go(Destination.CASES);
    }

    @Override
    public void toReview(String code) {
        open(code);
        go(Destination.REVIEW);
    }

    @Override
    public void toReview(String code, @Nullable MediaTime at) {
        toReview(code);
        if (at != null) {
            context.desk().whenReady(() -> context.desk().seek(at));
        }
    }

    @Override
    public void toComments(String code, MediaTime at) {
        toReview(code, at);
        later().showComments();
    }

    @Override
    public void toProgramme() {
        go(whyNoProgramme().isEmpty() ? Destination.PROGRAMME : Destination.CASES);
    }

    @Override
    public void toMarking(String code) {
        open(code);
        go(Destination.MARKING);
    }

    @Override
    public void signOut() {
        reopening.reopen(context, context.folder());
    }

    @Override
    public void toWorkspace(Path folder) {
        reopening.reopen(context, folder);
    }

    @Override
    public void fullPicture(boolean alone) {
        root.setTop(alone ? null : top);
        root.setBottom(alone ? null : bottom);
        stage.setFullScreen(alone);
    }

    private void leaveFullPicture(boolean fullScreen) {
        if (!fullScreen && current.isFullPicture()) {
            current.handle(new KeyEvent(KeyEvent.KEY_PRESSED, "", "", KeyCode.F11, false, false, false, false));
        }
    }

    private void showFirstSteps() {
        firstSteps.show();
    }

    private void speak(Language language) {
        context.settings().put("language", language.id());
        later().keeper().note();
        reopening.reopen(context, context.folder());
    }

    private void dismissNewest() {
        Notice newest = context.notices().currentProperty().get();
        if (newest != null) {
            context.notices().dismiss(newest);
        }
    }

    private void onPicture(Consumer<PictureView> use) {
        if (current.node().lookup("#picture") instanceof PictureView picture) {
            use.accept(picture);
        }
    }

    // ---- keys

    private WindowKeys windowKeys() {
        Map<Shortcut, Runnable> own = new EnumMap<>(Shortcut.class);
        own.put(Shortcut.SHORTCUTS, dialogs::keys);
        for (Destination each : Destination.values()) {
            own.put(each.key(), () -> go(each));
        }
        own.put(Shortcut.SETTINGS, dialogs::settings);
        BooleanProperty light = context.theme().lightProperty();
        own.put(Shortcut.LIGHT_OR_DARK, () -> light.set(!light.get()));
        own.put(Shortcut.JOBS, this::toggleJobs);
        own.put(Shortcut.DISMISS_NOTICE, this::dismissNewest);
        own.put(Shortcut.NOTICE_DETAILS, dialogs::newestDetails);
        own.put(Shortcut.SECOND_PICTURE, () -> second.toggle());
        own.put(Shortcut.PICTURE_CLOSER, () -> onPicture(picture -> picture.zoom(1.25)));
        own.put(Shortcut.PICTURE_WIDER, () -> onPicture(picture -> picture.zoom(0.8)));
        own.put(Shortcut.PICTURE_WHOLE, () -> onPicture(PictureView::showWhole));
        own.put(Shortcut.ABOUT, dialogs::about);
        own.put(Shortcut.FIRST_STEPS, this::showFirstSteps);
        own.put(Shortcut.NEXT_CONTROL, () -> ControlWalk.go(layers, true));
        own.put(Shortcut.PREVIOUS_CONTROL, () -> ControlWalk.go(layers, false));
        return new WindowKeys(
                own,
                List.of(
                        new WindowKeys.Over(firstSteps::isShown, firstSteps::hide, true),
                        new WindowKeys.Over(jobsPanel::isVisible, this::toggleJobs, false)),
                stage::getScene,
                () -> current,
                () -> leaveFullPicture(false),
                event -> (later != null && later.oneHand(event, at)) || current.handle(event));
    }

    /** Remembers where the window is; to be called before it goes. */
    public void remember() {
        if (session != null) {
            session.close();
        }
        place.remember();
        second.close();
        Place.opened(context.place(), false);
    }
}
