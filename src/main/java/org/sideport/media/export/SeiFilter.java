package org.sideport.media.export;

import static org.bytedeco.ffmpeg.global.avcodec.AV_CODEC_ID_H264;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_alloc;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_free;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_get_by_name;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_init;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_receive_packet;
import static org.bytedeco.ffmpeg.global.avcodec.av_bsf_send_packet;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_copy;
import static org.bytedeco.ffmpeg.global.avutil.av_opt_set;

import java.nio.file.Path;
import org.bytedeco.ffmpeg.avcodec.AVBSFContext;
import org.bytedeco.ffmpeg.avcodec.AVBitStreamFilter;
import org.bytedeco.ffmpeg.avcodec.AVCodecParameters;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.ffmpeg.avformat.AVStream;
import org.sideport.media.Ffmpeg;
import org.sideport.media.MediaException;
import org.sideport.media.MediaException.Reason;

/**
 * Removes the supplemental information (SEI) of H.264 and HEVC, where recorders hide serial numbers and names. Time
 * codes, captions and recovery points go with it; pictures stay as they are.
 */
final class SeiFilter implements AutoCloseable {

    /** {@code AVERROR(EAGAIN)}, which differs between systems: nothing is left of a packet. */
    private static final int[] AGAIN = {-11, -35};

    private final AVBSFContext filter = new AVBSFContext(null);

    SeiFilter(AVStream stream, Path file) {
        int codec = stream.codecpar().codec_id();
        AVBitStreamFilter kind = av_bsf_get_by_name("filter_units");
        if (!Container.hasNalUnits(codec) || kind == null || av_bsf_alloc(kind, filter) < 0) {
            throw failed(file, "only H.264 and HEVC hold such information");
        }
        try {
            avcodec_parameters_copy(filter.par_in(), stream.codecpar());
            filter.time_base_in(stream.time_base());
            int set = av_opt_set(filter.priv_data(), "remove_types", codec == AV_CODEC_ID_H264 ? "6" : "39|40", 0);
            if (set < 0 || av_bsf_init(filter) < 0) {
                throw failed(file, "the filter does not start");
            }
        } catch (RuntimeException e) {
            close();
            throw e;
        }
    }

    /** What describes the stream after filtering. */
    AVCodecParameters parameters() {
        return filter.par_out();
    }

    /**
     * Filters in place.
     *
     * @return false if nothing of the packet is left
     */
    boolean apply(AVPacket packet, Path file) {
        if (av_bsf_send_packet(filter, packet) < 0) {
            throw failed(file, "a packet could not be read");
        }
        int code = av_bsf_receive_packet(filter, packet);
        if (code < 0 && code != AGAIN[0] && code != AGAIN[1]) {
            throw failed(file, "a packet could not be read (" + Ffmpeg.errorText(code) + ")");
        }
        return code >= 0;
    }

    private static MediaException failed(Path file, String why) {
        return new MediaException(
                Reason.UNREADABLE,
                "the information inside the pictures cannot be removed: " + why,
                file.toString(),
                "leave it in, or use mask, which encodes anew");
    }

    @Override
    public void close() {
        av_bsf_free(filter);
    }
}
