package org.sideport.app.marking;

import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import javafx.beans.binding.Bindings;
import javafx.geometry.Bounds;
import javafx.geometry.Pos;
import javafx.scene.Node;
import javafx.scene.control.Button;
import javafx.scene.control.ComboBox;
import javafx.scene.control.Label;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.TextField;
import javafx.scene.control.TextInputControl;
import javafx.scene.control.TitledPane;
import javafx.scene.control.Tooltip;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.FlowPane;
import javafx.scene.layout.HBox;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.StackPane;
import javafx.scene.layout.VBox;
import javafx.util.StringConverter;
import org.jspecify.annotations.Nullable;
import org.kordamp.ikonli.feather.Feather;
import org.sideport.app.Question;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.frame.EmptyState;
import org.sideport.app.frame.Navigator;
import org.sideport.app.frame.Screen;
import org.sideport.app.picture.PictureKeys;
import org.sideport.app.picture.PictureView;
import org.sideport.app.picture.TransportBar;
import org.sideport.app.review.RecordingLanes;
import org.sideport.app.review.TimelineEditing;
import org.sideport.app.timeline.TimelineEdit;
import org.sideport.app.timeline.TimelineHandler;
import org.sideport.app.timeline.TimelineView;
import org.sideport.model.MediaTime;
import org.sideport.model.NotApplicable;
import org.sideport.model.Rubric;
import org.sideport.rubric.Score;

/** Mark a case: the rubric beside the picture. */
public final class MarkingView implements Screen {

    private final MarkingViewModel model;
    private final Texts texts;
    private final Navigator navigator;
    private final BorderPane root = Ui.styled(new BorderPane(), "marking");
    private final StackPane stack = new StackPane();
    private final VBox items = Ui.styled(new VBox(Ui.STEP), "items");
    private final VBox page = new VBox(items);
    private final ScrollPane scroll = Ui.styled(new ScrollPane(page), "edge-to-edge");
    private final List<ItemCard> cards = new ArrayList<>();
    private final Map<String, Label> sums = new HashMap<>();
    private final TextField code;
    private final ComboBox<Rubric> rubrics;
    private final ScorePane score;
    private final PictureKeys keys;
    private final VBox side;
    private boolean fullPicture;

    /** @param gap own marks beside an assessor's, under the items */
    public MarkingView(MarkingViewModel model, Node gap, Texts texts, Navigator navigator) {
        this.model = model;
        this.texts = texts;
        this.navigator = navigator;
        TimelineView lane = new TimelineView(texts);
        lane.setId("marking-timeline");
        lane.modelProperty()
                .bind(Bindings.createObjectBinding(
                        () -> TimelineEditing.modelOf(
                                model.laneProperty().get(),
                                false,
                                RecordingLanes.Measured.NONE,
                                List.of(),
                                List.of(),
                                null,
                                texts),
                        model.laneProperty()));
        lane.emptyNoteProperty().set(texts.get("lane.empty.marking"));
        lane.playheadProperty().bind(model.desk().timeProperty());
        lane.handlerProperty().set(new TimelineHandler() {
            @Override
            public void seek(long us) {
                model.seek(MediaTime.ofMicros(us));
            }

            @Override
            public void scrub(long us) {
                model.scrub(MediaTime.ofMicros(us));
            }

            @Override
            public void edit(TimelineEdit edit) {
                // tags are only looked at here: none of the lanes may be edited
            }
        });
        keys = new PictureKeys(model.desk(), lane, this::toggleFullPicture);
        code = Ui.codeField(
                "assessor",
                texts.get("marking.assessor.prompt"),
                model.assessorProperty().get(),
                model::setAssessor);
        rubrics = new ComboBox<>(model.rubrics());
        score = new ScorePane(model, texts, this::askToSign, this::askToAmend);
        page.getChildren().addAll(score.words(), gap);
        scroll.setFitToWidth(true);
        // marks make the note below taller: what is in focus stays in sight
        scroll.viewportBoundsProperty().addListener((property, old, now) -> {
            if (old.getHeight() != now.getHeight()) {
                showFocus();
            }
        });
        stack.sceneProperty().addListener((property, old, now) -> {
            if (now != null) {
                now.focusOwnerProperty().addListener((owner, before, node) -> writtenIn(node));
            }
        });
        scroll.setHbarPolicy(ScrollPane.ScrollBarPolicy.NEVER);
        scroll.setFocusTraversable(false);
        VBox.setVgrow(scroll, Priority.ALWAYS);
        side = Ui.styled(new VBox(who(), scroll, score), "side");
        side.setPrefWidth(464);
        side.setMinWidth(400);
        root.setCenter(new StackPane(new PictureView(model.desk(), texts), noPicture()));
        root.setRight(side);
        TransportBar transport = new TransportBar(model.desk(), texts, lane, this::toggleFullPicture);
        Ui.showIf(transport, model.desk().recordingProperty().isNotNull());
        Ui.showIf(
                lane,
                Bindings.createBooleanBinding(() -> lane.modelProperty().get().durationUs() > 0, lane.modelProperty()));
        root.setBottom(new VBox(transport, lane));
        root.setFocusTraversable(true);
        stack.getChildren().addAll(root, nothing());
        model.rubricProperty().addListener((property, old, now) -> rebuild(now));
        model.marksProperty().addListener((property, old, now) -> show());
        model.focusedProperty().addListener((property, old, now) -> showFocus());
        rebuild(model.rubricProperty().get());
    }

