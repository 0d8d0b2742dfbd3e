package org.sideport.app.frame;

import java.util.List;
import javafx.scene.input.KeyEvent;
import org.jspecify.annotations.Nullable;
import org.sideport.app.Notices;
import org.sideport.app.Settings;
import org.sideport.app.picture.PictureDesk;
import org.sideport.app.review.ReviewViewModel;
import org.sideport.app.settings.CompactAction;
import org.sideport.app.settings.KeyLayout;
import org.sideport.app.settings.PedalKeys;
import org.sideport.model.MediaTime;
import org.sideport.model.PhaseSpan;
import org.sideport.model.Procedure;
import org.sideport.model.Tagging;

/** Does what the keys of one hand, or of a foot pedal, stand for. */
final class OneHand {

    static final String SETTING = "keys.layout";

    private static final long TWO_SECONDS = 2_000_000;

    private final Settings settings;
    private final ReviewViewModel review;
    private final PictureDesk desk;
    private final Notices notices;

    OneHand(Settings settings, ReviewViewModel review, Notices notices) {
        this.settings = settings;
        this.review = review;
        this.desk = review.desk();
        this.notices = notices;
    }

    /**
     * @param tagging whether tags may be set where the user is
     * @return true if the key meant something
     */
    boolean handle(KeyEvent event, boolean tagging) {
        CompactAction action = CompactAction.of(event, KeyLayout.of(settings.get(SETTING, "")), PedalKeys.of(settings))
                .orElse(null);
        if (action == null || !desk.isReady()) {
            return false;
        }
        switch (action) {
            case PLAY_OR_PAUSE -> desk.playOrPause();
            case BACK_TWO -> desk.skip(-TWO_SECONDS);
            case FORWARD_TWO -> desk.skip(TWO_SECONDS);
            case FRAME_BACK -> desk.step(-1);
            case FRAME_ON -> desk.step(1);
            case PREVIOUS_BOUNDARY -> review.goToBoundary(false);
            case NEXT_BOUNDARY -> review.goToBoundary(true);
            default -> {
                if (!tagging) {
                    return false;
                }
                tag(action);
            }
        }
        return true;
    }

    private void tag(CompactAction action) {
        Procedure procedure = review.procedureProperty().get();
        if (procedure == null) {
            return;
        }
        if (action == CompactAction.EVENT) {
            review.beginEvent();
        } else if (action == CompactAction.END_PHASE) {
            procedure.terms().stream()
                    .filter(term -> term.phase().idle())
                    .findFirst()
                    .ifPresent(review::tag);
        } else {
            Procedure.Term next = next(
                    procedure,
                    review.taggingProperty().get(),
                    desk.timeProperty().get());
            if (next == null) {
                notices.hintOf("compact.why.last");
            } else {
                review.tag(next);
            }
        }
    }

    /** The phase after the one that began last before a time, in the procedure's order; {@code null} after the last. */
    static Procedure.@Nullable Term next(Procedure procedure, @Nullable Tagging tagging, MediaTime at) {
        List<Procedure.Term> phases = procedure.terms().stream()
                .filter(term -> !term.isStep() && !term.phase().idle())
                .toList();
        PhaseSpan last = null;
        if (tagging != null) {
            for (PhaseSpan span : tagging.spans()) {
                if (!span.start().isAfter(at) && (last == null || !span.start().isBefore(last.start()))) {
                    last = span;
                }
            }
        }
        int place = 0;
        if (last != null) {
            String term = last.phase();
            String phase = procedure.find(term).map(found -> found.phase().id()).orElse(term);
            for (int i = 0; i < phases.size(); i++) {
                if (phases.get(i).phase().id().equals(phase)) {
                    place = i + 1;
                }
            }
        }
        return place < phases.size() ? phases.get(place) : null;
    }
}
