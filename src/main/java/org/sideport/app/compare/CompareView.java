package org.sideport.app.compare;

import javafx.beans.binding.Bindings;
import javafx.beans.binding.BooleanBinding;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.Label;
import javafx.scene.control.ToggleButton;
import javafx.scene.control.ToggleGroup;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.comment.SeenLayer;
import org.sideport.app.compare.PairDesk.Side;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.frame.Navigator;
import org.sideport.app.frame.Screen;
import org.sideport.app.picture.LayeredPicture;
import org.sideport.app.picture.PictureView;
import org.sideport.app.picture.TransportBar;
import org.sideport.model.MediaTime;
import org.sideport.workflow.Comparison;

/** Two recordings side by side under one transport, or one trainee's cases as bars. */
public final class CompareView implements Screen {

    private static final long SECOND = 1_000_000;

    private final CompareViewModel model;
    private final StackViewModel stacking;
    private final Texts texts;
    private final PairDesk pair;
    private final BorderPane root = Ui.styled(new BorderPane(), "compare");
    private final ToggleButton asPair;
    private final ToggleButton asStack;
    private final ToggleButton times;
    private final FlowPane chooser;
    private final BorderPane pictures = new BorderPane();
    private final StackView stack;

    public CompareView(CompareViewModel model, StackViewModel stacking, Texts texts, Navigator navigator) {
        this.model = model;
        this.stacking = stacking;
        this.texts = texts;
        this.pair = model.pair();
        root.setFocusTraversable(true);
        ToggleGroup kinds = new ToggleGroup();
        asPair = kind("as-pair", texts.get("compare.pair"), "left-pill", kinds);
        asStack = kind("as-stack", texts.get("compare.stack"), "right-pill", kinds);
        times = Ui.iconToggle("show-times", Feather.SIDEBAR, texts.get("compare.times"));
        times.setSelected(true);
        chooser = chooser();
        stack = new StackView(stacking, texts, (code, at) -> navigator.toReview(code, at));
        fillPictures(navigator);
        root.setTop(tools());
        show();
    }

    private ToggleButton kind(String id, String text, String pill, ToggleGroup group) {
        ToggleButton button = new ToggleButton(text);
        button.setId(id);
        button.getStyleClass().add(pill);
        button.setToggleGroup(group);
        button.setFocusTraversable(false);
        button.setSelected(pill.startsWith("left"));
        button.setOnAction(event -> {
            button.setSelected(true);
            show();
        });
        return button;
    }

    private void show() {
        boolean paired = asPair.isSelected();
        chooser.setVisible(paired);
        chooser.setManaged(paired);
        times.setVisible(paired);
        times.setManaged(paired);
        if (!paired) {
            pair.pause();
        }
        root.setCenter(paired ? pictures : stack);
        takeFocus();
    }

    private HBox tools() {
        HBox kinds = Ui.styled(new HBox(asPair, asStack), "segmented");
        kinds.setAlignment(Pos.CENTER_LEFT);
        kinds.setMinWidth(Region.USE_PREF_SIZE);
        HBox.setHgrow(chooser, Priority.ALWAYS);
        HBox box = Ui.styled(new HBox(Ui.STEP * 2, kinds, chooser, times), "toolbar");
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private FlowPane chooser() {
        Button swap = Ui.iconButton("swap", Feather.REPEAT, Ui.withKey(texts, Shortcut.SWAP), model::swap);
        Button previous =
                Ui.button("use-previous", Feather.CORNER_UP_LEFT, texts.get("compare.usePrevious"), model::usePrevious);
        previous.setFocusTraversable(false);
        FlowPane box = new FlowPane(
                Ui.STEP,
                Ui.STEP,
                Ui.named(texts.get("compare.left"), new CaseField(model, Side.LEFT, texts)),
                swap,
                Ui.named(texts.get("compare.right"), new CaseField(model, Side.RIGHT, texts)),
                new ExemplarMenu(model, texts),
                previous);
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void fillPictures(Navigator navigator) {
        HBox both = new HBox(2, half(Side.LEFT), half(Side.RIGHT));
        StackPane covered = new StackPane(both, cover(navigator));
        VBox.setVgrow(covered, Priority.ALWAYS);
        MapStrip strip = new MapStrip(model, texts);
        PairTransport transport = new PairTransport(model, texts);
        BooleanBinding chosen = Bindings.createBooleanBinding(
                () -> model.comparisonProperty().get() != null, model.comparisonProperty());
        Label where = Ui.label("", "small", "where-note");
        where.setId("where");
        where.textProperty().bind(model.whereProperty());
        Ui.showIf(strip, chosen);
        Ui.showIf(where, chosen);
        Ui.showIf(transport, chosen);
        pictures.setCenter(new VBox(covered, transport, where, strip));
        DifferencePane difference = new DifferencePane(model, texts);
        Ui.showIf(difference, chosen.and(times.selectedProperty()));
        // at most about half: the pictures, and the buttons under them, need the rest
        pictures.setMinWidth(0);
        difference
                .maxWidthProperty()
                .bind(pictures.widthProperty()
                        .map(all -> Math.min(0.46 * all.doubleValue(), all.doubleValue() - transport.minWidth(-1))));
        difference
                .minWidthProperty()
                .bind(difference.maxWidthProperty().map(most -> Math.min(368, most.doubleValue())));
        pictures.setRight(difference);
    }

    private VBox half(Side side) {
        PictureView picture = new PictureView(pair.desk(side), texts);
        String name = side == Side.LEFT ? "left" : "right";
        picture.setId("picture-" + name);
        // its own click would play this side alone
        picture.setOnMouseClicked(event -> {
            takeFocus();
            if (!model.narrator().end()) {
                pair.playOrPause();
            }
        });
        Label none = Ui.wrapped(texts.get("compare.noRecording"), "text-muted", "padded");
        none.visibleProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> model.comparisonProperty().get() != null
                                && pair.desk(side).recordingProperty().get() == null,
                        model.comparisonProperty(),
                        pair.desk(side).recordingProperty()));
        StackPane area = new StackPane(new LayeredPicture(picture, new SeenLayer(model.drawing(side))), none);
        area.setMinSize(0, 0);
        VBox.setVgrow(area, Priority.ALWAYS);
        VBox half = new VBox(new SideHead(model, side, texts), area);
        half.setPrefWidth(400);
        half.setMinWidth(0);
        HBox.setHgrow(half, Priority.ALWAYS);
        return half;
    }

