package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avformat.avformat_index_get_entries_count;
import static org.bytedeco.ffmpeg.global.avformat.avformat_index_get_entry;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.util.HashMap;
import java.util.Map;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVIndexEntry;

/**
 * An AVI file has no clock but the count of its frames, so that every frame lost to damage would pull all later ones
 * forward. Its table at the end tells where each frame lies: by its place in the file a packet gets its number back.
 */
final class AviClock {

    /** Four letters and a length stand before the data of a packet. */
    private static final int CHUNK_HEAD = 8;

    private final Map<Long, Long> numbers = new HashMap<>();

    /** @param input just opened: later the library adds what it counts to the table */
    AviClock(MediaInput input) {
        if (input.formatName().equals("avi")) {
            int count = avformat_index_get_entries_count(input.video());
            for (int i = 0; i < count; i++) {
                AVIndexEntry entry = avformat_index_get_entry(input.video(), i);
                numbers.put(entry.pos() + CHUNK_HEAD, entry.timestamp());
            }
        }
    }

    /** What to add to the times of a packet: 0 if the table does not tell better. */
    long correction(AVPacket packet) {
        Long number = packet.dts() == AV_NOPTS_VALUE ? null : numbers.get(packet.pos());
        return number == null ? 0 : number - packet.dts();
    }
}
