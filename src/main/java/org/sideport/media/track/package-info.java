/** Where the eye and the tip of an instrument are in the pictures, and what their movement amounts to. */
@NullMarked
package org.sideport.media.track;

import org.jspecify.annotations.NullMarked;
