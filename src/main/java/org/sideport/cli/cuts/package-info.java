/** Commands about cuts of recordings. */
@NullMarked
package org.sideport.cli.cuts;

import org.jspecify.annotations.NullMarked;
