package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avfilter.AV_BUFFERSRC_FLAG_KEEP_REF;
import static org.bytedeco.ffmpeg.global.avfilter.av_buffersink_get_frame;
import static org.bytedeco.ffmpeg.global.avfilter.av_buffersrc_add_frame_flags;
import static org.bytedeco.ffmpeg.global.avfilter.avfilter_get_by_name;
import static org.bytedeco.ffmpeg.global.avfilter.avfilter_graph_alloc;
import static org.bytedeco.ffmpeg.global.avfilter.avfilter_graph_config;
import static org.bytedeco.ffmpeg.global.avfilter.avfilter_graph_create_filter;
import static org.bytedeco.ffmpeg.global.avfilter.avfilter_graph_free;
import static org.bytedeco.ffmpeg.global.avfilter.avfilter_link;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_alloc;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_clone;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;
import static org.bytedeco.ffmpeg.global.avutil.av_frame_unref;

import org.bytedeco.ffmpeg.avfilter.AVFilterContext;
import org.bytedeco.ffmpeg.avfilter.AVFilterGraph;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;

/**
 * Shows one field's moment of an interlaced frame with all lines. The missing ones come from both fields where nothing
 * moves and from the field itself where something does (FFmpeg's filter bwdif), which needs the frames before and after.
 * Frames are never added or dropped, so that frame numbers stay.
 */
final class Deinterlacer {

    private static final String PROGRESSIVE_TOO = "mode=send_field:parity=auto:deint=all";

    private Deinterlacer() {}

    static boolean isInterlaced(AVFrame frame) {
        return (frame.flags() & AVFrame.AV_FRAME_FLAG_INTERLACED) != 0;
    }

    private static boolean startsAtTop(AVFrame frame) {
        return !isInterlaced(frame) || (frame.flags() & AVFrame.AV_FRAME_FLAG_TOP_FIELD_FIRST) != 0;
    }

    /**
     * One field alone, as a picture of half the height that shares the frame's memory.
     *
     * @param second of the two in the order of their display
     * @return to be freed
     */
    static AVFrame field(AVFrame frame, boolean second) {
        AVFrame field = av_frame_clone(frame);
        if (field == null) {
            throw new OutOfMemoryError("no memory for a picture");
        }
        boolean top = startsAtTop(frame) != second;
        for (int plane = 0; plane < 4 && field.data(plane) != null; plane++) {
            int stride = frame.linesize(plane);
            if (!top) {
                field.data(plane, frame.data(plane).getPointer(stride));
            }
            field.linesize(plane, 2 * stride);
        }
        field.height((frame.height() + (top ? 1 : 0)) / 2);
        return field;
    }

    /**
     * @param second of the two fields in the order of their display
     * @return to be freed; {@code null} where the filter does not take pictures of this kind
     */
    static @Nullable AVFrame of(AVFrame before, AVFrame frame, AVFrame after, boolean second) {
        AVFilterGraph graph = avfilter_graph_alloc();
        AVFrame out = av_frame_alloc();
        boolean done = false;
        try {
            graph.nb_threads(1);
            AVFilterContext source = new AVFilterContext(null);
            AVFilterContext filter = new AVFilterContext(null);
            AVFilterContext sink = new AVFilterContext(null);
            String kind = "video_size=" + frame.width() + "x" + frame.height() + ":pix_fmt=" + frame.format()
                    + ":time_base=1/25:pixel_aspect=1/1:colorspace=" + frame.colorspace() + ":range="
                    + frame.color_range();
            if (avfilter_graph_create_filter(source, avfilter_get_by_name("buffer"), "in", kind, null, graph) < 0
                    || avfilter_graph_create_filter(
                                    filter, avfilter_get_by_name("bwdif"), "fields", PROGRESSIVE_TOO, null, graph)
                            < 0
                    || avfilter_graph_create_filter(sink, avfilter_get_by_name("buffersink"), "out", null, null, graph)
                            < 0
                    || avfilter_link(source, 0, filter, 0) < 0
                    || avfilter_link(filter, 0, sink, 0) < 0
                    || avfilter_graph_config(graph, null) < 0) {
                return null;
            }
            push(source, before, 0);
            push(source, frame, 1);
            push(source, after, 2);
            // each frame gives two pictures, and time runs in halves of a frame behind the filter
            long wanted = second ? 3 : 2;
            while (av_buffersink_get_frame(sink, out) >= 0) {
                if (out.pts() == wanted) {
                    done = true;
                    return out;
                }
                av_frame_unref(out);
            }
            return null;
        } finally {
            if (!done) {
                av_frame_free(out);
            }
            avfilter_graph_free(graph);
        }
    }

    private static void push(AVFilterContext source, AVFrame frame, long number) {
        AVFrame numbered = av_frame_clone(frame);
        if (numbered == null) {
            throw new OutOfMemoryError("no memory for a picture");
        }
        numbered.pts(number);
        numbered.duration(1);
        av_buffersrc_add_frame_flags(source, numbered, AV_BUFFERSRC_FLAG_KEEP_REF);
        av_frame_free(numbered);
    }
}
