package org.sideport.app.picture;

import javafx.animation.AnimationTimer;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.value.ChangeListener;
import javafx.geometry.Bounds;
import javafx.scene.control.Label;
import javafx.scene.control.ProgressBar;
import javafx.scene.image.Image;
import javafx.scene.image.ImageView;
import javafx.scene.input.ScrollEvent;
import javafx.scene.input.ZoomEvent;
import javafx.scene.layout.Region;
import javafx.scene.layout.VBox;
import javafx.scene.shape.Rectangle;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Texts;
import org.sideport.app.Ui;
import org.sideport.media.FramePicture;
import org.sideport.player.PictureSurface;
import org.sideport.player.VideoPlayer;
import org.sideport.player.VlcPlayer;

/** The picture, as large as there is room for, in its true shape. */
public final class PictureView extends Region {

    private static final double CLOSEST = 8;
    private static final double WHEEL = 1.25;
    private static final double WHEEL_STEP = 40;

    private final ImageView exact = new ImageView();
    private final ImageView live = new ImageView();
    private final LiveCover covered;
    private final VBox opening;
    private double aspect = 16.0 / 9.0;
    private final ChangeListener<@Nullable Image> surfaceListener = (property, old, now) -> live.setImage(now);
    private @Nullable PictureSurface surface;
    private final AnimationTimer follow;
    private final Rectangle clip = new Rectangle();
    private double closeness = 1;
    private double offX;
    private double offY;
    private double dragX;
    private double dragY;

    public PictureView(PictureDesk desk, Texts texts) {
        getStyleClass().add("picture");
        setId("picture");
        setMinSize(160, 120);
        exact.setSmooth(true);
        live.setSmooth(true);
        ProgressBar bar = new ProgressBar();
        bar.setPrefWidth(240);
        bar.progressProperty().bind(desk.openingProperty());
        Label word = Ui.label(texts.get("picture.opening"), "text-muted");
        opening = Ui.styled(new VBox(Ui.STEP, word, bar), "picture-opening");
        covered = new LiveCover(desk);
        getChildren().addAll(exact, live, covered, opening);
        live.visibleProperty().bind(desk.liveProperty());
        desk.shownProperty().addListener((property, old, now) -> show(now));
        desk.openingProperty()
                .addListener((property, old, now) -> opening.setVisible(!Double.isNaN(now.doubleValue())));
        opening.setVisible(!Double.isNaN(desk.openingProperty().get()));
        desk.playerProperty().addListener((property, old, now) -> follow(now));
        follow(desk.playerProperty().get());
        show(desk.shownProperty().get());
        follow = new AnimationTimer() {
            @Override
            public void handle(long now) {
                desk.tick();
            }
        };
        desk.playingProperty().addListener((property, old, now) -> runTimer(desk));
        sceneProperty().addListener((property, old, now) -> runTimer(desk));
        clip.widthProperty().bind(widthProperty());
        clip.heightProperty().bind(heightProperty());
        setClip(clip);
        setOnMouseClicked(event -> {
            if (event.isStillSincePress()) {
                desk.playOrPause();
            }
        });
        setOnMousePressed(event -> {
            dragX = event.getX();
            dragY = event.getY();
        });
        setOnMouseDragged(event -> {
            move(event.getX() - dragX, event.getY() - dragY);
            dragX = event.getX();
            dragY = event.getY();
        });
        setOnScroll(this::scrolled);
        setOnZoom(this::pinched);
    }

    // ---- closer and wider

    /** Closer (above 1) or wider (below 1), about the middle of the view. */
    public void zoom(double factor) {
        zoom(factor, getWidth() / 2, getHeight() / 2);
    }

    /** The whole picture again. */
    public void showWhole() {
        closeness = 1;
        offX = 0;
        offY = 0;
        requestLayout();
    }

    /** How much closer than the whole picture, 1 or above. */
    public double closeness() {
        return closeness;
    }

    /** Two fingers, or the wheel: with Ctrl closer and wider, else along the picture where it is closer. */
    void scrolled(ScrollEvent event) {
        if (event.isShortcutDown() && event.getDeltaY() != 0) {
            zoom(Math.pow(WHEEL, event.getDeltaY() / WHEEL_STEP), event.getX(), event.getY());
            event.consume();
        } else if (closeness > 1) {
            move(event.getDeltaX(), event.getDeltaY());
            event.consume();
        }
    }

    /** Two fingers apart or together. */
    void pinched(ZoomEvent event) {
        zoom(event.getZoomFactor(), event.getX(), event.getY());
        event.consume();
    }

    /** What is under the point stays there. */
    private void zoom(double factor, double x, double y) {
        double wanted = Math.max(1, Math.min(CLOSEST, closeness * factor));
        double ratio = wanted / closeness;
        double fromMiddleX = x - getWidth() / 2;
        double fromMiddleY = y - getHeight() / 2;
        offX = fromMiddleX - (fromMiddleX - offX) * ratio;
        offY = fromMiddleY - (fromMiddleY - offY) * ratio;
        closeness = wanted;
        move(0, 0);
    }

    /** Moves the picture, without letting it leave the view. */
    private void move(double x, double y) {
        double fit = Math.min(getWidth(), getHeight() * aspect);
        double roomX = Math.max(0, (fit * closeness - getWidth()) / 2);
        double roomY = Math.max(0, (fit / aspect * closeness - getHeight()) / 2);
        offX = Math.max(-roomX, Math.min(roomX, offX + x));
        offY = Math.max(-roomY, Math.min(roomY, offY + y));
        requestLayout();
    }

    /** Where the picture lies within this view, however it is fitted or moved. */
    public ReadOnlyObjectProperty<Bounds> areaProperty() {
        return exact.boundsInParentProperty();
    }

    private void runTimer(PictureDesk desk) {
        if (desk.playingProperty().get() && getScene() != null) {
            follow.start();
        } else {
            follow.stop();
        }
    }

    private void follow(VideoPlayer player) {
        if (surface != null) {
            surface.imageProperty().removeListener(surfaceListener);
        }
        surface = player instanceof VlcPlayer vlc ? vlc.surface() : null;
        if (surface != null) {
            surface.imageProperty().addListener(surfaceListener);
        }
    }

    private void show(@Nullable ShownFrame shown) {
        if (shown == null) {
            exact.setImage(null);
            live.setImage(null);
            return;
        }
        FramePicture picture = shown.picture();
        exact.setImage(FrameImage.of(picture));
        if (picture.displayAspect() != aspect) {
            aspect = picture.displayAspect();
            requestLayout();
        }
    }

    @Override
    protected void layoutChildren() {
        double width = getWidth();
        double height = getHeight();
        double fitWidth = Math.min(width, height * aspect) * closeness;
        double fitHeight = fitWidth / aspect;
        for (ImageView view : new ImageView[] {exact, live}) {
            view.setFitWidth(fitWidth);
            view.setFitHeight(fitHeight);
            view.relocate(Math.rint((width - fitWidth) / 2 + offX), Math.rint((height - fitHeight) / 2 + offY));
        }
        covered.resizeRelocate(live.getLayoutX(), live.getLayoutY(), fitWidth, fitHeight);
        double openWidth = Math.min(width, 280);
        opening.resizeRelocate((width - openWidth) / 2, height / 2 - 32, openWidth, 64);
    }

    @Override
    protected double computePrefWidth(double height) {
        return 960;
    }

    @Override
    protected double computePrefHeight(double width) {
        return 540;
    }
}
