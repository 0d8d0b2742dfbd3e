/** Samples described: sums that lose no digits, quantiles and percentiles with limits, analysis of variance. */
@NullMarked
package org.sideport.stats.describe;

import org.jspecify.annotations.NullMarked;
