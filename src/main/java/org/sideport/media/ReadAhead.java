package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;

import java.util.HashMap;
import java.util.Map;
import java.util.concurrent.locks.ReentrantLock;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;

/**
 * Makes the next pictures ready in the background, in the direction in which the user steps. Going back it also decodes
 * the group of pictures before in good time. Its thread starts with the first step. Must be closed.
 */
final class ReadAhead implements AutoCloseable {

    /** For pictures made ready. */
    private static final long READY_BYTES = 64L << 20;

    private static final int MOST_READY = 6;

    /** So many frames before the first of its group is reached, the group before it is decoded. */
    private static final int GROUP_IN_TIME = 25;

    private static final long NOTHING = -1;

    private final RecordingFrames frames;
    private final Map<Long, FramePicture> ready = new HashMap<>();
    private Rendering rendering = Rendering.FULL;
    private long last = NOTHING;
    private int direction;
    private long inWork = NOTHING;
    /** The border of groups before which was decoded already. */
    private long groupDone = NOTHING;

    private boolean idle;
    private boolean closed;
    private @Nullable Thread worker;

    ReadAhead(RecordingFrames frames) {
        this.frames = frames;
    }

    /** A picture made ready, waiting for it if it is being made just now; {@code null} if there is none. */
    synchronized @Nullable FramePicture take(long number, Rendering wanted) {
        boolean interrupted = false;
        while (inWork == number && wanted.equals(rendering) && !closed) {
            try {
                wait();
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
        return wanted.equals(rendering) ? ready.get(number) : null;
    }

    /**
     * Hears what is asked for, and makes ready what may be next.
     *
     * @return 1 if the user steps forward, -1 if back, 0 if neither
     */
    synchronized int asked(long number, Rendering wanted) {
        // the same frame after its draft: here he rests, and may step on
        boolean rests = number == last && !wanted.equals(rendering) && !wanted.isDraft();
        if (!wanted.equals(rendering)) {
            ready.clear();
            rendering = wanted;
        }
        if (Math.abs(number - last) == 1 && last != NOTHING) {
            direction = (int) (number - last);
        } else if (number != last || wanted.isDraft()) {
            direction = 0;
        }
        last = number;
        int now = direction;
        ready.keySet().removeIf(kept -> (kept - number) * now < 0 || Math.abs(kept - number) > MOST_READY);
        if (rests) {
            direction = 1;
        }
        if (direction != 0) {
            idle = false;
            if (worker == null && !closed) {
                worker = new Thread(this::work, "frame-ahead");
                worker.setDaemon(true);
                worker.start();
            }
        }
        notifyAll();
        return direction;
    }

    /** What to do next: a frame to make ready, or the frame before a group to decode. */
    private record Task(long number, long from, int direction, Rendering rendering, boolean isPicture) {}

    private void work() {
        Map<Integer, PictureConverter> converters = new HashMap<>();
        try {
            for (Task task = next(); task != null; task = next()) {
                try {
                    run(task, converters);
                } catch (RuntimeException e) {
                    // who asks for that frame meets the same fault and is told
                    rest();
                } finally {
                    done();
                }
            }
        } finally {
            converters.values().forEach(PictureConverter::close);
        }
    }

    private synchronized void rest() {
        idle = true;
    }

    private synchronized void done() {
        inWork = NOTHING;
        notifyAll();
    }

    /** Waits for something to do; {@code null} when closed. */
    private synchronized @Nullable Task next() {
        while (!closed) {
            Task task = idle || direction == 0 ? null : choose();
            if (task != null) {
                return task;
            }
            idle = true;
            try {
                wait();
            } catch (InterruptedException e) {
                closed = true;
            }
        }
        return null;
    }

    private @Nullable Task choose() {
        for (int i = 1; i <= mostReady(); i++) {
            long number = last + (long) direction * i;
            if (number < 0 || number >= frames.frameCount()) {
                break;
            }
            if (!ready.containsKey(number)) {
                return new Task(number, last, direction, rendering, true);
            }
        }
        long border = direction < 0 ? frames.groupStart(last) : 0;
        if (border > 0 && border != groupDone && last - border <= GROUP_IN_TIME) {
            return new Task(border - 1, last, direction, rendering, false);
        }
        return null;
    }

    private int mostReady() {
        long one = 1;
        for (FramePicture picture : ready.values()) {
            one = Math.max(one, picture.bgra().length);
        }
        return (int) Math.max(1, Math.min(MOST_READY, READY_BYTES / one));
    }

    private void run(Task task, Map<Integer, PictureConverter> converters) {
        FrameRef frame = frames.frame(task.number());
        AVFrame decoded = decode(frame, task, converters);
        if (decoded == null) {
            return;
        }
        try {
            if (!task.isPicture()) {
                groupDone(task.number() + 1);
                return;
            }
            PictureConverter converter = converters.get(frame.segment());
            if (converter == null || FrameRenderer.needsNeighbours(decoded, task.rendering())) {
                rest();
                return;
            }
            synchronized (this) {
                inWork = task.number();
            }
            keep(task, converter.convert(decoded));
        } finally {
            av_frame_free(decoded);
        }
    }

    private synchronized void groupDone(long border) {
        groupDone = border;
    }

    private synchronized void keep(Task task, FramePicture picture) {
        if (task.rendering().equals(rendering) && (task.number() - last) * direction >= 0) {
            ready.put(task.number(), picture);
        }
    }

    /** {@code null} if somebody waits for the decoder: he goes first. */
    private @Nullable AVFrame decode(FrameRef frame, Task task, Map<Integer, PictureConverter> converters) {
        ReentrantLock decoding = frames.decoding();
        decoding.lock();
        try {
            if (isClosed()) {
                return null;
            }
            SegmentDecoder decoder = frames.decoder(frame.segment());
            if (!converters.containsKey(frame.segment())) {
                converters.values().forEach(PictureConverter::close);
                converters.clear();
                converters.put(frame.segment(), decoder.newConverter());
            }
            FrameRef from = frames.frame(task.from());
            decoder.focus(from.segment() == frame.segment() ? from.index() : frame.index(), task.direction());
            return decoder.reference(frame.index(), false, () -> decoding.hasQueuedThreads() || isClosed());
        } finally {
            decoding.unlock();
        }
    }

    private synchronized boolean isClosed() {
        return closed;
    }

    @Override
    public void close() {
        Thread running;
        synchronized (this) {
            closed = true;
            ready.clear();
            running = worker;
            notifyAll();
        }
        boolean interrupted = false;
        while (running != null && running.isAlive()) {
            try {
                running.join();
            } catch (InterruptedException e) {
                interrupted = true;
            }
        }
        if (interrupted) {
            Thread.currentThread().interrupt();
        }
    }
}
