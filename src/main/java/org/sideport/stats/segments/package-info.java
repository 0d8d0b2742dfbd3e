/** Labelled stretches of a recording: agreement of two taggers, and the order of the labels. */
@NullMarked
package org.sideport.stats.segments;

import org.jspecify.annotations.NullMarked;
