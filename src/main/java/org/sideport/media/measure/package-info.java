/** What it takes to measure how fast recordings are read: made-up input, and the library's own work beside ours. */
@NullMarked
package org.sideport.media.measure;

import org.jspecify.annotations.NullMarked;