    /** Instead of pictures, until two cases are chosen: what to do. */
    private StackPane cover(Navigator navigator) {
        StackPane cover = Ui.styled(new StackPane(), "cover");
        cover.setId("compare-cover");
        Button cases = Ui.button("compare-to-cases", Feather.LIST, texts.get("review.empty.cases"), navigator::toCases);
        cases.getStyleClass().add("accent");
        EmptyState nothing =
                new EmptyState(Feather.COLUMNS, texts.get("compare.nothing"), texts.get("compare.nothing.text"), cases);
        EmptyState choose =
                new EmptyState(Feather.COLUMNS, texts.get("compare.empty"), texts.get("compare.empty.text"));
        EmptyState other =
                new EmptyState(Feather.COLUMNS, texts.get("compare.second"), texts.get("compare.second.text"));
        other.setId("compare-second");
        cover.getChildren().addAll(nothing, choose, other);
        BooleanBinding none = Bindings.isEmpty(model.candidates());
        BooleanBinding one = Bindings.isNotNull(model.choiceProperty(Side.LEFT))
                .or(Bindings.isNotNull(model.choiceProperty(Side.RIGHT)));
        nothing.visibleProperty().bind(none);
        choose.visibleProperty().bind(none.or(one).not());
        other.visibleProperty().bind(none.not().and(one));
        cover.visibleProperty()
                .bind(Bindings.createBooleanBinding(
                        () -> model.loadedProperty().get()
                                && model.comparisonProperty().get() == null,
                        model.loadedProperty(),
                        model.comparisonProperty()));
        model.candidates().addListener((javafx.collections.ListChangeListener<Object>)
                change -> stacking.offer(model.candidates(), traineeOnTheLeft()));
        return cover;
    }

    private String traineeOnTheLeft() {
        Comparison now = model.comparisonProperty().get();
        return now == null ? "" : now.left().surgicalCase().trainee();
    }

    @Override
    public Node node() {
        return root;
    }

    @Override
    public void shown() {
        model.refresh();
        takeFocus();
    }

    @Override
    public void takeFocus() {
        root.requestFocus();
    }

    @Override
    public boolean handle(KeyEvent event) {
        if (!asPair.isSelected() || model.comparisonProperty().get() == null) {
            return false;
        }
        // as in Review, any key ends what is being heard
        if (model.narrator().end()) {
            return true;
        }
        Shortcut own = Shortcut.of(event, Shortcut.Scope.COMPARE).orElse(null);
        if (own != null) {
            switch (own) {
                case NEXT_PHASE -> model.toPhase(1);
                case PREVIOUS_PHASE -> model.toPhase(-1);
                case SWAP -> model.swap();
                case OTHER_SIDE -> pair.lead(pair.leaderProperty().get().other());
                case ALIGNMENT -> model.toggleMode();
                default -> throw new IllegalStateException("not a key of comparing: " + own);
            }
            return true;
        }
        Shortcut shortcut = Shortcut.of(event, Shortcut.Scope.PICTURE).orElse(null);
        return shortcut != null && picture(shortcut);
    }

    private boolean picture(Shortcut shortcut) {
        Side leader = pair.leaderProperty().get();
        switch (shortcut) {
            case PLAY_OR_PAUSE -> pair.playOrPause();
            case NEXT_FRAME -> pair.step(1);
            case PREVIOUS_FRAME -> pair.step(-1);
            case FORWARD_SECOND -> pair.skip(SECOND);
            case BACK_SECOND -> pair.skip(-SECOND);
            case FORWARD_FIVE -> pair.skip(5 * SECOND);
            case BACK_FIVE -> pair.skip(-5 * SECOND);
            case TO_START -> pair.seek(leader, MediaTime.ZERO);
            case TO_END -> pair.seek(leader, pair.leading().durationProperty().get());
            case FASTER -> rate(1);
            case SLOWER -> rate(-1);
            default -> {
                return false;
            }
        }
        return true;
    }

    private void rate(int by) {
        pair.leading()
                .setRate(TransportBar.nextRate(pair.leading().rateProperty().get(), by));
    }
}
