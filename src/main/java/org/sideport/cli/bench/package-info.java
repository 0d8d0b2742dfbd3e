/** Speed of the computations, measured beside a reference in the same run. */
@NullMarked
package org.sideport.cli.bench;

import org.jspecify.annotations.NullMarked;
