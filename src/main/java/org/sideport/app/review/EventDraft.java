package org.sideport.app.review;

import org.jspecify.annotations.Nullable;
import org.sideport.model.MediaTime;
import org.sideport.model.PointEvent;

/**
 * An event that is being written.
 *
 * @param at the frame it is set on
 * @param replaces the event that is being changed, or {@code null} for a new one
 */
public record EventDraft(MediaTime at, @Nullable PointEvent replaces) {}
