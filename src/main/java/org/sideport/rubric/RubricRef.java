package org.sideport.rubric;

import org.sideport.model.Rubric;

/** Which rubric a rating file was made for. */
public record RubricRef(String id, String version) {

    public static RubricRef of(Rubric rubric) {
        return new RubricRef(rubric.id(), rubric.version());
    }

    @Override
    public String toString() {
        return id + " " + version;
    }
}
