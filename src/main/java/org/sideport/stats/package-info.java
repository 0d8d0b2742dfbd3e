/** Floor 1: numerics that know no surgery. */
@NullMarked
package org.sideport.stats;

import org.jspecify.annotations.NullMarked;
