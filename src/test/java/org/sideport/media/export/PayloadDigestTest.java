package org.sideport.media.export;

import static org.assertj.core.api.Assertions.assertThat;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_packet_unref;
import static org.bytedeco.ffmpeg.global.avformat.av_read_frame;

import java.nio.file.Path;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.sideport.media.MediaInput;

/** The check of a copy must find any change of a packet, and nothing but that. */
class PayloadDigestTest {

    @TempDir
    Path folder;

    /**
     * @param flipped number of a packet of which one bit is changed, or -1
     * @param without number of a packet to leave out, or -1
     */
    private static String digest(Path file, boolean withoutSei, int flipped, int without) {
        try (MediaInput input = MediaInput.open(file)) {
            PayloadDigest digest = new PayloadDigest(input.video().codecpar(), withoutSei);
            AVPacket packet = av_packet_alloc();
            for (int n = 0; av_read_frame(input.context(), packet) >= 0; n++) {
                if (n == flipped) {
                    long last = packet.size() - 1L;
                    packet.data().put(last, (byte) (packet.data().get(last) ^ 2));
                }
                if (n != without) {
                    digest.add(packet);
                }
                av_packet_unref(packet);
            }
            av_packet_free(packet);
            return digest.value();
        }
    }

    @Test
    void theSamePicturesInAnotherContainerHaveTheSameDigest() throws Exception {
        Path mp4 = Stamped.write(folder.resolve("a.mp4"), Stamped.even(30), 0);
        Path mkv = new Planted(mp4).write(folder.resolve("a.mkv"), "matroska");
        assertThat(digest(mkv, false, -1, -1))
                .isEqualTo(digest(mp4, false, -1, -1))
                .hasSize(64);
    }

    @Test
    void oneBitOrOnePacketMakesADifference() throws Exception {
        Path mp4 = Stamped.write(folder.resolve("a.mp4"), Stamped.even(30), 0);
        String whole = digest(mp4, false, -1, -1);
        assertThat(digest(mp4, false, 17, -1)).isNotEqualTo(whole);
        assertThat(digest(mp4, false, -1, 17)).isNotEqualTo(whole);
        Path ts = new Planted(mp4).write(folder.resolve("a.ts"), "mpegts");
        String start = digest(ts, false, -1, -1);
        assertThat(digest(ts, false, 17, -1)).isNotEqualTo(start);
        assertThat(digest(ts, false, -1, 17)).isNotEqualTo(start);
    }

    @Test
    void supplementalInformationCountsUnlessItIsLeftOut() throws Exception {
        Path plain = Stamped.write(folder.resolve("a.mp4"), Stamped.even(30), 0);
        Path one = new Planted(plain).sei("A1").write(folder.resolve("one.mp4"), "mp4");
        Path two = new Planted(plain).sei("B2").write(folder.resolve("two.mp4"), "mp4");
        assertThat(digest(one, false, -1, -1)).isNotEqualTo(digest(two, false, -1, -1));
        assertThat(digest(one, true, -1, -1)).isEqualTo(digest(two, true, -1, -1));
    }
}
