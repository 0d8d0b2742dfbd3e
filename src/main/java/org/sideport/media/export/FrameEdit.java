package org.sideport.media.export;

import org.bytedeco.ffmpeg.avutil.AVFrame;

/** What is painted onto a frame before it is encoded. */
@FunctionalInterface
interface FrameEdit {

    FrameEdit NONE = (picture, us) -> {};

    /**
     * @param picture 8-bit 4:2:0, may be written to
     * @param us when the frame comes on the screen, on the recording's timeline
     */
    void apply(AVFrame picture, long us);
}
