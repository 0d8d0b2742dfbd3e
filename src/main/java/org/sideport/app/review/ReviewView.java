package org.sideport.app.review;

import java.util.List;
import java.util.Set;
import javafx.beans.binding.Bindings;
import javafx.beans.binding.StringBinding;
import javafx.beans.property.BooleanProperty;
import javafx.beans.property.SimpleBooleanProperty;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.Scene;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.Tab;
import javafx.scene.control.TabPane;
import javafx.scene.control.TextField;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.CurrentCase;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.frame.Navigator;
import org.sideport.app.frame.Screen;
import org.sideport.app.picture.PictureKeys;
import org.sideport.app.picture.PictureView;
import org.sideport.app.picture.TransportBar;
import org.sideport.app.refine.RefineBar;
import org.sideport.app.timeline.TimelineEdit;
import org.sideport.app.timeline.TimelineHandler;
import org.sideport.app.timeline.TimelineView;
import org.sideport.model.Operator;

/** Watch and tag: the picture, the lane under it, the phases beside it. */
public final class ReviewView implements Screen {

    /** The lanes may always have this much of the height. */
    private static final double LEAST_FOR_LANES = 0.3;

    /** Height of the row of buttons over the lanes, pixels. */
    private static final double TRANSPORT = 48;

    /** Height of the tools beside the picture, in sizes of a letter. */
    private static final double ROOM_FOR_TOOLS = 24;

    private final ReviewViewModel model;
    private final CutsViewModel cuts;
    private final Besides besides;
    private final PictureTools tools;
    private final Texts texts;
    private final Navigator navigator;
    private final BorderPane root = Ui.styled(new BorderPane(), "review");
    private final StackPane stack = new StackPane();
    private final VBox side;
    private final TimelineView lane;
    private final PictureKeys keys;
    private final RefineBar refining;
    /** Whether the lanes of what is measured take room from the picture; not while refining or writing a comment. */
    private final BooleanProperty lanesShown = new SimpleBooleanProperty(true);

    private final Label tagging = Ui.label("");
    private final TagTools tagTools;
    private boolean fullPicture;

    public ReviewView(
            ReviewViewModel model,
            CutsViewModel cuts,
            Besides besides,
            PictureTools tools,
            RecordingLanes measured,
            RefineBar refining,
            Texts texts,
            Navigator navigator) {
        this.model = model;
        this.cuts = cuts;
        this.besides = besides;
        this.refining = refining;
        this.tagTools = new TagTools(model, texts);
        this.tools = tools;
        this.texts = texts;
        this.navigator = navigator;
        lane = timeline(measured);
        keys = new PictureKeys(model.desk(), lane, this::toggleFullPicture);
        side = side();
        PictureView picture = new PictureView(model.desk(), texts);
        Node layered = tools.over(picture);
        VBox.setVgrow(layered, Priority.ALWAYS);
        root.setCenter(new VBox(new RunningPhase(model, texts), layered));
        root.setRight(side);
        refining.model().activeProperty().addListener((property, old, now) -> root.requestFocus());
        root.setBottom(new VBox(refining, new TransportBar(model.desk(), texts, lane, this::toggleFullPicture), lane));
        lane.maxHeightProperty()
                .bind(Bindings.createDoubleBinding(this::mostForLanes, root.heightProperty(), tagging.fontProperty()));
        root.setFocusTraversable(true);
        stack.getChildren().add(root);
        OtherPhaseChooser other = new OtherPhaseChooser(model, texts);
        StackPane.setAlignment(other, Pos.TOP_RIGHT);
        stack.getChildren().addAll(other, nothing());
        model.eventDraftProperty().addListener((property, old, now) -> {
            var procedure = model.procedureProperty().get();
            if (now != null && procedure != null && stack.getScene() != null) {
                new EventDialog(stack.getScene().getWindow(), texts, model, procedure, now).show();
            }
        });
    }

    /** Where letters are large and the window is small, lanes leave room for the tools; the wheel moves them then. */
    private double mostForLanes() {
        double height = root.getHeight();
        return Math.max(
                LEAST_FOR_LANES * height,
                height - TRANSPORT - ROOM_FOR_TOOLS * tagging.getFont().getSize());
    }

    /** Brings what was said to the front. */
    public void showComments() {
        tools.showComments();
    }

