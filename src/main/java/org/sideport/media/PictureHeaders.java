package org.sideport.media;

import static org.bytedeco.ffmpeg.avcodec.AVCodecParserContext.PARSER_FLAG_COMPLETE_FRAMES;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PICTURE_STRUCTURE_BOTTOM_FIELD;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PICTURE_STRUCTURE_FRAME;
import static org.bytedeco.ffmpeg.global.avcodec.AV_PICTURE_STRUCTURE_TOP_FIELD;
import static org.bytedeco.ffmpeg.global.avcodec.av_parser_close;
import static org.bytedeco.ffmpeg.global.avcodec.av_parser_init;
import static org.bytedeco.ffmpeg.global.avcodec.av_parser_parse2;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_alloc_context3;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_free_context;
import static org.bytedeco.ffmpeg.global.avcodec.avcodec_parameters_to_context;
import static org.bytedeco.ffmpeg.global.avutil.AV_NOPTS_VALUE;
import static org.bytedeco.ffmpeg.global.avutil.AV_PICTURE_TYPE_B;

import org.bytedeco.ffmpeg.avcodec.AVCodec;
import org.bytedeco.ffmpeg.avcodec.AVCodecContext;
import org.bytedeco.ffmpeg.avcodec.AVCodecParserContext;
import org.bytedeco.ffmpeg.avcodec.AVPacket;
import org.bytedeco.javacpp.BytePointer;
import org.bytedeco.javacpp.IntPointer;
import org.jspecify.annotations.Nullable;

/** Reads the type and order of pictures out of their headers, without decoding them. Must be closed. */
final class PictureHeaders implements AutoCloseable {

    private final @Nullable AVCodecParserContext parser;
    private final @Nullable AVCodecContext codec;
    private final BytePointer out = new BytePointer((org.bytedeco.javacpp.Pointer) null);
    private final IntPointer outSize = new IntPointer(1);

    private boolean secondField;

    private PictureHeaders(@Nullable AVCodecParserContext parser, @Nullable AVCodecContext codec) {
        this.parser = parser;
        this.codec = codec;
    }

    static PictureHeaders of(MediaInput input) {
        AVCodecParserContext parser = av_parser_init(input.video().codecpar().codec_id());
        AVCodecContext codec = parser == null ? null : avcodec_alloc_context3((AVCodec) null);
        if (parser == null || codec == null) {
            return new PictureHeaders(null, null);
        }
        parser.flags(parser.flags() | PARSER_FLAG_COMPLETE_FRAMES);
        avcodec_parameters_to_context(codec, input.video().codecpar());
        return new PictureHeaders(parser, codec);
    }

    void read(AVPacket packet) {
        int before = secondField ? AV_PICTURE_STRUCTURE_FRAME : structure();
        if (parser != null && codec != null) {
            av_parser_parse2(
                    parser,
                    codec,
                    out,
                    outSize,
                    packet.data(),
                    packet.size(),
                    AV_NOPTS_VALUE,
                    AV_NOPTS_VALUE,
                    packet.pos());
            int now = structure();
            secondField = before == AV_PICTURE_STRUCTURE_TOP_FIELD && now == AV_PICTURE_STRUCTURE_BOTTOM_FIELD
                    || before == AV_PICTURE_STRUCTURE_BOTTOM_FIELD && now == AV_PICTURE_STRUCTURE_TOP_FIELD;
        }
    }

    private int structure() {
        return parser == null ? AV_PICTURE_STRUCTURE_FRAME : parser.picture_structure();
    }

    /**
     * True if the packet read last holds the second of two fields that make one frame, coded as pictures of their own
     * (ITU-T H.264, 7.4.1.2.4). In packets that hold both, the first tells the parity, which then never alternates.
     */
    boolean isSecondField() {
        return secondField;
    }

    /** The picture order count of the packet read last. */
    int order() {
        return parser == null ? 0 : parser.output_picture_number();
    }

    boolean isB() {
        return parser != null && parser.pict_type() == AV_PICTURE_TYPE_B;
    }

    @Override
    public void close() {
        if (parser != null) {
            av_parser_close(parser);
        }
        if (codec != null) {
            avcodec_free_context(codec);
        }
        outSize.close();
    }
}
