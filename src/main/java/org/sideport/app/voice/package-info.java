/** Comments that are spoken: recorded with what is seen, and played back in step with it. */
@NullMarked
package org.sideport.app.voice;

import org.jspecify.annotations.NullMarked;