    /** The timeline under the picture. */
    public TimelineView timeline() {
        return lane;
    }

    private TimelineView timeline(RecordingLanes measured) {
        TimelineView view = new TimelineView(texts);
        view.setId("timeline-lane");
        TimelineEditing editing = new TimelineEditing(model);
        view.handlerProperty().set(editing);
        // not the draft itself, which changes with each stroke
        BooleanProperty writing =
                new SimpleBooleanProperty(tools.comments().draftProperty().get() != null);
        tools.comments().draftProperty().addListener((property, old, now) -> {
            writing.set(now != null);
            if (now == null) {
                leaveWriting();
            }
        });
        view.modelProperty()
                .bind(Bindings.createObjectBinding(
                        () -> TimelineEditing.modelOf(
                                model.laneProperty().get(),
                                model.lookingAtProperty().get().isEmpty(),
                                lanesShown.get()
                                                && !refining.model()
                                                        .activeProperty()
                                                        .get()
                                                && !writing.get()
                                        ? measured.measuredProperty().get()
                                        : measured.measuredProperty().get().withoutLanes(),
                                cuts.cuts(),
                                tools.voices(),
                                refining.model().activeProperty().get() ? null : besides,
                                texts),
                        model.laneProperty(),
                        model.lookingAtProperty(),
                        measured.measuredProperty(),
                        lanesShown,
                        refining.model().activeProperty(),
                        writing,
                        cuts.cuts(),
                        besides.reference().lanesProperty(),
                        besides.tags().lanesProperty(),
                        tools.voices()));
        view.emptyNoteProperty()
                .bind(Bindings.createStringBinding(
                        model::whyNoPhases,
                        model.laneProperty(),
                        model.annotatorProperty(),
                        model.lookingAtProperty(),
                        model.current().openedProperty()));
        view.accessibleHelpProperty().bind(view.emptyNoteProperty());
        view.lengthNoteProperty().set(besides.reference()::noteOf);
        view.playheadProperty().bind(model.desk().timeProperty());
        view.framesProperty().bind(measured.framesProperty());
        view.boundaryMarksProperty()
                .bind(Bindings.createObjectBinding(
                        () -> TimelineEditing.marks(
                                model.laneProperty().get(),
                                model.confirmedProperty().get()),
                        model.laneProperty(),
                        model.confirmedProperty()));
        view.labelsProperty()
                .bind(Bindings.createObjectBinding(
                        () -> {
                            var procedure = model.procedureProperty().get();
                            return procedure == null ? List.of() : TimelineEditing.choices(procedure);
                        },
                        model.procedureProperty()));
        view.selectionProperty().addListener((property, old, now) -> editing.selected(now));
        view.selectionProperty().addListener((property, old, now) -> tools.selected(now));
        model.selectedSpanProperty().addListener((property, old, now) -> chosenInTheList(view, now));
        model.selectedEventProperty().addListener((property, old, now) -> chosenInTheList(view, now));
        return view;
    }

    /** What is chosen in the list is selected on the timeline, unless it is already. */
    private static void chosenInTheList(TimelineView view, @Nullable Object chosen) {
        Set<Object> selected = view.selectionProperty().get();
        if (chosen != null
                && !selected.contains(chosen)
                && !TaggedLanes.spansOf(selected).contains(chosen)) {
            view.selectionProperty().set(Set.of(chosen));
        }
    }

    private Node nothing() {
        CurrentCase current = model.current();
        Button cases = Ui.button("go-to-cases", Feather.LIST, texts.get("review.empty.cases"), navigator::toCases);
        cases.getStyleClass().add("accent");
        EmptyState none =
                new EmptyState(Feather.FILM, texts.get("review.empty"), texts.get("review.empty.text"), cases);
        Button mark = Ui.button("mark-instead", Feather.CLIPBOARD, texts.get("detail.mark"), () -> {
            CurrentCase.Opened open = current.opened();
            if (open != null) {
                navigator.toMarking(open.code());
            }
        });
        mark.getStyleClass().add("accent");
        EmptyState noRecording = new EmptyState(
                Feather.VIDEO_OFF, texts.get("review.noRecording"), texts.get("review.noRecording.text"), mark);
        StackPane cover = Ui.styled(new StackPane(none, noRecording), "cover");
        Ui.showIf(none, Bindings.createBooleanBinding(() -> current.opened() == null, current.openedProperty()));
        Ui.showIf(
                noRecording,
                Bindings.createBooleanBinding(
                        () -> {
                            CurrentCase.Opened open = current.opened();
                            return open != null && open.recording() == null;
                        },
                        current.openedProperty()));
        cover.visibleProperty().bind(none.visibleProperty().or(noRecording.visibleProperty()));
        return cover;
    }

