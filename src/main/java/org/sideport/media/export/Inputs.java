package org.sideport.media.export;

import java.nio.file.Path;
import org.bytedeco.ffmpeg.avformat.AVFormatContext;
import org.sideport.media.MediaInput;

/** Opens recordings for copying packets; frames are always numbered and decoded by {@link MediaInput#open}. */
final class Inputs {

    private Inputs() {}

    /**
     * As {@link MediaInput#open}, and where a program stream (DVD) gives no display time to a packet, it is worked out
     * from the packets that follow. Other containers that leave times out, such as AVI, do not keep enough for that.
     *
     * @throws org.sideport.media.MediaException if the file cannot be read
     */
    static MediaInput open(Path file) {
        MediaInput input = MediaInput.open(file);
        if (input.formatName().equals("mpeg")) {
            input.context().flags(input.context().flags() | AVFormatContext.AVFMT_FLAG_GENPTS);
        }
        return input;
    }
}
