/** Comments tied to moments, and drawings on the picture. */
@NullMarked
package org.sideport.app.comment;

import org.jspecify.annotations.NullMarked;
