package org.sideport.app.review;

import java.util.List;
import javafx.beans.binding.Bindings;
import javafx.scene.Node;
import javafx.scene.control.Tab;
import javafx.scene.input.KeyCode;
import javafx.scene.input.KeyEvent;
import org.sideport.app.Shortcut;
import org.sideport.app.Texts;
import org.sideport.app.comment.CommentsPane;
import org.sideport.app.comment.CommentsViewModel;
import org.sideport.app.comment.DrawingLayer;
import org.sideport.app.measure.MeasureLayer;
import org.sideport.app.measure.MeasurePane;
import org.sideport.app.measure.MeasureViewModel;
import org.sideport.app.picture.LayeredPicture;
import org.sideport.app.picture.PictureView;
import org.sideport.model.MeasuredShape;

/** What is put on the picture in Review: comments with their drawings, and measurements. */
public final class PictureTools {

    private final CommentsViewModel comments;
    private final MeasureViewModel measuring;
    private final Texts texts;
    private final Tab commentsTab;
    private final Tab measureTab;

    public PictureTools(CommentsViewModel comments, MeasureViewModel measuring, Texts texts) {
        this.comments = comments;
        this.measuring = measuring;
        this.texts = texts;
        commentsTab = new Tab("", new CommentsPane(comments, texts));
        commentsTab.setId("tab-comments");
        commentsTab
                .textProperty()
                .bind(Bindings.createStringBinding(
                        () -> texts.get(
                                "review.tab.comments", comments.unreadProperty().get()),
                        comments.unreadProperty()));
        measureTab = new Tab(texts.get("review.tab.measure"), new MeasurePane(measuring, texts));
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
        return new LayeredPicture(picture, new DrawingLayer(comments, texts), new MeasureLayer(measuring));
    }

    List<Tab> tabs() {
        return List.of(commentsTab, measureTab);
    }

    /** @return true if the key meant something here */
    boolean handle(KeyEvent event) {
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
}
