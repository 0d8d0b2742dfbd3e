/** Looking after a workspace: is it whole, is it signed as it was, is there a copy of it. */
@NullMarked
package org.sideport.workflow.upkeep;

import org.jspecify.annotations.NullMarked;
