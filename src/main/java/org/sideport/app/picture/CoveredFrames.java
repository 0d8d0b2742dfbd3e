package org.sideport.app.picture;

import org.sideport.media.Cover;
import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;
import org.sideport.model.Recording;

/** The frames of a recording of which whoever looks may not see all. */
final class CoveredFrames extends FramesOver {

    private final FrameSource frames;
    private final Recording recording;
    private final Cover cover;

    private CoveredFrames(FrameSource frames, Recording recording) {
        super(frames);
        this.frames = frames;
        this.recording = recording;
        this.cover = new Cover(recording.covered());
    }

    /** The frames themselves where all may be seen. */
    static FrameSource of(FrameSource frames, Recording recording) {
        return recording.covered().isEmpty() ? frames : new CoveredFrames(frames, recording);
    }

    private FramePicture covered(FramePicture picture, FrameRef frame) {
        return cover.over(picture, recording.segments().get(frame.segment()).uprightHeight(), frame.start());
    }

    @Override
    public FramePicture picture(FrameRef frame) {
        return covered(frames.picture(frame), frame);
    }

    @Override
    public FramePicture draft(FrameRef frame) {
        return covered(frames.draft(frame), frame);
    }

    @Override
    public FramePicture whole(FrameRef frame) {
        return frames.whole(frame);
    }
}
