/** Floor 4: the workspace folder and its SQLite file. */
@NullMarked
package org.sideport.store;

import org.jspecify.annotations.NullMarked;
