package org.sideport.app.review;

import java.util.function.BooleanSupplier;
import java.util.function.Supplier;
import javafx.beans.property.ReadOnlyObjectProperty;
import javafx.beans.property.ReadOnlyObjectWrapper;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Notices;
import org.sideport.app.Texts;
import org.sideport.app.keys.PhaseKeys;
import org.sideport.media.FrameRef;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Procedure.Term;
import org.sideport.model.Tagging;

/** "That was wrong since here": what runs is called something else, from the moment of the key press on. */
public final class OtherPhase {

    private final TagStamps stamps;
    private final TagStamps.Edits edits;
    private final BooleanSupplier refused;
    private final Supplier<@Nullable Tagging> tagging;
    private final Notices notices;
    private final Texts texts;
    private final ReadOnlyObjectWrapper<@Nullable MediaTime> since = new ReadOnlyObjectWrapper<>(null);

    OtherPhase(
            TagStamps stamps,
            TagStamps.Edits edits,
            BooleanSupplier refused,
            Supplier<@Nullable Tagging> tagging,
            Notices notices,
            Texts texts) {
        this.stamps = stamps;
        this.edits = edits;
        this.refused = refused;
        this.tagging = tagging;
        this.notices = notices;
        this.texts = texts;
    }

    /** From when on it was another phase; {@code null} while nobody has said so. */
    public ReadOnlyObjectProperty<@Nullable MediaTime> sinceProperty() {
        return since.getReadOnlyProperty();
    }

    /** Takes the moment; which phase it was is said by {@link #was}. */
    public void begin() {
        if (since.get() != null || refused.getAsBoolean()) {
            return;
        }
        stamps.moment((seen, meant) -> asked(meant), (seen, meant) -> {
            if (since.get() != null) {
                since.set(meant.start());
            }
        });
    }

    private void asked(FrameRef meant) {
        if (running(meant.start()) == null) {
            notices.hint(texts.get("other.why.nothingRuns"));
        } else {
            since.set(meant.start());
        }
    }

    /** What runs at a time. */
    public @Nullable PhaseSpan running(MediaTime at) {
        Tagging now = tagging.get();
        return now == null ? null : now.spanAt(at);
    }

    /**
     * It was this phase from there on.
     *
     * @param whole true for the whole stretch, from its start on
     */
    public void was(Term term, boolean whole) {
        MediaTime from = since.get();
        since.set(null);
        if (from == null) {
            return;
        }
        edits.edit(session -> {
            PhaseSpan running = session.tagging().spanAt(from);
            session.relabelFrom(whole && running != null ? running.start() : from, term.id());
        });
    }

    /** As {@link #was(Term, boolean)} by the phase's key. @return false if it is no phase's */
    public boolean wasByKey(@Nullable Procedure procedure, String key, boolean whole) {
        Term term = PhaseKeys.termOf(procedure, key).orElse(null);
        if (term != null) {
            was(term, whole);
        }
        return term != null;
    }

    public void cancel() {
        since.set(null);
    }
}
