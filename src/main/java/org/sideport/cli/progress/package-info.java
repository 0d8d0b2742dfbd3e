/** A trainee's progress on the command line. */
@NullMarked
package org.sideport.cli.progress;

import org.jspecify.annotations.NullMarked;
