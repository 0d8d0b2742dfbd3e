/** Least squares, linear and not, robust fits, profile-likelihood limits and the comparison of models. */
@NullMarked
package org.sideport.stats.regression;

import org.jspecify.annotations.NullMarked;
