package org.sideport.media;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.concurrent.locks.ReentrantLock;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Recording;
import org.sideport.model.Segment;

/**
 * The exact frames of a recording on its one timeline, across the borders of its files. Thread-confined; must be closed.
 *
 * <p>Who steps gets the next frames of his direction made ready in the background, going back the whole group of
 * pictures before. Decoded frames kept for that take at most 192 MB of native memory for each of at most three files open
 * at a time, pictures made ready 64 MB; all is freed when closed.
 *
 * <p>Times come from the files as they are now, so that a picture and its time always belong together.
 */
public final class RecordingFrames implements AutoCloseable {

    private final List<Path> files;
    private final List<FrameIndex> indexes;
    private final long[] startUs;
    private final long[] firstNumber;
    private final @Nullable SegmentDecoder[] decoders;
    /** Fair, so that who waits for a picture comes before more is made ready. */
    private final ReentrantLock decoding = new ReentrantLock(true);

    private final ReadAhead ahead = new ReadAhead(this);

    private RecordingFrames(List<Path> files, List<FrameIndex> indexes) {
        this.files = List.copyOf(files);
        this.indexes = List.copyOf(indexes);
        this.startUs = new long[indexes.size() + 1];
        this.firstNumber = new long[indexes.size() + 1];
        for (int i = 0; i < indexes.size(); i++) {
            startUs[i + 1] = startUs[i] + indexes.get(i).durationUs();
            firstNumber[i + 1] = firstNumber[i] + indexes.get(i).size();
        }
        this.decoders = new SegmentDecoder[indexes.size()];
    }

    /**
     * Reads the frame times of all segments.
     *
     * @throws MediaException if a file is missing or cannot be read
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     */
    public static RecordingFrames open(Recording recording, Progress progress) {
        return open(recording.segments().stream().map(Segment::file).toList(), progress);
    }

    /** As {@link #open(Recording, Progress)}, with frame times kept from before where the cache has them. */
    public static RecordingFrames open(Recording recording, FrameIndexCache cache, Progress progress) {
        return open(recording.segments().stream().map(Segment::file).toList(), cache, progress);
    }

    /** As {@link #open(Recording, Progress)}, for the files of one recording in order. */
    public static RecordingFrames open(List<Path> files, Progress progress) {
        return open(files, null, progress);
    }

    /**
     * As {@link #open(List, Progress)}, with frame times that were read before.
     *
     * @param cache {@code null} to read them anew
     */
    public static RecordingFrames open(List<Path> files, @Nullable FrameIndexCache cache, Progress progress) {
        return new RecordingFrames(files, SegmentIndexes.of(files, cache, progress));
    }

    /**
     * The first picture of a recording, before its frame times are known: reads the file's head and the first pictures
     * only, so that it comes quickly from a slow drive too.
     *
     * @param file the recording's first
     * @throws MediaException if it is missing or nothing can be decoded
     */
    public static FramePicture firstPicture(Path file, Rendering rendering) {
        return SegmentDecoder.firstPicture(file, rendering);
    }

    public long frameCount() {
        return firstNumber[indexes.size()];
    }

    public MediaTime duration() {
        return MediaTime.ofMicros(startUs[indexes.size()]);
    }

    /** The frame on the screen at {@code time}: the last one that starts at or before it. */
    public FrameRef frameAt(MediaTime time) {
        int segment = segmentOf(startUs, time.micros());
        return ref(segment, indexes.get(segment).at(time.micros() - startUs[segment]));
    }

    /**
     * @throws IndexOutOfBoundsException if {@code number} is not in 0 to {@link #frameCount()}, exclusive
     */
    public FrameRef frame(long number) {
        if (number < 0 || number >= frameCount()) {
            throw new IndexOutOfBoundsException("frame " + number + " of " + frameCount());
        }
        int segment = segmentOf(firstNumber, number);
        return ref(segment, (int) (number - firstNumber[segment]));
    }

    public @Nullable FrameRef next(FrameRef frame) {
        return frame.number() + 1 < frameCount() ? frame(frame.number() + 1) : null;
    }

    public @Nullable FrameRef previous(FrameRef frame) {
        return frame.number() > 0 ? frame(frame.number() - 1) : null;
    }

    /** As {@link #picture(FrameRef, Rendering)}, in full. */
    public FramePicture picture(FrameRef frame) {
        return picture(frame, Rendering.FULL);
    }

    /**
     * @throws MediaException if the picture cannot be decoded; with the reason {@link MediaException.Reason#LOST} asking
     *     again once the file can be reached works
     */
    public FramePicture picture(FrameRef frame, Rendering rendering) {
        FramePicture ready = ahead.take(frame.number(), rendering);
        int direction = ahead.asked(frame.number(), rendering);
        if (ready != null) {
            return ready;
        }
        decoding.lock();
        try {
            boolean fresh = decoders[frame.segment()] == null;
            try {
                return decoded(frame, rendering, direction);
            } catch (MediaException e) {
                // a drive that was away and is back wants the file opened anew
                if (fresh || e.reason() != MediaException.Reason.LOST) {
                    throw e;
                }
                return decoded(frame, rendering, direction);
            }
        } finally {
            decoding.unlock();
        }
    }

    private FramePicture decoded(FrameRef frame, Rendering rendering, int direction) {
        try {
            SegmentDecoder decoder = decoder(frame.segment());
            decoder.focus(frame.index(), direction);
            return decoder.picture(frame.index(), rendering);
        } catch (MediaException e) {
            forget(frame.segment());
            throw e;
        }
    }

    /** The first frame of the group of pictures in which this one is. */
    long groupStart(long number) {
        int segment = segmentOf(firstNumber, number);
        int index = (int) (number - firstNumber[segment]);
        return firstNumber[segment] + indexes.get(segment).groupStart(index);
    }

    /** Guards the decoders. */
    ReentrantLock decoding() {
        return decoding;
    }

    private static int segmentOf(long[] starts, long value) {
        int found = Arrays.binarySearch(starts, 0, starts.length - 1, value);
        return found >= 0 ? found : Math.max(0, -found - 2);
    }

    private FrameRef ref(int segment, int index) {
        FrameIndex frames = indexes.get(segment);
        return new FrameRef(
                segment,
                index,
                firstNumber[segment] + index,
                MediaTime.ofMicros(startUs[segment] + frames.startUs(index)),
                MediaTime.ofMicros(startUs[segment] + frames.startUs(index + 1)));
    }

    /** The next picture opens the file anew. */
    private void forget(int segment) {
        SegmentDecoder decoder = decoders[segment];
        if (decoder != null) {
            decoder.close();
            decoders[segment] = null;
        }
    }

    /** Opens the decoder of a segment and closes those far away: native memory is for the neighbourhood only. */
    SegmentDecoder decoder(int segment) {
        for (int i = 0; i < decoders.length; i++) {
            if (Math.abs(i - segment) > 1) {
                forget(i);
            }
        }
        SegmentDecoder decoder = decoders[segment];
        if (decoder == null) {
            decoder = SegmentDecoder.open(files.get(segment), indexes.get(segment));
            decoders[segment] = decoder;
        }
        return decoder;
    }

    @Override
    public void close() {
        ahead.close();
        for (int i = 0; i < decoders.length; i++) {
            forget(i);
        }
    }
}
