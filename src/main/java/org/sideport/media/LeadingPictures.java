package org.sideport.media;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import org.bytedeco.ffmpeg.avutil.AVFrame;
import org.sideport.model.Progress;

/**
 * Finds the pictures at the start of a file that lean on others from before it, so that nobody can see them: where a
 * recorder joined a stream midway, or an open group of pictures was cut.
 */
final class LeadingPictures {

    private LeadingPictures() {}

    /**
     * Decodes up to the first key picture, if the index has frames before it.
     *
     * @throws java.util.concurrent.CancellationException if the progress is cancelled
     * @return ordinals of the packets whose picture does not come out
     */
    static List<Integer> undecodable(MediaInput input, FrameIndex index, Progress progress) {
        if (index.keys().isEmpty() || index.keys().get(0).frame() == 0) {
            return List.of();
        }
        int border = index.keys().get(0).frame();
        Set<Integer> seen = new HashSet<>();
        try (PacketDecoder decoder = PacketDecoder.open(MediaInput.open(input.file()))) {
            while (decoder.next()) {
                progress.check();
                int frame = index.frameOf(decoder.ordinal());
                if (frame >= border) {
                    break;
                }
                if (isWhole(decoder.frame())) {
                    seen.add(frame);
                }
            }
        }
        List<Integer> missing = new ArrayList<>();
        for (int i = 0; i < index.packets(); i++) {
            int frame = index.frameOf(i);
            if (frame >= 0 && frame < border && !seen.contains(frame)) {
                missing.add(i);
            }
        }
        return missing;
    }

    private static boolean isWhole(AVFrame frame) {
        return frame.decode_error_flags() == 0 && (frame.flags() & AVFrame.AV_FRAME_FLAG_CORRUPT) == 0;
    }
}
