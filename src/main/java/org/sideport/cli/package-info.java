/** Floor 7: the command line face (picocli). No rule of the trade lives here. */
@NullMarked
package org.sideport.cli;

import org.jspecify.annotations.NullMarked;
