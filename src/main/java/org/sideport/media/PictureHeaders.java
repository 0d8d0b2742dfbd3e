package org.sideport.media;

import static org.bytedeco.ffmpeg.avcodec.AVCodecParserContext.PARSER_FLAG_COMPLETE_FRAMES;
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
        }
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
