/** How the files of one recording follow each other: their order, and what is missing between them. */
@NullMarked
package org.sideport.media.join;

import org.jspecify.annotations.NullMarked;
