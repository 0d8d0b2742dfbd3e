package org.sideport.demo;

import java.util.List;
import org.sideport.model.MediaTime;

/**
 * When each frame of a recording of constant rate is shown, over all its files.
 *
 * @param num frames per second, numerator
 * @param den frames per second, denominator
 * @param fileFrames number of frames in each file, in order
 */
public record FrameClock(int num, int den, List<Integer> fileFrames) {

    public FrameClock {
        fileFrames = List.copyOf(fileFrames);
    }

    public int frames() {
        return fileFrames.stream().mapToInt(Integer::intValue).sum();
    }

    /**
     * The start of a frame: within its file {@code n * den / num} seconds rounded to a microsecond, after the lengths
     * of the files before it, each rounded alike.
     *
     * @param frame number in the recording from 0; the number of frames gives the end of the recording
     */
    public MediaTime at(int frame) {
        long before = 0;
        int left = frame;
        for (int i = 0; i < fileFrames.size(); i++) {
            int here = fileFrames.get(i);
            if (left < here || i == fileFrames.size() - 1) {
                break;
            }
            before += micros(here);
            left -= here;
        }
        return MediaTime.ofMicros(before + micros(left));
    }

    public MediaTime duration() {
        return at(frames());
    }

    double seconds(int frame) {
        return frame * (double) den / num;
    }

    /** The frame number nearest to so many seconds. */
    int frames(double seconds) {
        return (int) Math.round(seconds * num / den);
    }

    private long micros(int frame) {
        return Math.round(frame * 1e6 * den / num);
    }
}
