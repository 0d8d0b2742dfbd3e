package org.sideport.stats.rasch;

import org.jspecify.annotations.Nullable;
import org.sideport.stats.Estimate;

/**
 * One trainee, assessor or item.
 *
 * @param n marks
 * @param meanLevel of these marks as they are
 * @param logits ability, severity or difficulty; {@code null} where the marks give none. Limits are normal ones
 * @param fit {@code null} where the marks are extreme
 * @param fairAverage level to be expected from a trainee by an assessor of mean severity; that an assessor would give a
 *     trainee of mean ability; that a trainee of mean ability would get on an item from an assessor of mean severity. Over
 *     the items: at the mean item in the rating scale model, the mean over all measured items in the partial credit model,
 *     where items have no mean steps
 */
public record Measure(
        String label,
        int n,
        double meanLevel,
        Extreme extreme,
        @Nullable Estimate logits,
        @Nullable MeanSquares fit,
        @Nullable Estimate fairAverage) {}
