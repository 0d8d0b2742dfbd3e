/** Many-facet Rasch models: trainees, assessors and items on one scale. */
@NullMarked
package org.sideport.stats.rasch;

import org.jspecify.annotations.NullMarked;
