package org.sideport.timing;

import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.TreeSet;
import org.sideport.model.InputException;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.PointEvent;
import org.sideport.model.Tagging;

/**
 * A moment of a tagging that lies on one frame: where phases start or end, or where events happened. Neighbouring phases
 * share theirs.
 */
public record Boundary(Kind kind, MediaTime at) implements Comparable<Boundary> {

    public enum Kind {
        /** a start, an end, or both */
        PHASE,
        /** one event or several at the same time */
        EVENT;

        /** As stored: lower case. */
        public String id() {
            return name().toLowerCase(Locale.ROOT);
        }
    }

    private static final Comparator<Boundary> ORDER =
            Comparator.comparing(Boundary::at).thenComparing(Boundary::kind);

    /** All of them in the order of time. An end that is still open is none. */
    public static List<Boundary> of(Tagging tagging) {
        Set<Boundary> all = new TreeSet<>();
        for (PhaseSpan span : tagging.spans()) {
            all.add(new Boundary(Kind.PHASE, span.start()));
            MediaTime end = span.end();
            if (end != null) {
                all.add(new Boundary(Kind.PHASE, end));
            }
        }
        for (PointEvent event : tagging.events()) {
            all.add(new Boundary(Kind.EVENT, event.at()));
        }
        return List.copyOf(all);
    }

    /** Those of {@code wanted} that the tagging has. */
    public static Set<Boundary> kept(Set<Boundary> wanted, Tagging tagging) {
        Set<Boundary> kept = new HashSet<>(wanted);
        kept.retainAll(of(tagging));
        return Set.copyOf(kept);
    }

    /**
     * The tagging with this boundary at another time.
     *
     * @throws InputException if it has no such boundary, or a phase would be left without length or overlap another
     */
    public Tagging moved(Tagging tagging, MediaTime to) {
        if (to.equals(at)) {
            return tagging;
        }
        if (kind == Kind.PHASE) {
            return TaggingEdits.moveBoundary(tagging, at, to);
        }
        List<PointEvent> events =
                tagging.events().stream().filter(event -> event.at().equals(at)).toList();
        if (events.isEmpty()) {
            throw new InputException("there is no event at " + at.toClockText(), null, "look at the list again");
        }
        return TaggingEdits.shift(tagging, List.of(), events, to.micros() - at.micros());
    }

    @Override
    public int compareTo(Boundary other) {
        return ORDER.compare(this, other);
    }
}
