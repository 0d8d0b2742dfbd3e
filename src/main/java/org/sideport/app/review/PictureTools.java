package org.sideport.app.review;

import java.util.List;
import java.util.Set;
import javafx.beans.binding.Bindings;
import javafx.collections.FXCollections;
import javafx.collections.ObservableList;
import javafx.event.EventHandler;
import javafx.scene.Node;
import javafx.scene.control.ScrollPane;
import javafx.scene.control.Tab;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import javafx.scene.layout.BorderPane;
import javafx.scene.layout.Priority;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.app.comment.CommentLane;
import org.sideport.app.comment.CommentsPane;
import org.sideport.app.comment.CommentsViewModel;
import org.sideport.app.comment.DrawingLayer;
import org.sideport.app.measure.MeasureLayer;
import org.sideport.app.measure.MeasurePane;
import org.sideport.app.measure.MeasureViewModel;
import org.sideport.app.picture.LayeredPicture;
import org.sideport.app.picture.PictureView;
import org.sideport.app.timeline.Lane;
import org.sideport.app.voice.SpeakRow;
import org.sideport.app.voice.SpokenPart;
import org.sideport.app.voice.SpokenViewModel;
import org.sideport.app.voice.VoiceBar;
import org.sideport.app.voice.VoiceLanes;
import org.sideport.model.MeasuredShape;

/** What is put on the picture in Review: comments with their drawings, and measurements. */
public final class PictureTools {

    private final CommentsViewModel comments;
    private final MeasureViewModel measuring;
    private final SpokenViewModel spoken;
    private final Texts texts;
    private final Tab commentsTab;
    private final Tab measureTab;
    private final ObservableList<Lane> lanes = FXCollections.observableArrayList();
    private final EventHandler<KeyEvent> releasing = this::released;
    private boolean speakHeld;

    public PictureTools(
            CommentsViewModel comments,
            MeasureViewModel measuring,
            SpokenViewModel spoken,
            VoiceLanes voiceLanes,
            Texts texts) {
        this.comments = comments;
        this.measuring = measuring;
        this.spoken = spoken;
        this.texts = texts;
        CommentsPane pane = new CommentsPane(comments, texts, comment -> new SpokenPart(spoken, texts, comment));
        VBox.setVgrow(pane, Priority.ALWAYS);
        // on a small screen with large letters, what is written is reached by scrolling
        ScrollPane scroll = Ui.styled(new ScrollPane(new VBox(new SpeakRow(spoken, texts), pane)), "edge-to-edge");
        scroll.setFitToWidth(true);
        scroll.setFitToHeight(true);
        scroll.setFocusTraversable(false);
        commentsTab = new Tab("", scroll);
        commentsTab.setId("tab-comments");
        CommentLane.keep(comments.all(), voiceLanes.lanes(), lanes, texts);
        commentsTab
                .textProperty()
                .bind(Bindings.createStringBinding(
                        () -> texts.get(
                                "review.tab.comments", comments.unreadProperty().get()),
                        comments.unreadProperty()));
        measureTab = new Tab(texts.get("review.tab.measure"), low(new MeasurePane(measuring, texts)));
        measureTab.setId("tab-measure");
        measureTab.selectedProperty().addListener((property, old, now) -> {
            measuring.showingProperty().set(now);
            if (!now) {
                measuring.cancel();
            }
        });
        comments.draftProperty().addListener((property, old, now) -> {
            if (now != null) {
                select(commentsTab);
            }
        });
    }

    void showComments() {
        select(commentsTab);
    }

    private static void select(Tab tab) {
        if (tab.getTabPane() != null) {
            tab.getTabPane().getSelectionModel().select(tab);
        }
    }

    /** The comments of who is at work. */
    public CommentsViewModel comments() {
        return comments;
    }

