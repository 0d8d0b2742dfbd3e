package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avcodec.AV_PKT_FLAG_KEY;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avformat.AVSEEK_FLAG_BACKWARD;
import static org.bytedeco.ffmpeg.global.avformat.AVSEEK_FLAG_BYTE;
import static org.bytedeco.ffmpeg.global.avformat.av_seek_frame;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;

import java.nio.file.Path;
import java.util.List;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.jspecify.annotations.Nullable;

/**
 * Hands out the video packets of a file from any key packet on, and knows the ordinal of each. Thread-confined; must be
 * closed.
 *
 * <p>No seek is believed: after one, packets are read until a key packet is met that the index knows by its content,
 * and counted from there. Where no seek helps, the file is read from its start.
 */
final class PacketReader implements AutoCloseable {

    /** So many packets after a seek without a key packet that is known, and the seek has failed. */
    private static final int LOST = 2_000;

    private final Path file;
    private final List<KeyPacket> keys;
    private final AVPacket packet = av_packet_alloc();
    private MediaInput input;
    private int ordinal = -1;
    private boolean pending;
    private int restarts;
    /** Nothing was read yet, and no seek made. */
    private boolean untouched = true;

    PacketReader(MediaInput input, List<KeyPacket> keys) {
        this.file = input.file();
        this.input = input;
        this.keys = keys;
    }

    MediaInput input() {
        return input;
    }

    AVPacket packet() {
        return packet;
    }

    int ordinal() {
        return ordinal;
    }

    /** Moves on to the next video packet; false at the end of the file. */
    boolean next() {
        if (pending) {
            pending = false;
            return true;
        }
        if (!read()) {
            return false;
        }
        ordinal++;
        return true;
    }

    private boolean read() {
        untouched = false;
        av_packet_unref(packet);
        while (input.read(packet) >= 0) {
            if (packet.stream_index() == input.video().index()) {
                return true;
            }
            av_packet_unref(packet);
        }
        return false;
    }

    /**
     * Makes this key packet the next one.
     *
     * @param key place in the list of keys; -1 for the start of the file
     * @return false if the file has changed so that it is not there any more
     */
    boolean startAt(int key) {
        pending = false;
        if (key < 0 || (key == 0 && untouched)) {
            return fromStart(key < 0 ? 0 : keys.get(0).ordinal());
        }
        int wanted = keys.get(key).ordinal();
        for (int back = 0; back <= key; back = 2 * back + 1) {
            if (seek(keys.get(key - back)) && recognise(key) && forwardTo(wanted)) {
                return true;
            }
        }
        return fromStart(wanted);
    }

    private boolean seek(KeyPacket key) {
        untouched = false;
        if (input.seeksByBytes()) {
            return key.seekPos() >= 0
                    && av_seek_frame(input.context(), input.video().index(), key.seekPos(), AVSEEK_FLAG_BYTE) >= 0;
        }
        long time = key.pts() != AV_NOPTS_VALUE ? key.pts() : key.dts();
        return time != AV_NOPTS_VALUE
                && av_seek_frame(input.context(), input.video().index(), time, AVSEEK_FLAG_BACKWARD) >= 0;
    }

    /** Reads until a key packet that is known and not after the wanted one. */
    private boolean recognise(int wanted) {
        for (int read = 0; read < LOST && read(); read++) {
            if ((packet.flags() & AV_PKT_FLAG_KEY) != 0 && packet.size() > 0) {
                KeyPacket found = known();
                if (found != null) {
                    ordinal = found.ordinal();
                    return ordinal <= keys.get(wanted).ordinal();
                }
            }
        }
        return false;
    }

    /** The one key packet that this can be; null if none or several. */
    private @Nullable KeyPacket known() {
        int signature = PacketScan.signature(packet);
        KeyPacket found = null;
        for (KeyPacket key : keys) {
            if (key.signature() == signature
                    && agrees(key.pts(), packet.pts(), AV_NOPTS_VALUE)
                    && agrees(key.pos(), packet.pos(), -1)) {
                if (found != null) {
                    return null;
                }
                found = key;
            }
        }
        return found;
    }

    private static boolean agrees(long one, long other, long unknown) {
        return one == unknown || other == unknown || one == other;
    }

    /** How often no seek helped so that the file was read from its start. */
    int restarts() {
        return restarts;
    }

    private boolean fromStart(int wanted) {
        if (!untouched) {
            restarts++;
            MediaInput fresh = MediaInput.open(file);
            input.close();
            input = fresh;
        }
        ordinal = -1;
        return next() && forwardTo(wanted);
    }

    private boolean forwardTo(int wanted) {
        while (ordinal < wanted) {
            if (!next()) {
                return false;
            }
        }
        pending = ordinal == wanted;
        return pending;
    }

    @Override
    public void close() {
        av_packet_free(packet);
        input.close();
    }
}
