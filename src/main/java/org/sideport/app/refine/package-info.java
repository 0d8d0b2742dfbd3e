/** From rough tags to exact ones: boundary after boundary, frame by frame. */
@NullMarked
package org.sideport.app.refine;

import org.jspecify.annotations.NullMarked;
