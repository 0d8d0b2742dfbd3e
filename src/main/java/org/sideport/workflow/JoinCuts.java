package org.sideport.workflow;

import java.util.List;
import java.util.stream.Collectors;
import org.sideport.model.Cut;
import org.sideport.model.CutKind;
import org.sideport.model.MediaTime;
import org.sideport.model.Recording;
import org.sideport.model.SegmentJoin;

/** Cuts to be proposed where the files of a recording do not surely follow each other without loss. */
final class JoinCuts {

    private JoinCuts() {}

    static List<Cut> of(RecordingPreview preview) {
        Recording recording = preview.recording();
        return preview.joins().stream()
                .filter(join -> join.kind() != SegmentJoin.Kind.CONTINUOUS)
                .map(join -> {
                    MediaTime border = recording.startOf(join.after());
                    return Cut.proposed(border, border, CutKind.BETWEEN_FILES, text(join));
                })
                .toList();
    }

    private static String text(SegmentJoin join) {
        String what =
                switch (join.kind()) {
                    case LOST -> "Time seems to be lost between the files.";
                    case PAUSED -> "The recorder seems to have paused between the files.";
                    default -> "Whether time is missing between the files is not known.";
                };
        String evidence =
                join.evidence().stream().map(SegmentJoin.Evidence::text).collect(Collectors.joining(" "));
        return evidence.isEmpty() ? what : what + " " + evidence;
    }
}
