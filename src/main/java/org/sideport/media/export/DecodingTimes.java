package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.util.HashMap;
import java.util.Map;
import org.bytedeco.ffmpeg.avcodec.AVPacket;

/**
 * Gives packets the decoding times that a container does not keep: Matroska has display times only, and FFmpeg knows the
 * decoding times of its first packets with B-frames not. A decoding time is earlier than all display times that follow.
 */
final class DecodingTimes {

    private final long firstPts;
    private final int delay;
    private final int pictureStream;
    private final Map<Integer, Long> last = new HashMap<>();

    /**
     * @param firstPts the earliest display time, ticks
     * @param delay pictures that are decoded before the first is shown
     */
    DecodingTimes(int pictureStream, long firstPts, int delay) {
        this.pictureStream = pictureStream;
        this.firstPts = firstPts;
        this.delay = delay;
    }

    void fill(AVPacket packet) {
        int stream = packet.stream_index();
        if (packet.dts() == AV_NOPTS_VALUE && packet.pts() != AV_NOPTS_VALUE) {
            Long before = last.get(stream);
            if (stream != pictureStream) {
                packet.dts(packet.pts());
            } else if (before == null) {
                packet.dts(Math.min(packet.pts(), firstPts - delay));
            } else {
                packet.dts(Math.min(packet.pts(), before + 1));
            }
        }
        if (packet.dts() != AV_NOPTS_VALUE) {
            last.put(stream, packet.dts());
        }
    }
}
