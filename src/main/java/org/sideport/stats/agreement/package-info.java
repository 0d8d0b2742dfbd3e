/** How far raters, items and methods of measurement agree. */
@NullMarked
package org.sideport.stats.agreement;

import org.jspecify.annotations.NullMarked;
