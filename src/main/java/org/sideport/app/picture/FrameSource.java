package org.sideport.app.picture;

import java.util.function.Consumer;
import java.util.function.UnaryOperator;
import org.sideport.app.Background;
import org.sideport.media.Fields;
import org.sideport.media.FrameIndexCache;
import org.sideport.media.FramePicture;
import org.sideport.media.FrameRef;
import org.sideport.media.RecordingFrames;
import org.sideport.media.Rendering;
import org.sideport.model.MediaTime;
import org.sideport.model.Progress;
import org.sideport.model.Recording;

/** The exact frames of one recording, as the {@link PictureDesk} needs them. Used on one background thread only. */
public interface FrameSource extends AutoCloseable {

    /** Opens a recording; may take long. */
    @FunctionalInterface
    interface Opener {
        FrameSource open(Recording recording, Progress progress);
    }

    long frameCount();

    MediaTime duration();

    FrameRef frameAt(MediaTime time);

    FrameRef frame(long number);

    FramePicture picture(FrameRef frame);

    /** The same frame as {@link #picture}, sooner and smaller where that gains: for while the user drags. */
    default FramePicture draft(FrameRef frame) {
        return picture(frame);
    }

    /** The same frame as {@link #picture} with all that may not be seen: to compare, never to show. */
    default FramePicture whole(FrameRef frame) {
        return picture(frame);
    }

    /**
     * What is shown of interlaced frames from now on, for {@link #picture} and {@link #draft}; recordings without fields
     * look the same in each case but for {@link Fields#FIRST} and {@link Fields#SECOND}.
     */
    default void showFields(Fields fields) {}

    @Override
    void close();

    /** The same frames with every picture changed; drafts are full ones. Closing it closes this. */
    default FrameSource with(UnaryOperator<FramePicture> change) {
        FrameSource frames = this;
        return new FramesOver(frames) {
            @Override
            public FramePicture picture(FrameRef frame) {
                return change.apply(frames.picture(frame));
            }
        };
    }

    /** Closes it where it is used, behind what is still being done there. */
    default void closeOn(Background work, Consumer<Throwable> failed) {
        work.run(
                progress -> {
                    close();
                    return this;
                },
                done -> {},
                failed);
    }

    /** The real thing: FFmpeg's frames, black where they may not be seen. */
    static FrameSource of(Recording recording, Progress progress) {
        return CoveredFrames.of(of(RecordingFrames.open(recording, progress)), recording);
    }

    /** The same, quicker where the cache has the frame times from before. */
    static Opener with(FrameIndexCache cache) {
        return (recording, progress) ->
                CoveredFrames.of(of(RecordingFrames.open(recording, cache, progress)), recording);
    }

    /** Frames that are open already, all of them to be seen; closing it closes them. */
    static FrameSource of(RecordingFrames frames) {
        return new FrameSource() {
            private Fields shown = Fields.AUTO;

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
            public FramePicture picture(FrameRef frame) {
                return frames.picture(frame, Rendering.FULL.with(shown));
            }

            @Override
            public FramePicture draft(FrameRef frame) {
                return frames.picture(frame, Rendering.DRAFT.with(shown));
            }

            @Override
            public void showFields(Fields fields) {
                shown = fields;
            }

            @Override
            public void close() {
                frames.close();
            }
        };
    }
}