    /** In place of a black picture where a case came without a recording. */
    private Node noPicture() {
        StackPane cover = Ui.styled(
                new StackPane(new EmptyState(
                        Feather.VIDEO_OFF, texts.get("review.noRecording"), texts.get("marking.noRecording.text"))),
                "cover");
        cover.setId("marking-no-recording");
        Ui.showIf(cover, model.desk().recordingProperty().isNull());
        return cover;
    }

    private Node nothing() {
        Button cases =
                Ui.button("marking-go-to-cases", Feather.LIST, texts.get("review.empty.cases"), navigator::toCases);
        cases.getStyleClass().add("accent");
        EmptyState none =
                new EmptyState(Feather.CLIPBOARD, texts.get("marking.empty"), texts.get("marking.empty.text"), cases);
        StackPane cover = Ui.styled(new StackPane(none), "cover");
        cover.visibleProperty().bind(Bindings.isNull(model.current().openedProperty()));
        return cover;
    }

    private FlowPane who() {
        Label as = Ui.label(texts.get("marking.assessor"));
        as.setMinWidth(Region.USE_PREF_SIZE);
        code.setTooltip(new Tooltip(texts.get("marking.assessor.tooltip")));
        if (model.isAssessorFixed()) {
            Ui.fixed(code, texts.get("who.own", code.getText()));
        }
        rubrics.setId("rubric");
        rubrics.setMaxWidth(Double.MAX_VALUE);
        rubrics.setFocusTraversable(false);
        rubrics.setConverter(new StringConverter<>() {
            @Override
            public String toString(@Nullable Rubric rubric) {
                return rubric == null ? "" : rubric.title();
            }

            @Override
            public Rubric fromString(String text) {
                throw new UnsupportedOperationException("chosen, not typed");
            }
        });
        rubrics.setOnAction(event -> {
            Rubric chosen = rubrics.getValue();
            if (chosen != null) {
                model.setRubric(chosen);
            }
        });
        rubrics.setOnHidden(event -> root.requestFocus());
        rubrics.setAccessibleText(Ui.withKey(texts, Shortcut.MARKING_BY));
        model.rubricProperty().addListener((property, old, now) -> {
            rubrics.setValue(now);
            rubrics.setTooltip(
                    now == null
                            ? null
                            : new Tooltip(texts.get("marking.rubric", now.title(), now.version(), now.source())));
        });
        HBox person = new HBox(Ui.STEP, as, code);
        person.setAlignment(Pos.CENTER_LEFT);
        // a title that has no room beside the code stands whole on a line of its own
        FlowPane box = Ui.styled(new FlowPane(Ui.STEP, Ui.STEP, person, rubrics), "padded");
        box.setAlignment(Pos.CENTER_LEFT);
        return box;
    }

