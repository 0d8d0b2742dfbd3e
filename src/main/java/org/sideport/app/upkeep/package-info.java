/** The programme's part for the store: check, backups, audit trail. */
@NullMarked
package org.sideport.app.upkeep;

import org.jspecify.annotations.NullMarked;
