package org.sideport.stats.rasch;

import org.sideport.stats.data.Factor;

/**
 * Marks in long form: one trainee, one assessor, one item, one level. Repeated marks of the same three (several cases of
 * one trainee) are further marks.
 *
 * @param levels whole numbers in order of merit, for instance 2 to 5; not to be changed
 */
@SuppressWarnings("ArrayRecordComponent")
public record Markings(Factor trainees, Factor assessors, Factor items, int[] levels) {

    public Markings {
        for (Factor factor : new Factor[] {trainees, assessors, items}) {
            if (factor.codes().length != levels.length) {
                throw new IllegalArgumentException(
                        factor.name() + " has " + factor.codes().length + " codes for " + levels.length + " marks");
            }
        }
    }

    public int size() {
        return levels.length;
    }

    int trainee(int row) {
        return trainees.codes()[row];
    }

    int assessor(int row) {
        return assessors.codes()[row];
    }

    int item(int row) {
        return items.codes()[row];
    }
}
