/** The cohort as a director looks at it: matrix, work, planning, complications, times, assessors. */
@NullMarked
package org.sideport.app.cohort;

import org.jspecify.annotations.NullMarked;
