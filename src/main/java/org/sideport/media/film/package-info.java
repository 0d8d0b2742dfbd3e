/** A film out of a recording: shots played, slowed and held as somebody spoke over them, with drawings in the picture. */
@NullMarked
package org.sideport.media.film;

import org.jspecify.annotations.NullMarked;
