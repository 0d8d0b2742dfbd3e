/** What commands write with: the console, JSON, aligned text. */
@NullMarked
package org.sideport.cli.console;

import org.jspecify.annotations.NullMarked;
