package org.sideport.app.picture;

import javafx.geometry.Bounds;
import javafx.scene.layout.Region;
import javafx.scene.shape.Rectangle;

/** A picture with see-through layers that lie exactly on it, however it is fitted or moved. */
public final class LayeredPicture extends Region {

    private final PictureView picture;
    private final Region[] layers;

    /** @param layers from below to above */
    public LayeredPicture(PictureView picture, Region... layers) {
        this.picture = picture;
        this.layers = layers.clone();
        getChildren().add(picture);
        getChildren().addAll(layers);
        setMinSize(160, 120);
        // the layers are larger than the view when the picture is looked at closely, and take the fingers first
        Rectangle clip = new Rectangle();
        clip.widthProperty().bind(widthProperty());
        clip.heightProperty().bind(heightProperty());
        setClip(clip);
        setOnScroll(picture::scrolled);
        setOnZoom(picture::pinched);
        picture.areaProperty().addListener((property, old, now) -> place());
    }

    @Override
    protected void layoutChildren() {
        picture.resizeRelocate(0, 0, getWidth(), getHeight());
        place();
    }

    private void place() {
        Bounds area = picture.areaProperty().get();
        for (Region layer : layers) {
            layer.resizeRelocate(
                    area.getMinX(), area.getMinY(), Math.max(0, area.getWidth()), Math.max(0, area.getHeight()));
        }
    }

    @Override
    protected double computePrefWidth(double height) {
        return picture.prefWidth(height);
    }

    @Override
    protected double computePrefHeight(double width) {
        return picture.prefHeight(width);
    }
}
