package org.sideport.app.picture;

import org.sideport.media.Fields;
import org.sideport.media.FrameRef;
import org.sideport.model.MediaTime;

/** The frames of another source, which this closes; only their pictures are others. */
abstract class FramesOver implements FrameSource {

    private final FrameSource frames;

    FramesOver(FrameSource frames) {
        this.frames = frames;
    }

    @Override
    public long frameCount() {
        return frames.frameCount();
    }

    @Override
    public MediaTime duration() {
        return frames.duration();
    }

    @Override
    public FrameRef frameAt(MediaTime time) {
        return frames.frameAt(time);
    }

    @Override
    public FrameRef frame(long number) {
        return frames.frame(number);
    }

    @Override
    public void showFields(Fields fields) {
        frames.showFields(fields);
    }

    @Override
    public void close() {
        frames.close();
    }
}
