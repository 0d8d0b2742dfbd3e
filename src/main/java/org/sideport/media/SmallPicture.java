package org.sideport.media;

/**
 * A decoded picture made small for measuring: brightness and colour difference of each pixel, row by row, as coded in
 * video range (ITU-R BT.601/709, 8 bits: brightness 16 to 235, colour differences 16 to 240 around 128).
 *
 * @param width pixels
 * @param height pixels
 * @param luma brightness, {@code width * height} bytes without sign; not to be changed
 * @param cb blue difference, as many bytes; not to be changed
 * @param cr red difference, as many bytes; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent") // pixel data is compared by nobody and copied by nobody
public record SmallPicture(int width, int height, byte[] luma, byte[] cb, byte[] cr) {

    public SmallPicture {
        int size = width * height;
        if (width < 1 || height < 1 || luma.length != size || cb.length != size || cr.length != size) {
            throw new IllegalArgumentException("three planes of " + width + "x" + height + " pixels are needed");
        }
    }
}
