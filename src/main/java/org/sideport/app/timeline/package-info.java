/**
 * A timeline as a control of its own: {@link org.sideport.app.timeline.TimelineView} draws an immutable
 * {@link org.sideport.app.timeline.TimelineModel} on a canvas and sends what the user asks for to a
 * {@link org.sideport.app.timeline.TimelineHandler}. It changes nothing itself and knows nothing of cases and stores.
 *
 * <p>Geometry lives in classes without a scene ({@code TimeScale}, {@code SpanIndex}, {@code PointIndex},
 * {@code MinMaxPyramid}, {@code LaneLayout}, {@code HitTester}, {@code Snapper}, {@code LabelFit},
 * {@code FilmstripSlots}); colours come from CSS ({@code timeline.css}).
 */
@NullMarked
package org.sideport.app.timeline;

import org.jspecify.annotations.NullMarked;
