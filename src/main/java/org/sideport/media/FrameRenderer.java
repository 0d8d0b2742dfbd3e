package org.sideport.media;

import static org.bytedeco.ffmpeg.global.avutil.av_frame_free;

import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.jspecify.annotations.Nullable;

/** Makes pictures of decoded frames as a {@link Rendering} wants them. Thread-confined; must be closed. */
final class FrameRenderer implements AutoCloseable {

    private final PictureConverter converter;

    /** @param converter is closed with this */
    FrameRenderer(PictureConverter converter) {
        this.converter = converter;
    }

    /** Whether the frames before and after are needed: only for fields in full size. */
    static boolean needsNeighbours(AVFrame frame, Rendering rendering) {
        return !rendering.isDraft() && splitsFields(frame, rendering);
    }

    private static boolean splitsFields(AVFrame frame, Rendering rendering) {
        return switch (rendering.fields()) {
            case WOVEN -> false;
            case AUTO -> Deinterlacer.isInterlaced(frame);
            case FIRST, SECOND -> true;
        };
    }

    /** Without its neighbours: of interlaced frames the one field alone, its lines doubled. */
    FramePicture render(AVFrame frame, Rendering rendering) {
        boolean second = rendering.fields() == Fields.SECOND;
        if (!splitsFields(frame, rendering)) {
            return rendering.isDraft()
                    ? converter.convert(frame, rendering.maxWidth(), frame.height())
                    : converter.convert(frame);
        }
        AVFrame field = Deinterlacer.field(frame, second);
        try {
            int width = rendering.isDraft() ? rendering.maxWidth() : frame.width();
            return converter.convert(field, width, frame.height());
        } finally {
            av_frame_free(field);
        }
    }

    /** The moment of one field in full size. */
    FramePicture render(@Nullable AVFrame before, AVFrame frame, @Nullable AVFrame after, Rendering rendering) {
        AVFrame whole = before == null || after == null
                ? null
                : Deinterlacer.of(before, frame, after, rendering.fields() == Fields.SECOND);
        if (whole == null) {
            return render(frame, rendering);
        }
        try {
            return converter.convert(whole);
        } finally {
            av_frame_free(whole);
        }
    }

    @Override
    public void close() {
        converter.close();
    }
}
