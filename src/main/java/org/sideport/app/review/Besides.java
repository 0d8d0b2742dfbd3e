package org.sideport.app.review;

import java.util.ArrayList;
import java.util.List;
import org.sideport.app.timeline.Lane;

/** What one's own tags are put beside: usual times, and another annotator's tags. */
public record Besides(ReferenceModel reference, BesideTags tags) {

    /** The lanes of tags with those beside them: the usual times right under the phases, the other's tags last. */
    List<Lane> among(List<Lane> tagged) {
        List<Lane> all = new ArrayList<>(tagged);
        all.addAll(1, reference.lanesProperty().get());
        all.addAll(tags.lanesProperty().get());
        return all;
    }
}
