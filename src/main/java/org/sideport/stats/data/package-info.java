/** Observations in long form: one value a row, coded by factors. */
@NullMarked
package org.sideport.stats.data;

import org.jspecify.annotations.NullMarked;