    private VBox side() {
        TabPane tabs = Ui.styled(new TabPane(), "side-tabs");
        tabs.setTabClosingPolicy(TabPane.TabClosingPolicy.UNAVAILABLE);
        tabs.setFocusTraversable(false);
        tabs.getTabs()
                .addAll(
                        tab("phases", "review.tab.phases", new VBox(operators(), palette(), tools())),
                        tab("tags", "review.tab.tags", tags()),
                        tab("times", "review.tab.times", new TimesPane(model, besides.reference(), texts)),
                        tab("cuts", "review.tab.cuts", new CutsPane(cuts, texts)));
        tabs.getTabs().addAll(tools.tabs());
        VBox.setVgrow(tabs, Priority.ALWAYS);
        VBox box = Ui.styled(new VBox(who(), new OtherTaggers(model, besides.tags(), texts), tabs), "side");
        box.setPrefWidth(368);
        box.setMinWidth(368);
        return box;
    }

    private Tab tab(String name, String key, Node content) {
        Tab tab = new Tab(texts.get(key), content);
        tab.setId("tab-" + name);
        return tab;
    }

    private Node tools() {
        return tagTools.buttons(this::showPhaseKeys, refining.opener());
    }

    private void showPhaseKeys() {
        tagTools.showKeys(stack.getScene() == null ? null : stack.getScene().getWindow());
    }

    private Node tags() {
        TagList list = new TagList(model, texts);
        VBox.setVgrow(list, Priority.ALWAYS);
        return new VBox(tagTools.habits(), list);
    }

    private Node palette() {
        PhasePalette palette = new PhasePalette(model, texts);
        VBox.setVgrow(palette, Priority.ALWAYS);
        return palette;
    }

