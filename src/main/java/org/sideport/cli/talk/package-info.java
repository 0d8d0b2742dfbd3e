/** Commands about comments and measurements on stills. */
@NullMarked
package org.sideport.cli.talk;

import org.jspecify.annotations.NullMarked;
