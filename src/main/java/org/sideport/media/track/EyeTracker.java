package org.sideport.media.track;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import org.jspecify.annotations.Nullable;
import org.sideport.media.FrameSweep;
import org.sideport.media.SmallPicture;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;

/** Finds the eye at even moments of a recording, in one pass. Each moment is looked at by itself. */
public final class EyeTracker {

    public static final double LEAST_HZ = 0.05;
    public static final double MOST_HZ = 30;

    private EyeTracker() {}

    /**
     * @param files of one recording in order
     * @param hz moments a second, {@link #LEAST_HZ} to {@link #MOST_HZ}
     * @param to exclusive; beyond the end means the end
     * @throws InputException if the stretch is empty or {@code hz} is out of range
     * @throws org.sideport.media.MediaException if a file is missing or cannot be decoded
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static EyeTrack track(List<Path> files, double hz, MediaTime from, MediaTime to, Progress progress) {
        if (!(hz >= LEAST_HZ && hz <= MOST_HZ)) {
            throw new InputException(
                    hz + " moments a second cannot be looked at", "--hz", "choose a number from 0.05 to 30");
        }
        Collector collector = new Collector();
        long end = FrameSweep.sweep(files, from, to, Math.round(1e6 / hz), EyeFinder.WIDTH, collector, progress);
        FrameSweep.Scale scale = collector.scale;
        if (scale == null) {
            throw new InputException(
                    "no frame is shown from " + from + " to " + to, files.get(0).toString(), "choose a longer stretch");
        }
        return new EyeTrack(scale, end, collector.samples);
    }

    private static final class Collector implements FrameSweep.Visitor {

        private final List<EyeSample> samples = new ArrayList<>();
        private FrameSweep.@Nullable Scale scale;

        @Override
        public boolean frame(
                FrameSweep.Scale pictureScale, long frame, long startUs, long momentUs, SmallPicture picture) {
            scale = pictureScale;
            samples.add(new EyeSample(momentUs, EyeFinder.find(picture, pictureScale)));
            return true;
        }
    }
}
