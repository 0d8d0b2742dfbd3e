/** Circles, ellipses and polygons through points marked on a still, with the uncertainty that marking and scale bring. */
@NullMarked
package org.sideport.stats.geometry;

import org.jspecify.annotations.NullMarked;
