package org.sideport.workflow;

import org.sideport.model.Rubric;
import org.sideport.rubric.RubricReader;
import org.sideport.store.StoredRating;

/** The rubric that a stored rating was made with, whatever its file says now. */
public final class StoredRubrics {

    private StoredRubrics() {}

    public static Rubric of(StoredRating rating) {
        return RubricReader.read(
                rating.rubricJson(),
                "rubric " + rating.rating().rubric() + " " + rating.rating().rubricVersion());
    }
}
