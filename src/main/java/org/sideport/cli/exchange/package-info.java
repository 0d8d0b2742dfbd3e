/** Commands that carry cases and people's data out of one store and into another. */
@NullMarked
package org.sideport.cli.exchange;

import org.jspecify.annotations.NullMarked;
