/** The computations of the {@code stats} floor on plain CSV files. */
@NullMarked
package org.sideport.cli.stats;

import org.jspecify.annotations.NullMarked;
