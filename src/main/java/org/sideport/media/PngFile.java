package org.sideport.media;

import java.awt.Transparency;
import java.awt.color.ColorSpace;
import java.awt.image.BufferedImage;
import java.awt.image.ComponentColorModel;
import java.awt.image.DataBuffer;
import java.awt.image.DataBufferByte;
import java.awt.image.Raster;
import java.awt.image.WritableRaster;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import javax.imageio.ImageIO;
import org.sideport.model.InputException;

/** Writes stills. */
public final class PngFile {

    private PngFile() {}

    /**
     * Writes the coded pixels of a picture without alpha, whole or not at all.
     *
     * @throws InputException if the place cannot be written
     */
    public static void write(FramePicture picture, Path out) {
        int[] offsets = {2, 1, 0};
        WritableRaster raster = Raster.createInterleavedRaster(
                new DataBufferByte(picture.bgra(), picture.bgra().length),
                picture.width(),
                picture.height(),
                picture.width() * 4,
                4,
                offsets,
                null);
        ComponentColorModel colours = new ComponentColorModel(
                ColorSpace.getInstance(ColorSpace.CS_sRGB), false, false, Transparency.OPAQUE, DataBuffer.TYPE_BYTE);
        BufferedImage image = new BufferedImage(colours, raster, false, null);
        Path target = out.toAbsolutePath();
        Path folder = target.getParent();
        try {
            Path part = Files.createTempFile(folder, ".sideport-", ".png");
            try {
                if (!ImageIO.write(image, "png", part.toFile())) {
                    throw new IllegalStateException("this Java cannot write PNG files");
                }
                Files.move(part, target, StandardCopyOption.REPLACE_EXISTING);
            } finally {
                Files.deleteIfExists(part);
            }
        } catch (IOException e) {
            throw new InputException(
                    "the picture cannot be written: " + e.getMessage(),
                    out.toString(),
                    "choose a folder that exists and may be written to",
                    e);
        }
    }
}
