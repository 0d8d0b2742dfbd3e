/** The commands of the group {@code people}. */
@NullMarked
package org.sideport.cli.people;

import org.jspecify.annotations.NullMarked;
