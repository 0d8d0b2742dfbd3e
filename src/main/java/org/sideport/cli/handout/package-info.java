/** Commands that write what people take away. */
@NullMarked
package org.sideport.cli.handout;

import org.jspecify.annotations.NullMarked;
