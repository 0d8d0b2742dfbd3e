package org.sideport.app.marking;

import org.sideport.model.Rating;
import org.sideport.model.RatingState;
import org.sideport.rubric.Score;
import org.sideport.workflow.MarkSession;

/**
 * A rating as it stands.
 *
 * @param digest of what was signed; empty for a draft
 */
public record Marks(MarkSession session, Rating rating, RatingState state, Score score, String digest) {

    static Marks of(MarkSession of) {
        return new Marks(of, of.rating(), of.state(), of.score(), of.digest());
    }

    public boolean isSigned() {
        return state != RatingState.DRAFT;
    }
}
