/** Variance components of random-effects models: restricted maximum likelihood, mean squares. */
@NullMarked
package org.sideport.stats.variance;

import org.jspecify.annotations.NullMarked;
