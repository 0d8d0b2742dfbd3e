/** Linear mixed models with one grouping factor. */
@NullMarked
package org.sideport.stats.mixed;

import org.jspecify.annotations.NullMarked;
