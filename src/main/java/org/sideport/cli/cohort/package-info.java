/** Commands about the whole unit: its work, planning, complications, times and assessors. */
@NullMarked
package org.sideport.cli.cohort;

import org.jspecify.annotations.NullMarked;