    private void chooseRubric() {
        if (!rubrics.getItems().isEmpty()) {
            rubrics.requestFocus();
            rubrics.show();
        }
    }

    private void rebuild(@Nullable Rubric rubric) {
        cards.clear();
        sums.clear();
        items.getChildren().clear();
        if (rubric == null) {
            show();
            return;
        }
        if (!rubric.guidance().isEmpty()) {
            TitledPane guidance =
                    new TitledPane(texts.get("marking.guidance"), Ui.wrapped(rubric.guidance(), "small", "text-muted"));
            guidance.setExpanded(false);
            guidance.setAnimated(false);
            guidance.setFocusTraversable(false);
            guidance.getStyleClass().add("dense");
            items.getChildren().add(guidance);
        }
        for (Rubric.Domain domain : rubric.domains()) {
            Label sum = Ui.label("", "small", "text-muted", "digits");
            sum.setId("domain-sum-" + domain.id());
            sum.setMinWidth(Region.USE_PREF_SIZE);
            sums.put(domain.id(), sum);
            Label title = Ui.wrapped(domain.title(), "domain-title");
            HBox.setHgrow(title, Priority.ALWAYS);
            title.setMaxWidth(Double.MAX_VALUE);
            HBox head = new HBox(Ui.STEP, title, sum);
            head.setAlignment(Pos.BOTTOM_LEFT);
            items.getChildren().add(head);
            for (Rubric.Item item : rubric.items()) {
                if (item.domain().equals(domain.id())) {
                    ItemCard card = new ItemCard(model, texts, rubric, item);
                    cards.add(card);
                    items.getChildren().add(card);
                }
            }
        }
        show();
        showFocus();
    }

    private void show() {
        cards.forEach(ItemCard::show);
        score.show();
        Marks marks = model.marksProperty().get();
        sums.values().forEach(sum -> sum.setText(""));
        if (marks != null) {
            for (Score.DomainScore domain : marks.score().domains()) {
                Label sum = sums.get(domain.domain());
                if (sum != null) {
                    sum.setText(
                            domain.marked() == 0
                                    ? texts.get("marking.domain.none", domain.items())
                                    : texts.get(
                                            "marking.domain",
                                            domain.points(),
                                            domain.maximum(),
                                            domain.marked(),
                                            domain.items()));
                }
            }
        }
    }

    private void showFocus() {
        Rubric.Item focused = model.focusedItem();
        for (ItemCard card : cards) {
            boolean here = card.item().equals(focused);
            card.showFocus(here);
            if (here) {
                bringIntoView(card);
            }
        }
    }

    /** As much of it as there is room for, with its domain's title where that fits too. */
    private void bringIntoView(ItemCard card) {
        Bounds bounds = inPage(card);
        double room = Math.max(0, scroll.getViewportBounds().getHeight() - bounds.getHeight());
        if (!isWhole(bounds)) {
            scrollTo(bounds.getMinY() - Math.min(5 * Ui.STEP, room));
        }
    }

    /** A field that is written in is to be seen. */
    private void writtenIn(@Nullable Node node) {
        if (!(node instanceof TextInputControl) || !isInPage(node)) {
            return;
        }
        // a pane that opens for it has no size yet
        page.applyCss();
        page.layout();
        Bounds bounds = inPage(node);
        if (!isWhole(bounds)) {
            scrollTo(bounds.getMaxY() + 2 * Ui.STEP - scroll.getViewportBounds().getHeight());
        }
    }

    private boolean isInPage(Node node) {
        for (Node up = node; up != null; up = up.getParent()) {
            if (up == page) {
                return true;
            }
        }
        return false;
    }

    private Bounds inPage(Node node) {
        return page.sceneToLocal(node.localToScene(node.getBoundsInLocal()));
    }

    private boolean isWhole(Bounds bounds) {
        double view = scroll.getViewportBounds().getHeight();
        double top = scroll.getVvalue() * Math.max(0, page.getHeight() - view);
        return bounds.getMinY() >= top && bounds.getMaxY() <= top + view;
    }