    /** The picture with the layers on it. */
    Node over(PictureView picture) {
        LayeredPicture layered = new LayeredPicture(
                picture, new DrawingLayer(comments, spoken.live(), texts), new MeasureLayer(measuring));
        layered.sceneProperty().addListener((property, old, now) -> {
            if (old != null) {
                old.removeEventFilter(KeyEvent.KEY_RELEASED, releasing);
            }
            if (now != null) {
                now.addEventFilter(KeyEvent.KEY_RELEASED, releasing);
            }
        });
        return new BorderPane(layered, new VoiceBar(spoken, texts), null, null, null);
    }

    /** The comments, written and spoken, as lanes of the timeline, kept up to date. */
    ObservableList<Lane> voices() {
        return lanes;
    }

    /** Something on the timeline was selected: a voice is heard, a written comment is read. */
    void selected(Set<Object> keys) {
        if (keys.size() == 1 && keys.iterator().next() instanceof CommentLane.Written written) {
            comments.go(written.thread());
        }
        if (keys.size() == 1 && keys.iterator().next() instanceof VoiceLanes.Spoken voice) {
            spoken.play(voice.comment());
        }
    }

    List<Tab> tabs() {
        return List.of(commentsTab, measureTab);
    }

    /** @return true if the key meant something here */
    boolean handle(KeyEvent event) {
        if (handleSpoken(event)) {
            return true;
        }
        if (event.getCode() == KeyCode.ESCAPE) {
            return measuring.cancel() || comments.end();
        }
        if (measuring.shapeProperty().get() != null) {
            if (event.getCode() == KeyCode.ENTER) {
                measuring.finish();
                return true;
            }
            if (event.getCode() == KeyCode.BACK_SPACE) {
                measuring.removeLast();
                return true;
            }
        }
        Shortcut shortcut = Shortcut.of(event, Shortcut.Scope.REVIEW).orElse(null);
        if (shortcut == Shortcut.COMMENT_HERE) {
            select(commentsTab);
            comments.begin();
            return true;
        }
        if (shortcut == Shortcut.MEASURE_HERE) {
            select(measureTab);
            measuring.begin(measuring.scaleProperty().get() == null ? MeasuredShape.LIMBUS : MeasuredShape.RHEXIS);
            return true;
        }
        if (measureTab.isSelected() && shortcut == Shortcut.UNDO) {
            measuring.putBack();
            return true;
        }
        if (commentsTab.isSelected() && shortcut == Shortcut.UNDO) {
            comments.undo();
            return true;
        }
        if (commentsTab.isSelected() && shortcut == Shortcut.REDO) {
            comments.redo();
            return true;
        }
        return false;
    }

    private boolean handleSpoken(KeyEvent event) {
        if (event.getCode().isModifierKey()) {
            return false;
        }
        Shortcut shortcut = Shortcut.of(event, Shortcut.Scope.REVIEW).orElse(null);
        SpokenViewModel.State state = spoken.stateProperty().get();
        if (shortcut == Shortcut.SPEAK) {
            if (!speakHeld) {
                speakHeld = true;
                select(commentsTab);
                spoken.press();
            }
            return true;
        }
        if (state == SpokenViewModel.State.PLAYING) {
            return spoken.end();
        }
        if (state == SpokenViewModel.State.RECORDING) {
            if (event.getCode() == KeyCode.ESCAPE) {
                spoken.discard();
                return true;
            }
            // while one speaks, undo is for what has been drawn meanwhile
            if (shortcut == Shortcut.UNDO) {
                spoken.undrawLast();
                return true;
            }
            return false;
        }
        return shortcut == Shortcut.UNDO && spoken.bringBack();
    }

    /** The key that is held while speaking comes up, wherever the keyboard's focus is. */
    private void released(KeyEvent event) {
        if (speakHeld && event.getCode() == KeyCode.F6) {
            speakHeld = false;
            spoken.release();
        }
    }

    /** Moves up and down as a whole where the window is too low for it. */
    private static ScrollPane low(Region pane) {
        ScrollPane whole = Ui.styled(new ScrollPane(pane), "edge-to-edge");
        whole.setFitToWidth(true);
        whole.setFitToHeight(true);
        whole.setFocusTraversable(false);
        return whole;
    }
}
