/** Resampling with a seed. */
@NullMarked
package org.sideport.stats.resample;

import org.jspecify.annotations.NullMarked;
