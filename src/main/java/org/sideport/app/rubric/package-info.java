/** Writing and changing rubrics, with the item as the marking screen will show it beside. */
@NullMarked
package org.sideport.app.rubric;

import org.jspecify.annotations.NullMarked;
