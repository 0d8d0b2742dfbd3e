/** Learning curves of one series of cases: which curve, its limits, change-points, cases to a reference, outlying cases. */
@NullMarked
package org.sideport.stats.learning;

import org.jspecify.annotations.NullMarked;
