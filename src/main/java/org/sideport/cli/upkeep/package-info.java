/** Commands that look after a workspace: check, backup, restore, audit trail, signed ratings. */
@NullMarked
package org.sideport.cli.upkeep;

import org.jspecify.annotations.NullMarked;
