package org.sideport.app.picture;

import java.nio.ByteBuffer;
import javafx.scene.image.Image;
import javafx.scene.image.PixelBuffer;
import javafx.scene.image.PixelFormat;
import javafx.scene.image.WritableImage;
import org.sideport.media.FramePicture;

/** A decoded picture for the screen, on its own bytes. */
public final class FrameImage {

    private FrameImage() {}

    public static Image of(FramePicture picture) {
        return new WritableImage(new PixelBuffer<>(
                picture.width(),
                picture.height(),
                ByteBuffer.wrap(picture.bgra()),
                PixelFormat.getByteBgraPreInstance()));
    }
}
