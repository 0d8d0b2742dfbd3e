package org.sideport.media;

/**
 * What an encoded file is to be.
 *
 * @param width coded pixels, even
 * @param height coded pixels, even
 * @param sampleAspectNum width of one pixel, as a ratio to its height
 * @param sampleAspectDen height of one pixel
 * @param timescale ticks per second: the unit of every presentation time
 * @param frameTicks usual length of a frame, ticks; also the length of the last one
 * @param quality x264's constant rate factor: 18 hardly differs from the source, 28 is coarse
 * @param keyFrameEvery most frames from one key frame to the next
 * @param audioRate samples per second of the mono sound, or 0 for a silent file
 */
public record VideoOptions(
        int width,
        int height,
        int sampleAspectNum,
        int sampleAspectDen,
        int timescale,
        int frameTicks,
        int quality,
        int keyFrameEvery,
        int audioRate) {

    public VideoOptions {
        if (width < 16 || height < 16 || width % 2 != 0 || height % 2 != 0) {
            throw new IllegalArgumentException(
                    "width and height must be even and at least 16: " + width + "x" + height);
        }
        if (sampleAspectNum < 1 || sampleAspectDen < 1 || timescale < 1 || frameTicks < 1 || keyFrameEvery < 1) {
            throw new IllegalArgumentException("pixel shape, time scale and frame distances must be positive");
        }
        if (quality < 0 || quality > 51 || audioRate < 0) {
            throw new IllegalArgumentException("quality must lie in 0 to 51 and the audio rate must not be negative");
        }
    }

    /** Square pixels, silent, a key frame about every three seconds. */
    public static VideoOptions silent(int width, int height, int timescale, int frameTicks, int quality) {
        int threeSeconds = Math.max(1, 3 * timescale / frameTicks);
        return new VideoOptions(width, height, 1, 1, timescale, frameTicks, quality, threeSeconds, 0);
    }

    public VideoOptions withSampleAspect(int num, int den) {
        return new VideoOptions(width, height, num, den, timescale, frameTicks, quality, keyFrameEvery, audioRate);
    }

    public VideoOptions withAudioRate(int samplesPerSecond) {
        return new VideoOptions(
                width,
                height,
                sampleAspectNum,
                sampleAspectDen,
                timescale,
                frameTicks,
                quality,
                keyFrameEvery,
                samplesPerSecond);
    }

    public VideoOptions withKeyFrameEvery(int frames) {
        return new VideoOptions(
                width, height, sampleAspectNum, sampleAspectDen, timescale, frameTicks, quality, frames, audioRate);
    }
}