    private void scrollTo(double top) {
        double hidden = page.getHeight() - scroll.getViewportBounds().getHeight();
        if (hidden > 0) {
            scroll.setVvalue(Math.max(0, Math.min(1, top / hidden)));
        }
    }

    private void askToSign() {
        String why = model.whyNoSigning();
        if (why != null) {
            model.sign();
            return;
        }
        Question.of(
                        "sign",
                        texts.get("sign.title"),
                        texts.get("sign.question", model.assessorProperty().get()),
                        texts.get("sign.yes"),
                        texts.get("sign.no"))
                .ask(stack.getScene().getWindow(), model::sign);
    }

    private void askToAmend() {
        if (model.amendment().isOffered()) {
            new AmendDialog(texts).ask(stack.getScene().getWindow(), model.amendment()::begin);
        } else if (!model.amendment().reason().isEmpty()) {
            Question.of(
                            "give-up",
                            texts.get("giveUp.title"),
                            texts.get("giveUp.question"),
                            texts.get("giveUp.yes"),
                            texts.get("giveUp.no"))
                    .ask(stack.getScene().getWindow(), model.amendment()::giveUp);
        } else {
            model.say(texts.get("amend.nothing"));
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
        model.refresh();
        takeFocus();
    }

    @Override
    public void takeFocus() {
        // nothing can be marked without a code: it is asked for first
        if (model.assessorProperty().get().isEmpty() && !code.isFocused()) {
            if (code.getText().isEmpty()) {
                code.setText(model.suggestedCode());
            }
            code.requestFocus();
            code.selectAll();
        } else {
            root.requestFocus();
        }
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
        if (event.getCode() == KeyCode.TAB && !event.isControlDown() && !event.isAltDown()) {
            model.focus(model.focusedProperty().get() + (event.isShiftDown() ? -1 : 1));
            return true;
        }
        Shortcut shortcut = Shortcut.of(event, Shortcut.Scope.MARKING).orElse(null);
        if (shortcut == null) {
            return keys.handle(event) || markByKey(event);
        }
        Rubric.Item focused = model.focusedItem();
        switch (shortcut) {
            case NEXT_ITEM -> model.focus(model.focusedProperty().get() + 1);
            case PREVIOUS_ITEM -> model.focus(model.focusedProperty().get() - 1);
            case DONE_BY_TRAINER -> model.excuseFocused(NotApplicable.DONE_BY_TRAINER);
            case NOT_VISIBLE -> model.excuseFocused(NotApplicable.NOT_VISIBLE);
            case NOT_PERFORMED -> model.excuseFocused(NotApplicable.NOT_PERFORMED);
            case CLEAR_MARK -> model.clearFocused();
            case NEXT_MISSING -> model.focusNextMissing();
            case OVERALL -> score.editOverall();
            case ACTIONS -> score.editActions();
            case MARKING_AS -> code.requestFocus();
            case MARKING_BY -> chooseRubric();
            case SIGN -> askToSign();
            case AMEND -> askToAmend();
            case COMMENT -> editFocused();
            case EVIDENCE -> {
                if (focused != null) {
                    model.toggleEvidence(focused);
                }
            }
            case JUMP -> {
                if (focused != null) {
                    model.jump(focused);
                }
            }
            default -> throw new IllegalStateException("not a marking key: " + shortcut);
        }
        return true;
    }

    private void editFocused() {
        String why = model.whyNoComment();
        if (why != null) {
            model.say(why);
            return;
        }
        Rubric.Item focused = model.focusedItem();
        cards.stream()
                .filter(card -> Objects.equals(card.item(), focused))
                .findFirst()
                .ifPresent(ItemCard::edit);
    }

    private boolean markByKey(KeyEvent event) {
        boolean digit =
                event.getCode().isDigitKey() && !event.isControlDown() && !event.isAltDown() && !event.isMetaDown();
        if (!digit) {
            return false;
        }
        String name = event.getCode().getName();
        return model.markFocused(Integer.parseInt(name.substring(name.length() - 1)));
    }
}