    private HBox who() {
        TextField code = Ui.codeField(
                "annotator",
                texts.get("review.annotator.prompt"),
                model.annotatorProperty().get(),
                model::setAnnotator);
        code.setTooltip(new Tooltip(texts.get("review.annotator.tooltip")));
        if (model.habits().isAnnotatorFixed()) {
            Ui.fixed(code, texts.get("who.own", code.getText()));
        }
        model.annotatorProperty().addListener((property, old, now) -> code.setText(now));
        tagging.setText(texts.get("review.annotator"));
        tagging.setMinWidth(Region.USE_PREF_SIZE);
        Button undo = Ui.iconButton("undo", Feather.CORNER_UP_LEFT, Ui.withKey(texts, Shortcut.UNDO), model::undo);
        Button redo = Ui.iconButton("redo", Feather.CORNER_UP_RIGHT, Ui.withKey(texts, Shortcut.REDO), model::redo);
        Button event = Ui.button("add-event", Feather.FLAG, texts.get("review.event"), model::beginEvent);
        event.setTooltip(new Tooltip(Ui.withKey(texts, Shortcut.EVENT)));
        event.setFocusTraversable(false);
        StringBinding whyNoUndo = Bindings.createStringBinding(
                () -> model.canUndoProperty().get() ? "" : texts.get("review.why.noUndo"), model.canUndoProperty());
        StringBinding whyNoRedo = Bindings.createStringBinding(
                () -> model.canRedoProperty().get() ? "" : texts.get("review.why.noRedo"), model.canRedoProperty());
        StringBinding whyNoEvent = Bindings.createStringBinding(
                () -> model.whyNoTagging(),
                model.annotatorProperty(),
                model.lookingAtProperty(),
                model.current().openedProperty());
        HBox box = Ui.styled(
                new HBox(
                        Ui.STEP / 2,
                        tagging,
                        code,
                        Ui.spring(),
                        Ui.reasoned(undo, whyNoUndo),
                        Ui.reasoned(redo, whyNoRedo),
                        Ui.reasoned(event, whyNoEvent)),
                "padded");
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private Node operators() {
        ToggleGroup group = new ToggleGroup();
        HBox pills = new HBox();
        Operator[] all = Operator.values();
        for (int i = 0; i < all.length; i++) {
            Operator operator = all[i];
            ToggleButton pill = new ToggleButton(TagList.operatorName(texts, operator));
            pill.setId("operator-" + operator.id());
            pill.getStyleClass()
                    .addAll("small", i == 0 ? "left-pill" : i == all.length - 1 ? "right-pill" : "center-pill");
            pill.setToggleGroup(group);
            pill.setFocusTraversable(false);
            pill.setSelected(model.operatorProperty().get() == operator);
            pill.setOnAction(event -> {
                pill.setSelected(true);
                model.operatorProperty().set(operator);
            });
            model.operatorProperty().addListener((property, old, now) -> pill.setSelected(now == operator));
            pill.setTooltip(new Tooltip(Ui.withKey(texts, Shortcut.HANDS)));
            pills.getChildren().add(pill);
        }
        HBox box = Ui.styled(
                new HBox(Ui.STEP, Ui.label(texts.get("review.operator"), "small", "text-muted"), pills), "padded");
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    /** Keys go to the picture again once a comment is done, not into the field for answering it. */
    private void leaveWriting() {
        Scene scene = root.getScene();
        Node at = scene == null ? null : scene.getFocusOwner();
        while (at != null && at != side) {
            at = at.getParent();
        }
        if (at != null) {
            root.requestFocus();
        }
    }

    private void toggleFullPicture() {
        fullPicture = !fullPicture;
        root.setRight(fullPicture ? null : side);
        navigator.fullPicture(fullPicture);
    }

    @Override
    public Node node() {
        return stack;
    }

    @Override
    public void shown() {
        root.requestFocus();
    }

    @Override
    public void takeFocus() {
        root.requestFocus();
    }

    @Override
    public boolean isFullPicture() {
        return fullPicture;
    }

    @Override
    public boolean handle(KeyEvent event) {
        if (model.current().opened() == null) {
            return false;
        }
        if (refining.handle(event) || chooses(event)) {
            return true;
        }
        if (tools.handle(event) || lane.handleKey(event) || keys.handle(event)) {
            return true;
        }
        Shortcut shortcut = Shortcut.of(event, Shortcut.Scope.REVIEW).orElse(null);
        if (shortcut == null) {
            return isPlain(event) && model.tagByKey(keyText(event));
        }
        switch (shortcut) {
            case REFINE -> refining.model().toggle();
            case MEASURED_LANES -> lanesShown.set(!lanesShown.get());
            case OTHER_PHASE -> model.otherPhase().begin();
            case PHASE_KEYS -> showPhaseKeys();
            case EVENT -> model.beginEvent();
            case HANDS -> model.nextOperator();
            case NEXT_BOUNDARY -> model.goToBoundary(true);
            case PREVIOUS_BOUNDARY -> model.goToBoundary(false);
            case DELETE -> deleteSelected();
            case UNDO -> model.undo();
            case REDO -> model.redo();
            default -> throw new IllegalStateException("not a review key: " + shortcut);
        }
        return true;
    }

    /** While it is asked which phase it was, all keys are for that but those of the picture. */
    private boolean chooses(KeyEvent event) {
        if (model.otherPhase().sinceProperty().get() == null) {
            return false;
        }
        if (event.getCode() == KeyCode.ESCAPE) {
            model.otherPhase().cancel();
            return true;
        }
        boolean other = event.isControlDown() || event.isAltDown() || event.isMetaDown();
        return !other
                && model.otherPhase().wasByKey(model.procedureProperty().get(), keyText(event), event.isShiftDown());
    }

    private void deleteSelected() {
        Set<Object> selected = lane.selectionProperty().get();
        TimelineHandler editing = lane.handlerProperty().get();
        if (selected.isEmpty() || editing == null) {
            model.deleteSelected();
        } else {
            editing.edit(new TimelineEdit.Delete(selected));
        }
    }

    private static boolean isPlain(KeyEvent event) {
        return !event.isControlDown() && !event.isAltDown() && !event.isMetaDown() && !event.isShiftDown();
    }

    /** What the key writes, or its name where a keyboard writes digits with Shift only. */
    private static String keyText(KeyEvent event) {
        if (event.getCode().isDigitKey() || event.getCode().isKeypadKey()) {
            String name = event.getCode().getName();
            return name.substring(name.length() - 1);
        }
        return event.getText();
    }
}
