/** Who marks what, marks that differ, and practice: parts of the programme's screen and of those of the assessors. */
@NullMarked
package org.sideport.app.assign;

import org.jspecify.annotations.NullMarked;
