/**
 * Curves measured from the pictures of a recording, and what they suggest: findings about the recording and proposals of
 * boundaries. Suggestions only; nothing here becomes a tag by itself.
 */
@NullMarked
package org.sideport.media.trace;

import org.jspecify.annotations.NullMarked;
