package org.sideport.timing;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import java.util.function.UnaryOperator;
import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Tagging;

/** The stretches of a tagging as {@link TimeMap} takes them. */
public final class Episodes {

    private Episodes() {}

    /**
     * Spans of one id stay apart, so that a phase that was taken up again is matched episode by episode. Spans of
     * different ids that get one label and follow one another, as steps do that are named by their phase, become one.
     *
     * @param end where an open last span ends; without it that span is left out
     * @param label maps the tagged id to the label
     * @param idle true for ids that mean "nothing is being done"
     */
    public static List<Episode> of(
            Tagging tagging, @Nullable MediaTime end, UnaryOperator<String> label, Predicate<String> idle) {
        List<Episode> episodes = new ArrayList<>();
        @Nullable String before = null;
        for (PhaseSpan span : tagging.spans()) {
            MediaTime spanEnd = span.end() == null ? end : span.end();
            if (idle.test(span.phase()) || spanEnd == null || !span.start().isBefore(spanEnd)) {
                continue;
            }
            Episode one = new Episode(label.apply(span.phase()), span.start().micros(), spanEnd.micros());
            Episode last = episodes.isEmpty() ? null : episodes.get(episodes.size() - 1);
            if (last != null
                    && last.label().equals(one.label())
                    && !span.phase().equals(before)) {
                episodes.set(episodes.size() - 1, new Episode(one.label(), last.startUs(), one.endUs()));
            } else {
                episodes.add(one);
            }
            before = span.phase();
        }
        return List.copyOf(episodes);
    }
}
